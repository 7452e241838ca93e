"""One lane of the front: a combination of shelf counts at one price, and its layouts.

From a layout of the front to the finished option.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from solver.carcass.decided import open_sizes
from solver.changes.saving_changes import with_room
from solver.doorway.swing_analysis import swing_notes
from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.layout_problem import LayoutProblem
from solver.layout.pareto_front import Trading
from solver.layout.pareto_points import Beaten, Fineness, Trade, Traded
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Progress, Status
from solver.plan.plan import Option, Stage
from solver.plan.stocked import MatchedSet
from solver.planning.assemble import case_plans, sag_notes, shared_lines
from solver.planning.band_parts import with_band
from solver.planning.matched_shelves import with_sets
from solver.planning.on_hand_sheets import drawn
from solver.planning.option_stages import cost_of, rounded, scores, stages_of
from solver.sequence.sequencing import Sequenced, sequence, sequence_sticks
from solver.sizing.choose_sizes import Sized, choose_sizes
from solver.sizing.combinations import Counts, name_of
from solver.sizing.on_hand_outcome import with_kept
from solver.sizing.purchase import Buyer, sheet_parts
from solver.strength.hang_sheet import with_hanging
from solver.strength.shelves_of_plan import strength_of
from solver.units import Ticks


@dataclass(frozen=True)
class Level:
    """Sizes of one combination of shelf counts, the stock that they take, and their layouts.

    Attributes
    ----------
    sized, problem
        The sizes built, and the layout problem at them.
    share
        Whether shelf lines are shared where the job asks for it.
    floor
        No sizes with these shelf counts that let as much fit cost less; None: the bound
        of `sized` says so.
    """

    counts: Counts
    sized: Sized
    problem: LayoutProblem
    share: bool
    floor: Decimal | None = None
    sets: tuple[MatchedSet, ...] = ()

    @property
    def cost(self) -> Decimal:
        """What is compared: the price, and what is bought without one as its area."""
        return self.sized.stock.price + Decimal(self.sized.stock.area_unpriced)

    @property
    def priced(self) -> bool:
        """True where everything bought has a price."""
        return self.sized.stock.area_unpriced == 0

    @property
    def openings(self) -> int:
        """How many openings there are in all [-]."""
        return sum(bay.openings for bay in self.problem.bays)


@dataclass(frozen=True)
class Candidate:
    """One layout of one level: what may be a point of the front."""

    level: Level
    traded: Traded

    @property
    def look(self) -> tuple[Ticks, Evenness]:
        """Rhythm for each opening, to the nearest tick as it is told, and evenness of headroom."""
        return rounded(self.traded.rhythm / self.level.openings), self.traded.even

    def is_twin(self, other: Candidate) -> bool:
        """True where shelf counts, price and look are the same."""
        mine, its = self.level, other.level
        return (mine.counts, mine.cost, self.look) == (its.counts, its.cost, other.look)

    def beats(self, other: Candidate) -> bool:
        """True where this is as good in all three, and better in one."""
        (rhythm, even), (its_rhythm, its_even) = self.look, other.look
        cost, its_cost = self.level.cost, other.level.cost
        as_good = cost <= its_cost and rhythm <= its_rhythm and even <= its_even
        return as_good and (cost, rhythm, even) != (its_cost, its_rhythm, its_even)


class Between(Enum):
    """Whether there are sizes that no level answers for."""

    NONE = "none"
    IF_BETTER = "if better"
    """Only if the roomiest sizes have something better."""
    SOME = "some"


@dataclass
class Lane:
    """A level on its way: the search for its layouts, and what came of it."""

    level: Level
    trading: Trading
    between: Between = Between.NONE

    @property
    def trade(self) -> Trade:
        """What was found so far."""
        return self.trading.trade

    @property
    def candidates(self) -> list[Candidate]:
        """The layouts found so far."""
        return [Candidate(self.level, point) for point in self.trade.points]


def start_lane(
    job: Job, counts: Counts, buyer: Buyer, limits: Limits, fineness: Fineness, say: Progress
) -> Lane:
    """Choose the cheapest sizes of a combination, and find its best rhythm.

    Shelf lines are shared where the job asks for it, unless that leaves something out that
    would fit otherwise. Raises CannotBeDoneError where the parts cannot be cut.
    """
    lane = _started(_level(job, counts, buyer, limits, share=True), limits, fineness, say)
    several = any(len(group.bays) > 1 for group in lane.level.problem.groups)
    if job.look.share_lines and several and lane.trade.status is Status.INFEASIBLE:
        level = _level(job, counts, buyer, limits, share=False)
        alone = _started(level, limits, fineness, say)
        lane = alone if alone.trade.points else lane
    lane.level = with_matched(lane.level, buyer, limits) if lane.trade.points else lane.level
    return lane


def _level(job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool) -> Level:
    sized = choose_sizes(job, counts, buyer, limits, share=share)
    problem = build(sized.job, counts, sized.depths, share=share)
    return Level(counts, sized, problem, share)


def _started(level: Level, limits: Limits, fineness: Fineness, say: Progress) -> Lane:
    sized = level.sized
    price = f"{sized.job.head.currency} {sized.stock.price} (not below {sized.bound})"
    say(f"{name_of(sized.job, level.counts)}: {price}, placing shelves")
    lane = Lane(level, Trading(level.problem, limits, fineness))
    lane.trading.first()
    return lane


def with_matched(level: Level, buyer: Buyer, limits: Limits) -> Level:
    """Lay matched shelves beside each other wherever that costs nothing more."""
    sized = level.sized
    parts = sheet_parts(sized.job, level.counts, sized.depths)
    stock, sets = with_sets(buyer, sized.stock, parts, limits)
    return replace(level, sized=replace(sized, stock=stock), sets=sets)


def beaten_in(lane: Lane, known: Sequence[Candidate], fineness: Fineness) -> Beaten:
    """Say for a lane what cannot be seen to be better than what is known at no higher price."""
    level = lane.level
    looks = [one.look for one in known if one.level.cost <= level.cost]

    def beaten(rhythm: Fraction, even: Evenness) -> bool:
        most = (rhythm + fineness.rhythm) / level.openings
        evenest = Evenness(even.empty, even.spread + fineness.headroom)
        return any(r <= most and e <= evenest for r, e in looks)

    return beaten


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
