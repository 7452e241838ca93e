"""A case made wider where the sag limit is felt: more width may then let less stand there.

No width up to some amount lets more fit than that amount would with the shelves as stiff as
they are now: widths grow, loads by the standard grow, sag limits shrink. So a proven no to that
question holds for every width up to it.
"""

from __future__ import annotations

from dataclasses import replace

from solver.layout.shapes import BayShape, LayoutProblem
from solver.planning.levers import Lever
from solver.planning.situation import Situation
from solver.strength.beams import MOST

WIDTHS_MOST = 48
"""Widths tried one by one beyond the least that could do [-]."""


def sag_felt(situation: Situation, lever: Lever) -> bool:
    """Whether a lever makes cases wider and the sag limit of a shelf is felt at the most of it."""
    if lever.what != "width" or lever.less:
        return False
    problem = lever.at(situation, lever.most).problem()
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)
    return any(_felt(bay, heaviest) for bay in problem.bays)


def _felt(bay: BayShape, heaviest: int) -> bool:
    felt = min(bay.load, heaviest) * MOST[0]
    return any(one is not None and one * MOST[1] < felt for one in bay.sag)


def roomiest(situation: Situation, lever: Lever, steps: int) -> LayoutProblem:
    """Return the problem at so many steps with the sag limits of none."""
    problem, now = lever.at(situation, steps).problem(), situation.problem()
    pairs = zip(problem.bays, now.bays, strict=True)
    return replace(problem, bays=tuple(replace(bay, sag=other.sag) for bay, other in pairs))
