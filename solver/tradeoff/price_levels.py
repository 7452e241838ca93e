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
from solver.sizing.pricing import INFINITE_COST, CostKey
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

    @property
    def problem(self) -> LayoutProblem:
        """The layout problem at these sizes, with no more places parted."""
        assert self.sized is not None
        one = build(self.sized.job, self.counts, self.sized.depths, share=self.share)
        return at_most(one, self.parted)


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


def compared(cost: CostKey) -> Cost:
    """Return what is compared of a cost."""
    return square_metres(cost[1]), cost[0]


def cost_of(sized: ChosenSizes) -> Cost:
    """Return what the stock of some sizes costs."""
    return compared((sized.stock.price, sized.stock.area_unpriced))


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
        level = Level(counts, share, None, 0, sized, floor_of(sized))
        return Levels(counts, refused=_refusal(solve_layout(level.problem, limits, later=False)))
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
    free, least = search.boxes.cheapest(), 0
    if search.fitting.left.loss == NOTHING:
        least = search.fitting.least_parted(search.boxes.starts)
        for parted in range(least, least + STEPS_MOST):
            level = _level(search.at_most(parted), counts, parted, share=share)
            yield level
            least = parted + 1
            if level.cost <= compared(free.cost):
                break
        if level.cost <= compared(free.cost) and free.cost <= free.bound:
            return
    sized = chosen_of(search, free)
    yield Level(counts, share, None, least, sized, floor_of(sized))


def _level(search: SizeSearch, counts: Counts, parted: int, *, share: bool) -> Level:
    cheapest = search.boxes.cheapest()
    sized = None if cheapest.point is None else chosen_of(search, cheapest)
    if sized is not None:
        floor = floor_of(sized)
    else:
        floor = NEVER if cheapest.bound == INFINITE_COST else (0.0, cheapest.bound[0])
    return Level(counts, share, parted, parted, sized, floor)


def floor_of(sized: ChosenSizes) -> Cost:
    """Return what no sizes of a search cost less than."""
    return cost_of(sized) if sized.price_proven else (0.0, sized.bound)
