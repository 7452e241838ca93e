"""From a layout of the front to the finished option."""

from __future__ import annotations

from solver.carcass.decided import open_sizes
from solver.changes.advising import with_room
from solver.doorway.swing_analysis import swing_notes
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.plan import Option, Stage
from solver.planning.assemble import case_plans, shared_lines
from solver.planning.band_parts import with_band
from solver.planning.heavy_to_ends import sag_notes
from solver.planning.on_hand_sheets import drawn
from solver.planning.option_scores import scores
from solver.planning.option_stages import cost_of, stages_of
from solver.sequence.sequencing import Sequenced, sequence
from solver.sequence.stick_order import sequence_sticks
from solver.sizing.combinations import name_of
from solver.sizing.on_hand_outcome import with_kept
from solver.sizing.purchase import sheet_parts
from solver.strength.hang_sheet import with_hanging
from solver.strength.shelves_of_plan import strength_of
from solver.tradeoff.lanes import Candidate, Level

HELD = {
    "rhythm": "at this price, with headroom as even",
    "headroom": "at this price, with a rhythm as good",
}
"""What the bounds of a point hold for."""


class Finisher:
    """Finishes options; the cuts of one level are put in order once.

    Parameters
    ----------
    kept
        What is held by what is there already, in words.
    limits
        Limits of the searches that are left: sheets for any thickness of a band.
    """

    def __init__(self, job: Job, kept: tuple[str, ...], limits: Limits) -> None:
        self.job = job
        self._kept, self._limits = kept, limits
        self._cuts: dict[int, tuple[Level, Sequenced]] = {}

    def option(self, candidate: Candidate) -> Option:
        """Return the finished option."""
        level, answer = candidate.level, candidate.traded.answer
        sized, counts = level.sized, level.counts
        parts = sheet_parts(sized.job, counts, sized.depths)
        cases = case_plans(sized.job, level.problem, answer, sized.depths)
        made = drawn(self.job, parts, sized.stock)
        figures = scores(self.job, cases, made.to_cut, made.sheets)
        stages = tuple(_noted(stage) for stage in stages_of(sized, answer, figures.rhythm))
        cuts, cost = self._sequenced(level), cost_of(self.job, sized)
        if level.floor is not None:
            cost = cost.model_copy(update={"stock_bound": min(level.floor, cost.total)})
        bearing = strength_of(self.job, cases)
        option = Option(
            name=name_of(self.job, counts),
            shelf_counts=dict(counts),
            status=_status(stages),
            why=None,
            stages=stages,
            cases=cases,
            lines=shared_lines(level.problem, cases),
            lines_apart=level.problem.lines_apart,
            open_sizes=open_sizes(self.job, cases),
            left_out=(),
            parts=parts,
            sheets=cuts.sheets,
            settings=cuts.settings,
            sets=level.sets,
            mouldings=sequence_sticks(sized.stock.sticks),
            sheet_count=sized.stock.sheet_count,
            sheet_bound=sized.sheet_bound,
            cost=cost,
            scores=figures,
            have=made.have,
            strength=bearing,
            notes=(*swing_notes(cases), *sag_notes(bearing)),
        )
        whole = with_kept(with_room(with_hanging(self.job, option)), self._kept)
        return with_band(self.job, whole, self._limits)

    def _sequenced(self, level: Level) -> Sequenced:
        if id(level) not in self._cuts:
            parts = sheet_parts(level.sized.job, level.counts, level.sized.depths)
            sheets = drawn(self.job, parts, level.sized.stock).sheets
            cuts = sequence(sheets, self.job.shop, parts)
            self._cuts[id(level)] = (level, cuts)
        return self._cuts[id(level)][1]


def _noted(stage: Stage) -> Stage:
    return stage.model_copy(update={"note": HELD[stage.name]}) if stage.name in HELD else stage


def _status(stages: tuple[Stage, ...]) -> Status:
    named = {stage.name: stage.proven for stage in stages}
    whole = all(named.get(name, True) for name in ("fit", "price", "size", "rhythm", "headroom"))
    return Status.OPTIMAL if whole else Status.FEASIBLE
