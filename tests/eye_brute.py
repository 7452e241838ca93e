"""The best layouts of a tiny job by trying all of them, wish by wish in their order.

All marks and all contents that obey the rules are tried. From one stage to the next only the
layouts that hold its value are kept, with the slack that the stage has.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.layout.layout_problem import LayoutProblem
from tests.eye_contents import Sharing, TooLargeError
from tests.eye_layout import Layout, clear, kept_empty, spots
from tests.eye_marks import all_marks
from tests.eye_pairs import Pairs
from tests.eye_stages import Way, later
from tests.eye_wishes import loss

MOST_MARKS = 1_500


@dataclass(frozen=True)
class Best:
    """What no layout can beat; two ways where it is open whether the steps are steady enough."""

    loss: tuple[int, int, int]
    ways: tuple[Way, ...]


def best(problem: LayoutProblem) -> Best | None:
    """Return the best of all layouts, None where there is none; TooLargeError if not tiny."""
    marks: list[Layout] = []
    for one in all_marks(problem):
        marks.append(Layout(one, {}))
        if len(marks) > MOST_MARKS:
            raise TooLargeError
    if not marks or any(bay < 0 for bay, _ in kept_empty(problem)):
        return None
    high = np.array([[clear(problem, m)[spot] for spot in spots(problem)] for m in marks])
    sharing = Sharing(problem, high.max(axis=0).tolist())
    for equal in sharing.losses():
        found = [
            some
            for left in equal
            if len(contents := sharing.contents(left))
            for some in [Pairs.least(problem, marks, high, contents)]
            if some is not None
        ]
        if found:
            least = min(pairs.first for pairs in found)
            pairs = [one for one in found if one.first == least]
            return Best(loss(problem, pairs[0].layout(0)), tuple(later(problem, pairs)))
    return None
