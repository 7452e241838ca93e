"""The stages of a layout by name, and running some of them on a model."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from solver.layout import spacing_wishes, wishes
from solver.layout.asked_wishes import asked
from solver.layout.goal import Goal
from solver.layout.layout_problem import LayoutProblem, large
from solver.layout.stage_search import Found, Search
from solver.layout.variables import LayoutVariables

FIT = ("fit must", "fit should", "fit optional")
"""What is left out, dearest first; the plan tells them as one stage."""
ORDERLESS = ("empty", "mirrored", "headings", "together", "alone")
"""Wishes that do not depend on which opening is where, but for what lies between (headings)."""
UNSAID = ("apart",)
"""Stages that the plan does not tell: what could not be kept of them is said in its notes."""
WISHES: Mapping[str, wishes.Wish] = {
    "apart": wishes.apart,
    "asked": asked,
    "empty": wishes.empty,
    "mirrored": wishes.mirrored,
    "headings": wishes.headings,
    "together": wishes.together,
    "alone": wishes.alone,
    "rises": spacing_wishes.rises,
    "void": wishes.void,
    "roomy": wishes.roomy,
    "beside": wishes.beside,
    "air": wishes.air,
    "symmetric": spacing_wishes.symmetric,
    "to-fit": spacing_wishes.to_fit,
}


def asked_for(problem: LayoutProblem) -> tuple[str, ...]:
    """The stages up to `alone` that a problem has, in their order; what is left out apart."""
    names = list(ORDERLESS)
    if not wishes.headings_of(problem):
        names.remove("headings")
    named = (k.where is not None or k.together or k.hero or k.fragile for k in problem.kinds)
    apart = ("apart",) if any(kind.apart for kind in problem.kinds) else ()
    return (*apart, "asked", *names) if any(named) else (*apart, *names)


def orderless_of(problem: LayoutProblem) -> tuple[str, ...]:
    """Those of them that do not depend on which opening is where."""
    return tuple(name for name in asked_for(problem) if name in ORDERLESS)


def goal_of(v: LayoutVariables, name: str) -> Goal:
    """The goal of a stage on a model."""
    if name in FIT:
        return wishes.left_out(v, FIT.index(name))
    return WISHES[name](v)


def trivial_floor(v: LayoutVariables, name: str) -> int:
    """What a stage comes to at least, whatever stands where [raw units].

    Of a kind with an odd count some opening has an odd number; each opening has one middle.
    """
    if name != "mirrored" or not v.all_placed:
        return 0
    kinds = v.problem.kinds
    odd = sum(kind.count % 2 for kind in kinds if all(f.things == 1 for f in kind.forms))
    return max(0, odd - sum(shape.openings for shape in v.problem.bays))


@dataclass
class Reached:
    """What stages have come to so far; goals stay with the model that they were made for."""

    found: dict[str, Found] = field(default_factory=dict)

    def floor(self, name: str) -> int:
        """Proven lower bound of a stage [raw units]; 0 where there is none."""
        one = self.found.get(name)
        if one is None or one.bound is None:
            return 0
        return int(one.bound) if name in FIT or name in ORDERLESS or name == "asked" else 0

    def most(self, name: str) -> int | None:
        """What a stage has been brought to [raw units], None where nothing was found."""
        one = self.found.get(name)
        return None if one is None else one.raw


def run(
    search: Search, names: Iterable[str], floors: Reached, reached: Reached, work: float | None
) -> bool:
    """Minimise stage after stage, each held before the next; False where the limit came first.

    `floors` has bounds of a relaxation. Those of later stages are meant for layouts that are as
    good as it in all the earlier ones, and are left aside from the first stage on that is not.
    """
    bounded, goals, names = True, dict[str, Goal](), tuple(names)
    if large(search.v.problem):  # all at first, so that one solution has a value for each
        goals = {name: goal_of(search.v, name) for name in names}
    for name in names:
        goal = goals.get(name) or goal_of(search.v, name)
        least = max(floors.floor(name) if bounded else 0, trivial_floor(search.v, name))
        search.linear = int(name in FIT)  # areas want a linear relaxation, counts do not
        one = search.minimise(goal, floor=least, work=work)
        reached.found[name] = one
        if one.raw is None:
            return False
        search.hold(goal, one.raw)
        most = floors.most(name)
        bounded = bounded and most is not None and one.raw <= most
    return True
