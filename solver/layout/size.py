"""How large a problem is, and so which models of it are built at all.

Small problems are not asked: they take hundredths of a second. Of a large one it is known
beforehand how large its model would be. Building alone may take longer than the limit, and the
search of what is built heeds it only roughly.
"""

from __future__ import annotations

from solver.layout.shapes import LayoutProblem
from solver.outcome import Limits

LARGE = 2_000
"""Forms times openings from which on a problem is stood up by rule first [-]."""
MOST = 60_000
"""Forms times openings from which on its model is not built [-]: 32,000 of them take 400 MiB with
their search, and twice as many are what memory may come to."""
EACH_SECOND = 4_000
"""Forms times openings that are built, searched and read back in a second [-]; from models of
400 to 1,000 kinds, with half of what a quiet machine does."""


def places(problem: LayoutProblem) -> int:
    """Forms times openings: about the variables of the model of all bays [-]."""
    forms = sum(len(kind.forms) for kind in problem.kinds)
    return forms * sum(shape.openings for shape in problem.bays)


def large(problem: LayoutProblem) -> bool:
    """Whether a problem is stood up by rule first, lest there be no answer."""
    return places(problem) >= LARGE


def too_large(problem: LayoutProblem, limits: Limits) -> bool:
    """Whether a model of all bays is not worth building in the time that is left."""
    count = places(problem)
    return count >= LARGE and (count >= MOST or count > EACH_SECOND * limits.seconds_left)
