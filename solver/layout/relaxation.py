"""What no layout can better: bays alike taken together, openings by height.

What stands together, in pairs or alone does not depend on which opening is where. So it is proven
on a model in which openings come by height (:mod:`solver.layout.variables`) and bays alike are
one. Its values bound the true ones, and mostly a layout with the tallest opening lowest meets them
all at once.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.layout.constraints import enough_openings, new_model
from solver.layout.layout_problem import LayoutProblem
from solver.layout.stage_search import Search
from solver.layout.stages import FIT, Reached, asked_for, run
from solver.layout.variables import LayoutVariables, can_be_ranked
from solver.outcome import Limits, Verdict


@dataclass
class Relaxed:
    """What the relaxation came to.

    Attributes
    ----------
    fits
        Whether everything may fit; NO is proven.
    reached
        Its stages, whose bounds hold for every layout.
    values
        Its solution, variable by name.
    """

    fits: Verdict = Verdict.UNSETTLED
    reached: Reached = field(default_factory=Reached)
    values: dict[str, int] = field(default_factory=dict)


def all_placed(v: LayoutVariables) -> None:
    """Nothing is left out."""
    for left in v.left.values():
        v.model.add(left == 0)
    v.all_placed = True
    enough_openings(v)


def relaxed(problem: LayoutProblem, limits: Limits) -> Relaxed:
    """Bound the stages that do not depend on the order of openings."""
    if not can_be_ranked(problem):
        return Relaxed()
    found = Relaxed()
    search = Search(new_model(problem, merge=True, ranked=True), limits)
    all_placed(search.v)
    found.fits = search.feasible()
    names = tuple(name for name in asked_for(problem) if name != "asked")
    if found.fits is Verdict.NO:
        search = Search(new_model(problem, merge=True, ranked=True), limits)
        names = (*FIT, *names)
    elif found.fits is Verdict.UNSETTLED:
        return found
    run(search, names, Reached(), found.reached, None)
    found.values = search.values()
    return found
