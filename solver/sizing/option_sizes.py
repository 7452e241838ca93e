"""Sizes of all combinations of shelf counts, chosen before any shelf is placed.

Sizes and stock are settled soon, layouts are not. So the combinations in which most fits, and of
these the cheapest, are laid out first, and where the time limit comes it cuts off what matters
least.

:func:`stepwise_job` is the other way, as it is done by hand: sizes first, then shelves, then
sheets. The benchmark measures the joint decision against it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from decimal import Decimal

from solver.carcass.outline import back_counted, depth_wanted
from solver.errors import CannotBeDoneError
from solver.job.case import Case, SizeRange
from solver.job.job import Job
from solver.layout.fit import Loss
from solver.outcome import Limits
from solver.sizing.choose_sizes import ChosenSizes, choose_sizes
from solver.sizing.combinations import Counts
from solver.sizing.purchase import Buyer
from solver.units import Ticks, round_down

NOTHING_FITS: Loss = (1 << 60, 0, 0)
"""Loss, for the order, where nothing can be made at all [mm2]."""


class Sizing:
    """Chooses the sizes of each combination once."""

    def __init__(self, job: Job, buyer: Buyer, limits: Limits) -> None:
        self._job, self._buyer, self._limits = job, buyer, limits
        self._known: dict[tuple[object, ...], ChosenSizes | CannotBeDoneError] = {}

    def of(self, counts: Counts, *, share: bool, limits: Limits | None = None) -> ChosenSizes:
        """Return the sizes chosen; CannotBeDoneError where the parts cannot be cut.

        `limits` are those of this choice, where it has not all the time there is.
        """
        key = _key(counts, share=share)
        if key not in self._known:
            try:
                self._known[key] = choose_sizes(
                    self._job, counts, self._buyer, limits or self._limits, share=share
                )
            except CannotBeDoneError as error:
                self._known[key] = error
        found = self._known[key]
        if isinstance(found, CannotBeDoneError):
            raise found
        return found

    def take(self, counts: Counts, sized: ChosenSizes) -> None:
        """Take sizes that were chosen elsewhere, whether shelf lines are shared or not."""
        for share in (True, False):
            self._known[_key(counts, share=share)] = sized

    def promising(
        self,
        counts: Sequence[Counts],
        pool: Executor,
        report: Callable[[Counts, ChosenSizes], None],
        workers: int = 1,
    ) -> list[int]:
        """Return the places of the combinations in the order in which to lay them out.

        `report` is called with the sizes of each that can be made. Where no size is open the
        order stays as it is. Each has its share of the time that is left, `workers` at once, so
        that one of which it is hard to say whether everything fits does not take it all; what
        the others leave over goes to those that were cut short.
        """
        order = list(range(len(counts)))
        if not _any_open(self._job):
            return order

        seconds_had: dict[int, float] = {}

        def rank(place: int, to_come: int) -> tuple[Loss, Decimal, int]:
            limits = self._limits.until(min(1.0, workers / to_come))
            seconds_had[place] = limits.seconds_left
            ranked = self._rank(counts[place], report, limits)
            if not limits.over:
                del seconds_had[place]  # it had all the time it needed
            return ranked

        ranks = list(pool.map(rank, order, range(len(order), 0, -1)))
        again = sorted(seconds_had, key=lambda place: (ranks[place], place))
        for place, to_come in zip(again, range(len(again), 0, -1), strict=True):
            if self._limits.seconds_left / to_come > seconds_had[place]:
                self._known.pop(_key(counts[place], share=True), None)
                ranks[place] = rank(place, to_come)
        return sorted(order, key=lambda place: (ranks[place], place))

    def _rank(
        self, counts: Counts, report: Callable[[Counts, ChosenSizes], None], limits: Limits
    ) -> tuple[Loss, Decimal, int]:
        try:
            sized = self.of(counts, share=True, limits=limits)
        except CannotBeDoneError:
            return NOTHING_FITS, Decimal(0), 0
        report(counts, sized)
        left = NOTHING_FITS if sized.left is None else sized.left
        return left, sized.stock.price, sized.stock.area_unpriced


def _key(counts: Counts, *, share: bool) -> tuple[object, ...]:
    return (*((name, bays) for name, bays in counts.items()), share)


def _any_open(job: Job) -> bool:
    return any(
        isinstance(size, SizeRange)
        for case in job.cases
        for size in (case.width, case.height, case.depth)
    )


def stepwise_job(job: Job) -> Job:
    """Return the job as it is taken when the sheets come last.

    Every open size is taken at its wish, or in the middle of its range (on the cutting step)
    where there is none. The number of bays and shelves is then the one that looks best with as
    much as possible in it, whatever the sheets cost.
    """
    return job.model_copy(
        update={
            "cases": tuple(_with_sizes_taken(job, case) for case in job.cases),
            "look": job.look.model_copy(update={"prefer": "look"}),
        }
    )


def _with_sizes_taken(job: Job, case: Case) -> Case:
    step, update = job.shop.cutting_step, {}
    if isinstance(case.width, SizeRange):
        update["width"] = size_taken(case.width, step)
    if isinstance(case.height, SizeRange):
        update["height"] = size_taken(case.height, step)
    depth = depth_wanted(job, case)
    if isinstance(depth, SizeRange):
        update["depth"] = size_taken(depth, step) + back_counted(job, case)
    return case.model_copy(update=update)


def size_taken(size: SizeRange, step: Ticks) -> Ticks:
    """Return the wish, else the middle of the range, down to the cutting step within it [tick]."""
    if size.wish is not None:
        return size.wish
    return max(size.least, round_down((size.least + size.most) // 2, step))
