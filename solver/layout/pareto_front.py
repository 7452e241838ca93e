"""The Pareto front of one layout problem: rhythm against even headroom.

One is bounded and the other bettered, in turn, so that what is proven holds for all
layouts. Between two layouts found there is a box of rhythms and evennesses in which others
may still lie; boxes are split until none is left in which the difference could be seen. The
later wishes are then bettered with both held.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil

from solver.layout import objective
from solver.layout.arrangement import Marks, Standing
from solver.layout.constraints import middle_openings_fall
from solver.layout.counting_cuts import enough_openings
from solver.layout.evenness import Evenness, EvennessGoal, evenness, evenness_goal
from solver.layout.incumbent import NOTHING
from solver.layout.late_acceptance import Targets, polish
from solver.layout.later_stages import marks_found, places_found
from solver.layout.layout_engine import LayoutAnswer, settle_marks
from solver.layout.layout_problem import LayoutProblem, too_large
from solver.layout.opening_order import reorder
from solver.layout.pareto_points import (
    ANY_SPREAD,
    PERFECT,
    Beaten,
    Box,
    Fineness,
    ParetoFront,
    ParetoPoint,
)
from solver.layout.stage_search import Found, Search, make
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status

SOLVES_MOST = 150
"""Searches for one problem; boxes left after them are said to be open [-]."""


class ParetoSearch:
    """Finds the layouts of one problem, ends first, then what lies between.

    Parameters
    ----------
    problem
        The layout problem.
    limits
        Seed, work of each search, and the backstop.
    fineness
        What nobody sees; 0 and 0 for every layout there is.
    """

    def __init__(self, problem: LayoutProblem, limits: Limits, fineness: Fineness) -> None:
        self.problem, self.limits, self.fineness = problem, limits, fineness
        self.trade = ParetoFront(Status.UNKNOWN)
        self._solves = 0
        self._latest: Search | None = None

    def first(self) -> ParetoFront:
        """Find the best rhythm and the most even headroom with it."""
        settled = settle_marks(self.problem, self.limits)
        fit, rhythm = settled.stages["fit"], settled.stages.get("rhythm")
        self.trade.left_out = fit.raw
        if settled.layout is None or fit.raw:
            proven = fit.proven or settled.status is Status.INFEASIBLE
            self.trade.status = Status.INFEASIBLE if proven else Status.UNKNOWN
        elif rhythm is not None and rhythm.value is not None:
            self._latest = settled.search
            point: ParetoPoint | None
            if settled.search is None or too_large(self.problem, self.limits):
                marks, places = settled.layout
                standing = Standing(self.problem, marks, places)
                point = self._traded(standing, marks, rhythm, PERFECT, NOTHING)
            else:
                point = self._at_rhythm(rhythm.value, rhythm, PERFECT)
            if point is not None:
                self.trade.status = Status.FEASIBLE
                self.trade.points.append(point)
                self._keep(Box((point.rhythm, None), (PERFECT, point.even)))
        return self.trade

    def evenest(self, rhythm_most: Fraction) -> tuple[Evenness | None, Evenness]:
        """Return the most even headroom with a rhythm of at most so much [tick], and its bound.

        Of all layouts that leave nothing out; None where none was found, and then the bound is
        worse than any where there is none.
        """
        goal, found, _ = self._evenest(rhythm_most, PERFECT)
        if found.status is Status.INFEASIBLE:
            openings = sum(bay.openings for bay in self.problem.bays)
            return None, Evenness(openings + 1, ANY_SPREAD)
        value = None if found.raw is None else goal.value(found.raw)
        if value is not None and found.proven:
            return value, value
        return value, goal.value(max(0, int(found.bound)))

    def rest(self, beaten: Beaten = lambda _rhythm, _even: False) -> ParetoFront:
        """Find the most even headroom, then what lies between it and the best rhythm.

        Until no box is left that matters and is not beaten, or the searches are used up.
        """
        waiting, self.trade.boxes = self.trade.boxes, []
        while waiting:
            box = waiting.pop(0)
            if beaten(box.rhythm[0], box.even[0]):
                continue
            if self._spent:
                self.trade.boxes.append(box)
            else:
                end = box.rhythm[1]
                waiting += self._far_end(box) if end is None else self._split(box, end)
        self.trade.points.sort(key=lambda point: (point.rhythm, point.even))
        return self.trade

    @property
    def _spent(self) -> bool:
        """Whether no more is searched: too often by now, no time, or too large for what is left."""
        over = self.limits.over or too_large(self.problem, self.limits)
        return over or self._solves >= SOLVES_MOST

    def _far_end(self, box: Box) -> list[Box]:
        """The most even headroom of all that would be seen to be more even; what is left then."""
        (worst, _), (least, known) = box.rhythm, box.even
        goal, found, search = self._evenest(None, least, self._seen(known))
        if found.status is Status.INFEASIBLE:
            return []
        last = None
        if found.raw is not None:
            least = max(least, goal.value(round(found.bound)))
            self._latest = search
            last = self._at_evenness(goal.value(found.raw), worst, least)
        if last is None:
            self.trade.boxes.append(box)
            return []
        self.trade.points.append(last)
        rest = Box((last.rhythm, None), (least, last.even))
        self.trade.boxes += [rest] if self._matters(rest) else []
        between = Box((worst, last.rhythm), (_after(last.even), known))
        return [between] if self._matters(between) else []

    def _seen(self, even: Evenness) -> Evenness:
        """The least even headroom that would be seen to be more even than this."""
        if even.spread > self.fineness.headroom:
            return replace(even, spread=even.spread - self.fineness.headroom - 1)
        return Evenness(even.empty - 1, ANY_SPREAD)

    def _keep(self, box: Box) -> None:
        """Note a box, unless nothing in it could be told apart from what is known."""
        if self._matters(box):
            self.trade.boxes.append(box)

    def _visible(self, even: Evenness, least: Evenness) -> bool:
        """Whether something as even as `least` would be seen to be more so than `even`."""
        if least.empty != even.empty:
            return least.empty < even.empty
        return even.spread - least.spread > self.fineness.headroom

    def _matters(self, box: Box) -> bool:
        low, high = box.rhythm
        if high is not None and high - low <= self.fineness.rhythm:
            return False
        return self._visible(box.even[1], box.even[0])

    def _split(self, box: Box, end: Fraction) -> list[Box]:
        """Look for the best rhythm in the more even half of a box; return what is left of it."""
        (worst, _), (low, high) = box.rhythm, box.even
        middle = self._middle(low, high)
        point = self._at_evenness(middle, worst, low)
        if point is None:
            self.trade.boxes.append(box)
            return []
        reached = min(point.rhythm, end)
        if point.rhythm_bound < reached:
            self._keep(Box((point.rhythm_bound, reached), (low, _after(middle))))
        rest = [Box((worst, reached), (_after(middle), high))]
        if point.rhythm < end:
            self.trade.points.append(point)
            rest.append(Box((point.rhythm, end), (low, point.even)))
        return [part for part in rest if self._matters(part)]

    def _middle(self, low: Evenness, high: Evenness) -> Evenness:
        """An evenness that splits a box; just under its high end where everything is wanted."""
        if low.empty < high.empty:
            return Evenness(high.empty - 1, ANY_SPREAD)
        if self.fineness.headroom == 0:
            return replace(high, spread=high.spread - 1)
        return replace(low, spread=(low.spread + high.spread) // 2)

    def _at_rhythm(self, most: Fraction, rhythm: Found, least: Evenness) -> ParetoPoint | None:
        """The most even headroom of all layouts with a rhythm of at most `most`."""
        goal, found, search = self._evenest(most, least)
        if found.raw is not None:
            self._latest = search
            least = max(least, goal.value(round(found.bound)))
        if self._latest is None:
            return None
        marks = marks_found(self._latest)
        standing = Standing(self.problem, marks, places_found(self._latest))
        if not found.proven:
            standing = self._evener(standing, marks, most)
        return self._traded(standing, marks, replace(rhythm, value=most), least, found)

    def _traded(
        self, standing: Standing, marks: Marks, rhythm: Found, least: Evenness, found: Found
    ) -> ParetoPoint:
        """A layout with its rhythm at most, bettered; `found` is what its headroom came to."""
        assert rhythm.value is not None
        standing, on = bettered(standing, marks, rhythm.value, self.limits)
        even = evenness(standing)
        reached = standing.rhythm  # less than `most` where that is not proven the least
        return ParetoPoint(
            rhythm=reached,
            rhythm_bound=rhythm.bound if rhythm.exact else Fraction(0),
            even=even,
            even_bound=min(even, least),
            answer=self._answer(standing, on, even, replace(rhythm, value=reached), found),
            exact=rhythm.exact,
        )

    def _evener(self, standing: Standing, marks: Marks, rhythm: Fraction) -> Standing:
        """Move places about where the search came to no proof; kept if that is more even."""
        moved = Standing(self.problem, marks, standing.places())
        polish_at(moved, rhythm, PERFECT, self.limits)
        return min(standing, moved, key=evenness)

    def _at_evenness(self, most: Evenness, floor: Fraction, least: Evenness) -> ParetoPoint | None:
        """The best rhythm of all layouts as even as `most`, and the most even with that rhythm.

        No such layout has a rhythm under `floor`, nor is any more even than `least`.
        """
        v = self._model()
        goal, rhythm = evenness_goal(v), objective.rhythm(v)
        v.model.add(goal.objective.expression <= goal.number(most))
        v.model.add(rhythm.expression >= ceil(floor / rhythm.unit))
        search = self._search(v)
        found = search.minimise(rhythm)
        if found.value is None:
            return None
        self._latest = search
        return self._at_rhythm(found.value, replace(found, bound=max(found.bound, floor)), least)

    def _evenest(
        self, rhythm_most: Fraction | None, least: Evenness, most: Evenness | None = None
    ) -> tuple[EvennessGoal, Found, Search]:
        v = self._model()
        goal = evenness_goal(v)
        if least > PERFECT:
            v.model.add(goal.objective.expression >= goal.number(least))
        if most is not None:
            v.model.add(goal.objective.expression <= goal.number(most))
        if rhythm_most is not None:
            rhythm = objective.rhythm(v)
            v.model.add(rhythm.expression <= int(rhythm_most / rhythm.unit))
        search = self._search(v)
        if self._latest is not None and search.adopt(self._latest, goal.objective, {}):
            search.improve(goal.objective, search.neighbourhoods(), enough=goal.number(least))
        return goal, search.minimise(goal.objective), search

    def _search(self, v: LayoutVariables) -> Search:
        self._solves += 1
        search = Search(v, self.limits)
        if self._latest is not None:
            search.hint(self._latest)
        return search

    def _model(self) -> LayoutVariables:
        """Every rule, nothing left out, and openings in order where their order is all one."""
        v = make(self.problem, merge=False)
        for left in v.left.values():
            v.model.add(left == 0)
        enough_openings(v, 0)
        grouped = any(kind.group is not None for kind in self.problem.kinds)
        if self.problem.wishes.rhythm == "even" and not grouped and not self._held:
            middle_openings_fall(v)
        return v

    @property
    def _held(self) -> bool:
        return self.problem.holding.anything

    def _answer(
        self, standing: Standing, marks: Marks, even: Evenness, first: Found, second: Found
    ) -> LayoutAnswer:
        """The layout found, with what was proven of its rhythm and of its headroom."""
        stages = {
            "fit": Found(Status.OPTIMAL, Fraction(0), Fraction(0), 0),
            "rhythm": first,
        }
        if self.problem.wishes.rhythm != "to-fit":
            bound = Fraction(even.spread if second.proven else 0)
            stages["headroom"] = replace(
                second, value=Fraction(even.spread), bound=bound, raw=even.spread
            )
        proven = first.proven and second.proven
        return LayoutAnswer(
            Status.OPTIMAL if proven else Status.FEASIBLE,
            marks,
            standing.places(),
            dict.fromkeys(range(len(self.problem.kinds)), 0),
            stages,
        )


def _after(even: Evenness) -> Evenness:
    """The next evenness that is worse."""
    if even.spread >= ANY_SPREAD:
        return Evenness(even.empty + 1, 0)
    return replace(even, spread=even.spread + 1)


def bettered(
    standing: Standing, marks: Marks, rhythm: Fraction, limits: Limits
) -> tuple[Standing, Marks]:
    """Better what comes after rhythm and headroom, with both held."""
    problem, even = standing.problem, evenness(standing)
    polish_at(standing, rhythm, even, limits)
    new_marks, new_places = reorder(problem, marks, standing.places(), rhythm, limits)
    turned = Standing(problem, new_marks, new_places)
    return (turned, new_marks) if evenness(turned) <= even else (standing, marks)


def polish_at(standing: Standing, rhythm: Fraction, even: Evenness, limits: Limits) -> None:
    """Move places about: to this rhythm and evenness at most, then for the later wishes."""
    fit = standing.problem.wishes.rhythm == "to-fit"
    targets = Targets(
        to_fit=rhythm if fit else None,
        filled=len(standing.spaces) - even.empty,
        spread=None if fit else even.spread,
        missed=0,
        weight=0,
    )
    polish(standing, targets, limits)
