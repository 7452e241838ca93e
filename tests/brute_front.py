"""The front of a tiny job by trying everything: all sizes, all marks, all contents.

Rules are those of :mod:`tests.eye_layout`, places parted those of :mod:`tests.eye_wishes`.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import numpy as np

from solver.job.job import Job
from solver.layout.layout_problem import LayoutProblem
from solver.outcome import Limits
from solver.sizing.purchase import Buyer
from tests.eye_contents import Sharing, TooLargeError
from tests.eye_layout import Layout, clear, spots
from tests.eye_marks import all_marks
from tests.eye_wishes import families, spread
from tests.open_jobs import choices

MOST_MARKS = 1_500
Figures = tuple[Decimal, int]
"""Price, or the area bought where there is none, and places parted [-]."""


def least_parted(problem: LayoutProblem) -> int | None:
    """Fewest places parted with nothing left out [-]; None where not everything fits.

    Raises TooLargeError where the problem is not tiny.
    """
    marks = [Layout(one, {}) for one in all_marks(problem)]
    if not marks:
        return None
    if len(marks) > MOST_MARKS:
        raise TooLargeError
    where = spots(problem)
    high = np.array([[clear(problem, one)[spot] for spot in where] for one in marks])
    contents = Sharing(problem, high.max(axis=0).tolist()).contents((0,) * len(problem.kinds))
    fits = np.any(np.all(contents.need[:, None] <= high[None], axis=2), axis=1)
    kinds = range(len(problem.kinds))
    used = np.stack([contents.of(k, "things") > 0 for k in kinds], axis=1)[fits]
    tried = [parted(problem, one) for one in np.unique(used, axis=0).tolist()]
    return min(tried, default=None)


def parted(problem: LayoutProblem, used: list[list[bool]]) -> int:
    """Places parted, where `used` says which opening has things of which kind [-]."""
    where = spots(problem)
    kinds = sum(max(0, sum(one) - 1) for one in used)
    return kinds + sum(
        spread([spot for n, spot in enumerate(where) if any(used[k][n] for k in members)])
        for members in families(problem)
    )


def tried(job: Job) -> Iterator[Figures]:
    """The price, and the fewest places parted, of all sizes and shelf counts where all fits."""
    buyer = Buyer(job, Limits())
    for shelves in job.cases[0].shelf_counts:
        for _, problem, price in choices(job, shelves, buyer):
            fewest = least_parted(problem)
            if fewest is not None:
                yield price, fewest


def unbeaten(figures: set[Figures]) -> set[Figures]:
    """Those that no other is as good as in both."""
    kept: set[Figures] = set()
    for price, places in sorted(figures):
        if all(places < others for _, others in kept):
            kept.add((price, places))
    return kept
