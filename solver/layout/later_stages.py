"""The later wishes of a layout: even headroom, wished places, low weight, even fill.

Each is bettered by moving places about, and where the model is small enough by searching
it as well, which also gives a bound. What is found is held before the next wish, less
what nobody sees.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from solver.cp_sat import cp_model
from solver.layout import objective
from solver.layout.arrangement import Marks, Places, Standing
from solver.layout.constraints import RULES
from solver.layout.even_headroom import Evenest, evenest
from solver.layout.late_acceptance import Targets, polish
from solver.layout.layout_problem import LayoutProblem, Place
from solver.layout.objective import Objective
from solver.layout.opening_order import reorder
from solver.layout.stage_search import Found, Search
from solver.layout.variables import LayoutVariables, classes_of
from solver.outcome import Limits, Status
from solver.units import Ticks

GIVEN_BACK = Fraction(15, 100)
GAIN_GIVEN_BACK = Fraction(1, 2)
"""What an even fill may cost of mass x height: such a share of its value, or of what the low
weight stage gained, whichever is more. The lowest weight of all would leave the top openings
all but empty, and nobody sees the difference."""
ORDERLESS = ("even",)
"""Rhythms that do not look at the order of the openings and are bounded well that way."""
SMALL = 3_000
"""Most variables of a model that is still searched for the later wishes."""
POLISH_SHARE = 0.3
"""Share of the time left that moving places about may take for one wish in a large layout [-]."""
SEARCHED_FIRST = "low weight"
"""The stage that a search mostly proves at once, so that places need not be moved about for it."""
HEADROOM_WORK = 0.15
LATER_WORK = 0.1
"""Deterministic work for each later stage: they are wishes, and a gap is stated with them."""


class Later:
    """A layout that fits and has its rhythm, made better in what comes after.

    Parameters
    ----------
    problem, limits
        The problem, and what the limits leave.
    layout
        Marks by (bay, shelf) and places by (bay, opening).
    stages
        What was found so far, by stage name; the later stages are added.
    search
        A search that has the layout, with fit and rhythm held; None where there is no model.
    """

    def __init__(
        self,
        problem: LayoutProblem,
        limits: Limits,
        layout: tuple[Marks, Places],
        stages: dict[str, Found],
        search: Search | None,
    ) -> None:
        self.problem, self.limits, self.stages = problem, limits, stages
        small = search is not None and len(search.v.model.proto.variables) <= SMALL
        self.search = search if small else None
        self.marks = layout[0]
        self.standing = Standing(problem, *layout)
        self.targets = Targets(to_fit=self._rhythm_held())

    @property
    def left(self) -> dict[int, int]:
        """How many of each kind are left out, by kind index."""
        left = {k: kind.count for k, kind in enumerate(self.problem.kinds)}
        for form in self.standing.forms:
            left[form.kind] -= form.things
        return left

    def _rhythm_held(self) -> Fraction | None:
        """What the rhythm may come to where it depends on what stands where [tick]."""
        value, wishes = self.stages["rhythm"].value, self.problem.wishes
        if wishes.rhythm != "to-fit" or value is None:
            return None
        return value + wishes.rhythm_slack

    def even_headroom(self) -> None:
        """Fewest empty openings; even headroom, where it is not the rhythm; marks move a little."""
        first = self._tallest_first()
        if first is not None and self._taken(first):
            return
        self._polish(replace(self.targets, missed=0))
        self.targets = replace(self.targets, filled=self.standing.filled)
        if self.problem.wishes.rhythm == "to-fit":
            return
        enough = self.problem.wishes.headroom_slack // 2
        self._polish(replace(self.targets, spread=enough))
        found = _polished(self.standing.spread, Fraction(1))
        if self.search is not None:
            found = self._search_headroom(self.search, enough, found)
        if first is not None and self._empty == first.bound.empty:
            least = min(Fraction(first.bound.spread), found.value or Fraction(0))
            found = replace(found, bound=max(found.bound, least))
        self._even(found)

    def _polish(self, targets: Targets) -> None:
        """Move places about; where there are many, for a share of the time that is left."""
        limits = self.limits if self.search is not None else self.limits.until(POLISH_SHARE)
        polish(self.standing, targets, limits)

    def _even(self, found: Found) -> None:
        """Note how even the headroom is, and hold it, less what is given back."""
        self.stages["headroom"] = found
        slack = self.problem.wishes.headroom_slack
        self.targets = replace(
            self.targets, filled=self.standing.filled, spread=self.standing.spread + slack
        )

    @property
    def _empty(self) -> int:
        return len(self.standing.spaces) - self.standing.filled

    def _tallest_first(self) -> Evenest | None:
        """The most even headroom by marks and tallest things first; None where it is not asked."""
        rhythm, wishes = self.stages["rhythm"].value, self.problem.wishes
        if rhythm is None or wishes.rhythm == "to-fit":
            return None
        most, left = rhythm + wishes.rhythm_slack, sum(self.left.values())
        orderless = wishes.rhythm in ORDERLESS
        enough = wishes.headroom_slack // 2
        return evenest(self.problem, self.limits, left, most, orderless=orderless, enough=enough)

    def _taken(self, first: Evenest) -> bool:
        """Take what was found, if it is as even as its bound."""
        if first.search is None:
            return False
        self.marks = marks_found(first.search)
        self.standing = Standing(self.problem, self.marks, places_found(first.search))
        spread = Fraction(self.standing.spread)
        bound = min(spread, Fraction(first.bound.spread))
        self._even(Found(Status.OPTIMAL, spread, bound, self.standing.spread))
        return True

    def _search_headroom(self, search: Search, enough: Ticks, polished: Found) -> Found:
        goal = objective.headroom_spread(search.v)
        _keep_filled(search.v, self.targets.filled)
        values = search.v.mark_values(self.marks) | _values(search.v, self.standing)
        if search.take(goal, values):
            search.improve(goal, search.neighbourhoods(), enough=enough)
        found = search.minimise(goal, work=HEADROOM_WORK, enough=enough)
        return self._better(search, found, polished)

    def _better(self, search: Search, found: Found, polished: Found) -> Found:
        """Take what was searched where it is better than what was polished, and its bound."""
        assert polished.value is not None
        if found.raw is None or polished.raw is None or found.raw >= polished.raw:
            bound = min(found.bound, polished.value)
            return replace(polished, bound=max(bound, polished.bound), exact=found.exact)
        self.marks = marks_found(search)
        self.standing = Standing(self.problem, self.marks, places_found(search))
        return found

    def order(self) -> None:
        """Put tall and heavy openings low, where the rhythm does not look at their order."""
        value = self.stages["rhythm"].value
        held = (value or Fraction(0)) + self.problem.wishes.rhythm_slack
        self.marks, places = reorder(
            self.problem, self.marks, self.standing.places(), held, self.limits
        )
        self.standing = Standing(self.problem, self.marks, places)

    def wishes(self) -> None:
        """Wished places, then low weight, then even fill, with the marks held."""
        search = self._marks_held() if self.search is not None else None
        self._stage("places", search, lambda t, n: replace(t, missed=n), Fraction(1))
        self._stage("low weight", search, lambda t, n: replace(t, weight=n), Fraction(1, 1000))
        self._stage("fill", search, lambda t, _: t, Fraction(1, 1000))

    def _stage(
        self,
        name: str,
        search: Search | None,
        aim: Callable[[Targets, int], Targets],
        unit: Fraction,
    ) -> None:
        """Better one wish, note what was found and hold it, less what is given back."""
        before = self._reached(name)
        goal = None if search is None else self._goal(name, search.v)
        found = _polished(before, unit)
        if name == SEARCHED_FIRST:
            found = self._searched(search, goal, found)
        if not found.proven:
            self._polish(aim(self.targets, 0))
            bound, found = found.bound, _polished(self._reached(name), unit)
            if name == SEARCHED_FIRST:
                found = replace(found, bound=min(bound, found.value or Fraction(0)))
            else:
                found = self._searched(search, goal, found)
        assert found.raw is not None
        self.stages[name] = found
        held = found.raw + (_given_back(found.raw, before) if name == "low weight" else 0)
        self.targets = aim(self.targets, held)
        if search is not None and goal is not None:
            search.v.model.add(goal.expression <= held)

    def _searched(self, search: Search | None, goal: Objective | None, found: Found) -> Found:
        """What is found from the present places, if it is better than that."""
        if search is None or goal is None or found.proven:
            return found
        search.suggest(_values(search.v, self.standing))
        return self._better(search, search.minimise(goal, work=LATER_WORK), found)

    def _reached(self, name: str) -> int:
        standing = self.standing
        return {
            "places": standing.missed,
            "low weight": standing.weight,
            "fill": standing.fill_spread,
        }[name]

    def _goal(self, name: str, v: LayoutVariables) -> Objective:
        floors = {(s.bay, s.opening): s.floor for s in self.standing.spaces}
        by_class = {(c, k): floors[v.classes[c].bays[0], k] for c, k in v.openings()}
        if name == "places":
            return objective.wishes_missed(v, eye_openings(v, by_class))
        if name == "low weight":
            return objective.mass_times_height(v, by_class)
        return objective.fill_spread(v)

    def _marks_held(self) -> Search:
        """A model with these marks, and with all that was reached so far held."""
        home = {one.bays[0]: c for c, one in enumerate(classes_of(self.problem, merge=False))}
        marks = {(home[bay], shelf): mark for (bay, shelf), mark in self.marks.items()}
        v = LayoutVariables(cp_model.CpModel(), self.problem, merge=False, marks=marks)
        for rule in RULES:
            rule(v)
        v.model.add(objective.left_out(v).expression <= sum(self.left.values()))
        _keep_filled(v, self.targets.filled)
        if self.targets.spread is not None:
            v.model.add(objective.headroom_spread(v).expression <= self.targets.spread)
        if self.targets.to_fit is not None:
            rhythm = objective.rhythm(v)
            v.model.add(rhythm.expression <= int(self.targets.to_fit / rhythm.unit))
        return Search(v, self.limits)


def _given_back(value: int, before: int) -> int:
    """How much more than the lowest mass x height will do, which was `before` till now."""
    return int(max(value * GIVEN_BACK, (before - value) * GAIN_GIVEN_BACK))


def _polished(raw: int, unit: Fraction) -> Found:
    """What moving places about reached; nothing can be less than 0."""
    status = Status.FEASIBLE if raw else Status.OPTIMAL
    return Found(status, unit * raw, Fraction(0), raw)


def _keep_filled(v: LayoutVariables, count: int) -> None:
    """At least so many openings are not empty: evenness is not bought with a bare shelf."""
    filled = []
    for c, k in v.openings():
        some = v.model.new_bool_var(f"not-bare[class={c},opening={k}]")
        v.model.add(sum(v.places(c, k).values()) >= some)
        filled.append(some)
    v.model.add(sum(filled) >= count)


def eye_openings(v: LayoutVariables, floors: Mapping[tuple[int, int], Ticks]) -> dict[int, int]:
    """The opening of each class that the eye level falls into: the last whose floor is below it."""
    eye = v.problem.wishes.eye_level
    return {
        c: max((k for k in range(one.shape.openings) if floors[c, k] <= eye), default=0)
        for c, one in enumerate(v.classes)
    }


def _values(v: LayoutVariables, standing: Standing) -> dict[str, int]:
    """How many places of each form stand where, by variable name."""
    home = {one.bays[0]: c for c, one in enumerate(v.classes)}
    values = {x.name: 0 for c, k in v.openings() for x in v.places(c, k).values()}
    for form, at in zip(standing.forms, standing.at, strict=True):
        space = standing.spaces[at]
        values[v.places(home[space.bay], space.opening)[form].name] += 1
    return values


def marks_found(search: Search) -> dict[tuple[int, int], int]:
    """Mark numbers by (bay, shelf from 1)."""
    v = search.v
    return {
        (one.bays[0], shelf): search.value(v.mark(c, shelf))
        for c, one in enumerate(v.classes)
        for shelf in range(1, one.shape.shelves + 1)
    }


def places_found(search: Search) -> dict[tuple[int, int], tuple[Place, ...]]:
    """What stands in each (bay, opening)."""
    v = search.v
    return {
        (v.classes[c].bays[0], k): tuple(
            (form, form.things)
            for form, count in v.places(c, k).items()
            for _ in range(search.value(count))
        )
        for c, k in v.openings()
    }
