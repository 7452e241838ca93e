"""Sizes of all combinations of shelf counts, chosen before any shelf is placed.

Sizes and stock are settled soon, layouts are not. So the combinations in which most fits, and of
these the cheapest, are laid out first, and where the limit comes it cuts off what matters least.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from decimal import Decimal

from solver.case import SizeRange
from solver.errors import CannotBeDoneError
from solver.job import Job
from solver.outcome import Limits
from solver.planning.combinations import Counts
from solver.planning.sizes import Sized, choose_sizes
from solver.planning.stock import Buyer

NOTHING_FITS = 1 << 30
"""Things left out, for the order, where nothing can be made at all [-]."""


class Sizing:
    """Chooses the sizes of each combination once."""

    def __init__(self, job: Job, buyer: Buyer, limits: Limits) -> None:
        self._job, self._buyer, self._limits = job, buyer, limits
        self._known: dict[tuple[object, ...], Sized | CannotBeDoneError] = {}

    def of(self, counts: Counts, *, share: bool) -> Sized:
        """Return the sizes chosen; CannotBeDoneError where the parts cannot be cut."""
        key = (*((name, bays) for name, bays in counts.items()), share)
        if key not in self._known:
            try:
                self._known[key] = choose_sizes(
                    self._job, counts, self._buyer, self._limits, share=share
                )
            except CannotBeDoneError as error:
                self._known[key] = error
        found = self._known[key]
        if isinstance(found, CannotBeDoneError):
            raise found
        return found

    def take(self, counts: Counts, sized: Sized) -> None:
        """Take sizes that were chosen elsewhere, whether shelf lines are shared or not."""
        for share in (True, False):
            self._known[(*((name, bays) for name, bays in counts.items()), share)] = sized

    def promising(
        self, counts: Sequence[Counts], pool: Executor, said: Callable[[Counts, Sized], None]
    ) -> list[int]:
        """Return the places of the combinations in the order in which to lay them out.

        `said` is called with the sizes of each that can be made. Where no size is open the
        order stays as it is.
        """
        order = list(range(len(counts)))
        if not _any_open(self._job):
            return order
        ranks = list(pool.map(lambda one: self._rank(one, said), counts))
        return sorted(order, key=lambda place: (ranks[place], place))

    def _rank(
        self, counts: Counts, said: Callable[[Counts, Sized], None]
    ) -> tuple[int, Decimal, int]:
        try:
            sized = self.of(counts, share=True)
        except CannotBeDoneError:
            return NOTHING_FITS, Decimal(0), 0
        said(counts, sized)
        left = NOTHING_FITS if sized.left is None else sized.left
        return left, sized.stock.price, sized.stock.area_unpriced


def _any_open(job: Job) -> bool:
    return any(
        isinstance(size, SizeRange)
        for case in job.cases
        for size in (case.width, case.height, case.depth)
    )
