"""A price level: one combination of shelf counts at one price, and the search of its layouts.

A level has the sizes and the stock they take. A candidate is one layout of it that may be a point
of the front, and the finisher makes options of candidates.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.layout_problem import LayoutProblem
from solver.layout.pareto_front import ParetoSearch
from solver.layout.pareto_points import Beaten, Fineness, ParetoFront, ParetoPoint
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Progress, Status
from solver.plan.plan import Option, Stage
from solver.plan.stocked import MatchedSet
from solver.planning.assemble import PROVABLE, LaidOut, stocked_option, with_layout
from solver.planning.band_parts import with_band
from solver.planning.matched_shelves import with_sets
from solver.planning.option_stages import rounded, stages_of
from solver.sizing.choose_sizes import ChosenSizes, choose_sizes
from solver.sizing.combinations import Counts, name_of
from solver.sizing.on_hand_outcome import with_on_hand_holds
from solver.sizing.purchase import Buyer, sheet_parts
from solver.units import Ticks


@dataclass(frozen=True)
class PriceLevel:
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
    sized: ChosenSizes
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

    level: PriceLevel
    traded: ParetoPoint

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


class UncomparedSizes(Enum):
    """Whether there are sizes that no level answers for."""

    NONE = "none"
    IF_BETTER = "if better"
    """Only if the roomiest sizes have something better."""
    SOME = "some"


@dataclass
class LevelSearch:
    """The search of one level for its layouts, and what was found so far."""

    level: PriceLevel
    trading: ParetoSearch
    between: UncomparedSizes = UncomparedSizes.NONE

    @property
    def trade(self) -> ParetoFront:
        """What was found so far."""
        return self.trading.trade

    @property
    def candidates(self) -> list[Candidate]:
        """The layouts found so far."""
        return [Candidate(self.level, point) for point in self.trade.points]


def start_search(
    job: Job, counts: Counts, buyer: Buyer, limits: Limits, fineness: Fineness, say: Progress
) -> LevelSearch:
    """Choose the cheapest sizes of a combination, and find its best rhythm.

    Shelf lines are shared where the job asks for it, unless that leaves something out that
    would fit otherwise. Raises CannotBeDoneError where the parts cannot be cut.
    """
    search = _started(_level(job, counts, buyer, limits, share=True), limits, fineness, say)
    several = any(len(group.bays) > 1 for group in search.level.problem.groups)
    if job.look.share_lines and several and search.trade.status is Status.INFEASIBLE:
        level = _level(job, counts, buyer, limits, share=False)
        alone = _started(level, limits, fineness, say)
        search = alone if alone.trade.points else search
    if search.trade.points:
        search.level = with_matched(search.level, buyer, limits)
    return search


def _level(job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool) -> PriceLevel:
    sized = choose_sizes(job, counts, buyer, limits, share=share)
    problem = build(sized.job, counts, sized.depths, share=share)
    return PriceLevel(counts, sized, problem, share)


def _started(level: PriceLevel, limits: Limits, fineness: Fineness, say: Progress) -> LevelSearch:
    sized = level.sized
    price = f"{sized.job.head.currency} {sized.stock.price} (not below {sized.bound})"
    say(f"{name_of(sized.job, level.counts)}: {price}, placing shelves")
    search = LevelSearch(level, ParetoSearch(level.problem, limits, fineness))
    search.trading.first()
    return search


def with_matched(level: PriceLevel, buyer: Buyer, limits: Limits) -> PriceLevel:
    """Lay matched shelves beside each other wherever that costs nothing more."""
    sized, sets = with_sets(buyer, level.sized, level.counts, limits)
    return replace(level, sized=sized, sets=sets)


def beaten_in(search: LevelSearch, known: Sequence[Candidate], fineness: Fineness) -> Beaten:
    """Say what is not seen to be better than what is known at no higher price than a level's."""
    level = search.level
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
    """Makes options of the layouts found; the stock of each level is written down once.

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
        self._stocked: dict[int, tuple[PriceLevel, Option]] = {}

    def option(self, candidate: Candidate) -> Option:
        """Return the finished option."""
        level, answer = candidate.level, candidate.traded.answer
        sized = level.sized

        def stages(rhythm: Ticks) -> tuple[Stage, ...]:
            return tuple(_noted(stage) for stage in stages_of(sized, answer, rhythm))

        laid = LaidOut(self.job, sized.job, sized.depths, level.problem, answer)
        provable = (*PROVABLE, "headroom")
        option = with_layout(self._with_stock(level), laid, stages, provable=provable)
        return with_band(self.job, with_on_hand_holds(option, self._kept), self._limits)

    def _with_stock(self, level: PriceLevel) -> Option:
        if id(level) not in self._stocked:
            sized, floor = level.sized, level.floor
            option = stocked_option(
                self.job,
                level.counts,
                sheet_parts(sized.job, level.counts, sized.depths),
                sized.stock,
                bound=sized.bound if floor is None else min(floor, sized.stock.price),
                sheet_bound=sized.sheet_bound,
                sets=level.sets,
            )
            self._stocked[id(level)] = (level, option)
        return self._stocked[id(level)][1]


def _noted(stage: Stage) -> Stage:
    return stage.model_copy(update={"note": HELD[stage.name]}) if stage.name in HELD else stage
