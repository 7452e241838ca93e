"""What no layout can better: bays alike taken together, openings by height.

What stands together, in pairs or alone does not depend on which opening is where. So it is proven
on a model in which openings come by height (:mod:`solver.layout.variables`) and bays alike are
one. Its values bound the true ones, and mostly a layout with the tallest opening lowest meets them
all at once.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from solver.layout.bay_classes import can_be_ranked
from solver.layout.by_rule import Layout
from solver.layout.constraints import enough_openings, new_model
from solver.layout.layout_problem import LayoutProblem
from solver.layout.look_scores import LookScores
from solver.layout.spacing_wishes import ranked_gini
from solver.layout.stage_search import Found, Search
from solver.layout.stages import FIT, Reached, goal_of, orderless_of, run, trivial_floor
from solver.layout.start_values import start_values
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict


@dataclass
class Relaxed:
    """What the relaxation came to.

    Attributes
    ----------
    fits
        Whether everything may fit; NO is proven.
    reached
        Its stages, whose bounds hold for every layout.
    search
        Its search, all stages held; None where there is no relaxation.
    """

    fits: Verdict = Verdict.UNSETTLED
    reached: Reached = field(default_factory=Reached)
    search: Search | None = None

    @property
    def values(self) -> dict[str, int]:
        """Its solution, variable by name."""
        return {} if self.search is None else self.search.values()

    def evenest(self) -> tuple[int, dict[str, int]]:
        """Bound the differences of all pairs of openings, whatever their order [tick].

        Returned with a layout of it for a placed model, where there is one with the tallest
        opening lowest: values of variables by name.
        """
        search = self.search
        if search is None or search.solution is None:
            return 0, {}
        search.linear = 1
        goal = ranked_gini(search.v)
        found = search.minimise(goal)
        if found.raw is None:
            return int(found.bound or 0), {}
        with search.aside():
            search.hold(goal, found.raw)
            stands = _falling(search)
        return int(found.bound or 0), _placed_values(search) if stands else {}


def _falling(search: Search) -> bool:
    """Whether the ranks can be the openings themselves, from the lowest up or from the top."""
    v = search.v
    for c, one in enumerate(v.classes):
        if one.shape.shelves:
            ends = (one.shape.shelves, 0) if v.problem.wishes.tallest == "top" else (0, -1)
            low, high = ends[0], ends[1] % one.shape.openings
            v.model.add(v.at_end[c, low][0] == 1)
            v.model.add(v.at_end[c, high][1] == 1)
    return search.feasible() is Verdict.YES


def _placed_values(search: Search) -> dict[str, int]:
    """The solution of a ranked model whose ranks are openings, as one of a placed model."""
    v, values = search.v, dict[str, int]()
    for c, one in enumerate(v.classes):
        openings = list(range(one.shape.openings))
        ranks = openings[::-1] if v.problem.wishes.tallest == "top" else openings
        mark = 0
        for opening, rank in zip(openings, ranks, strict=True):
            mark += search.value(v.steps(c, rank))
            if opening < one.shape.shelves:
                values[f"line[group={one.group},line={opening + 1}]"] = mark + one.shape.line
            for places in v.places(c, rank).values():
                name = places.name.replace(f"opening={rank}]", f"opening={opening}]")
                values[name] = search.value(places)
    return values


def all_placed(v: LayoutVariables) -> None:
    """Nothing is left out."""
    for left in v.left.values():
        v.model.add(left == 0)
    v.all_placed = True
    enough_openings(v)


def relaxed(problem: LayoutProblem, limits: Limits, start: Layout | None = None) -> Relaxed:
    """Bound the stages that do not depend on the order of openings; `start` is where to begin."""
    if not can_be_ranked(problem):
        return Relaxed()
    search = ranked(problem, limits, start)
    all_placed(search.v)
    whole = start is not None and not LookScores(problem, *start).left()
    found = Relaxed(Verdict.YES if whole else search.feasible(), search=search)
    names = orderless_of(problem)
    if found.fits is Verdict.NO:
        found.search = search = ranked(problem, limits, start)
        names = (*FIT, *names)
    if found.fits is Verdict.YES and start is not None:
        names = _met(search, LookScores(problem, *start), names, found.reached)
    if found.fits is not Verdict.UNSETTLED:
        run(search, names, Reached(), found.reached, None)
    return found


def _met(
    search: Search, scores: LookScores, names: tuple[str, ...], reached: Reached
) -> tuple[str, ...]:
    """Hold the first stages that a layout brings as far as can be; returns those that are left."""
    for number, name in enumerate(names):
        value = scores.value(name)
        if value > trivial_floor(search.v, name):
            return names[number:]
        search.hold(goal_of(search.v, name), value)
        reached.found[name] = Found(Status.OPTIMAL, Fraction(value), Fraction(value), value)
    return ()


def ranked(problem: LayoutProblem, limits: Limits, start: Layout | None) -> Search:
    """A search of the relaxation, from a layout where there is one."""
    search = Search(new_model(problem, merge=True, ranked=True), limits)
    started_from(search, start)
    return search


def started_from(search: Search, start: Layout | None) -> None:
    """Begin a search at a layout where there is one, as in a large problem."""
    if start is not None:
        search.suggest(start_values(search.v, *start))
