"""The levels of one combination of shelf counts: its least price for each number parted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias

from solver.job.job import Job
from solver.layout.fit import NOTHING, at_most
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status
from solver.plan.price_front import square_metres
from solver.sizing.choose_sizes import ChosenSizes, SizeSearch, chosen_of, size_search
from solver.sizing.combinations import Counts
from solver.sizing.pricing import INFINITE_COST
from solver.sizing.purchase import Buyer

Cost: TypeAlias = tuple[float, Decimal]
"""What is compared: area bought without a price [m2], then the price."""
NEVER: Cost = (float("inf"), Decimal("Infinity"))
STEPS_MOST = 12
"""Numbers of places parted that are tried before only their bound is told [-]."""


@dataclass(frozen=True)
class Level:
    """The cheapest sizes at which all fits with no more than so many places parted.

    Attributes
    ----------
    parted
        Most places parted; None: any number [-].
    least
        Levels of the same counts with fewer places parted than this come before it [-].
    sized
        The sizes and their stock; None where none were found.
    floor
        No such sizes cost less.
    """

    counts: Counts
    share: bool
    parted: int | None
    least: int
    sized: ChosenSizes | None
    floor: Cost

    @property
    def cost(self) -> Cost:
        """What the stock costs."""
        return NEVER if self.sized is None else cost_of(self.sized)


@dataclass(frozen=True)
class Levels:
    """All levels of one combination, fewest places parted first.

    Attributes
    ----------
    refused
        Why there are none, if that is proven.
    """

    counts: Counts
    levels: tuple[Level, ...] = ()
    refused: str | None = None


def cost_of(sized: ChosenSizes) -> Cost:
    """Return what the stock of some sizes costs."""
    return square_metres(sized.stock.area_unpriced), sized.stock.price


def levels_of(job: Job, counts: Counts, buyer: Buyer, limits: Limits) -> Levels:
    """Find the levels of a combination.

    Shelf lines are shared where the job asks for it, unless that leaves something out that
    would fit otherwise. Raises CannotBeDoneError where the parts cannot be cut.
    """
    # sizes are not kept to those that look best: the price of that is what the front is about
    job = job.model_copy(update={"look": job.look.model_copy(update={"prefer": "price"})})
    search, share = _search(job, counts, buyer, limits, share=True), True
    if leaves_out(search) and job.look.share_lines:
        alone = _search(job, counts, buyer, limits, share=False)
        if not leaves_out(alone):
            search, share = alone, False
    if leaves_out(search):
        sized = chosen_of(search)
        problem = build(sized.job, counts, sized.depths, share=share)
        return Levels(counts, refused=_refusal(solve_layout(problem, limits, later=False)))
    return Levels(counts, tuple(_levels(search, counts, share=share)))


def _search(job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool) -> SizeSearch:
    search = size_search(job, counts, buyer, limits, share=share)
    if not search.grid.axes:  # one choice of sizes, which has not been asked about
        search.fitting.measure(search.boxes.starts)
    return search


def leaves_out(search: SizeSearch) -> bool:
    """Whether it is proven that at no sizes everything fits."""
    left = search.fitting.left
    return left.status is Status.INFEASIBLE or left.bound != NOTHING


def _refusal(answer: LayoutAnswer) -> str:
    if answer.status is Status.INFEASIBLE:
        return "no shelf positions are allowed"
    left = sum(answer.left.values())
    return f"{left or 'some'} thing{'' if left == 1 else 's'} would find no place"


def _levels(search: SizeSearch, counts: Counts, *, share: bool) -> Iterator[Level]:
    """With more and more places parted, then with any number where that may cost less still."""
    free, least = chosen_of(search), 0
    if search.fitting.left.loss == NOTHING:
        least = search.fitting.least_parted(search.boxes.starts)
        for parted in range(least, least + STEPS_MOST):
            level = _level(search.at_most(parted), counts, parted, share=share)
            yield level
            least = parted + 1
            if level.cost <= cost_of(free):
                break
        if level.cost <= cost_of(free) and free.price_proven:
            return
    yield Level(counts, share, None, least, free, floor_of(free))


def _level(search: SizeSearch, counts: Counts, parted: int, *, share: bool) -> Level:
    cheapest = search.boxes.cheapest()
    if cheapest.point is not None:
        sized = chosen_of(search, cheapest)
        return Level(counts, share, parted, parted, sized, floor_of(sized))
    never = cheapest.bound == INFINITE_COST
    floor = NEVER if never else (0.0, cheapest.bound[0])
    return Level(counts, share, parted, parted, None, floor)


def floor_of(sized: ChosenSizes) -> Cost:
    """Return what no sizes of a search cost less than."""
    return cost_of(sized) if sized.price_proven else (0.0, sized.bound)


@dataclass(frozen=True)
class Candidate:
    """One layout of one level, in which everything fits: what may be a point of the front."""

    level: Level
    sized: ChosenSizes
    problem: LayoutProblem
    answer: LayoutAnswer

    @property
    def parted(self) -> int:
        """Places parted [-]."""
        stages = self.answer.stages
        found = (stages[name].value for name in ("headings", "together") if name in stages)
        return int(sum(value or 0 for value in found))

    @property
    def compared(self) -> tuple[Cost, int]:
        """What is compared."""
        return self.level.cost, self.parted


def laid_out(level: Level, limits: Limits) -> Candidate | None:
    """Return the layout of a level; None where none was found in which everything fits."""
    sized = level.sized
    if sized is None:
        return None
    problem = build(sized.job, level.counts, sized.depths, share=level.share)
    problem = at_most(problem, level.parted)
    answer = solve_layout(problem, limits)
    if not answer.marks_known or any(answer.left.values()):
        return None
    return Candidate(level, sized, problem, answer)
