"""Minimal change: a layout around what is held that moves as little as possible of the one before.

The order of wishes is the usual one, with two more after fit: how far shelves move, then
how many things change their opening. The shelf marks come first, since boards are marked
and fixed before anything stands on them. All stages run on one model of every bay by
itself; the layout before is its hint, so that only what must move is searched.

Where that model is too large, the layout before is taken as it is: what stood in an opening stands
there again as far as it may, and the rest takes the first opening that has room for it.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from solver.layout import objective
from solver.layout.arithmetic_bounds import least_left, least_rhythm
from solver.layout.arrangement import Marks, Standing, spaces_of
from solver.layout.constructive import Constructed, allowed
from solver.layout.counting_cuts import enough_openings
from solver.layout.hold_rules import homes, marks_moved, things_moved
from solver.layout.incumbent import NOTHING
from solver.layout.later_stages import eye_openings, marks_found, places_found
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import (
    Before,
    Form,
    LayoutProblem,
    MarkHeld,
    tallest_first,
    too_large,
)
from solver.layout.objective import Objective
from solver.layout.rows_by_rule import Rows
from solver.layout.stage_search import Found, Search, make
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits, Status, Verdict

LOOK_WORK = 1.0
"""Deterministic work for a look whether nothing but what is held has to move."""
LATER_WORK = 0.1
"""Deterministic work for each wish after the rhythm."""
RHYTHM_WORK = 1.0
"""Deterministic work for the rhythm where little is left to be decided."""


def lay_out(problem: LayoutProblem, limits: Limits) -> LayoutAnswer:
    """Decide shelf positions and what stands where, from the layout before where there is one."""
    if problem.holding.before is None:
        return solve_layout(problem, limits)
    answer = LayoutAnswer(Status.UNKNOWN, stages={"fit": NOTHING})
    if not too_large(problem, limits):
        answer = MinimalChange(problem, limits, problem.holding.before).answer()
    if answer.status is Status.UNKNOWN:
        return _as_before(problem, problem.holding.before) or answer
    return answer


def _as_before(problem: LayoutProblem, before: Before) -> LayoutAnswer | None:
    """Return the layout before as it is, where the limit came before anything better."""
    found = previous_layout(problem, before)
    if found is None:
        return None
    layout, stages = found
    left = Counter({k: kind.count for k, kind in enumerate(problem.kinds)})
    for places in layout.places.values():
        for form, things in places:
            left[form.kind] -= things
    return LayoutAnswer(Status.FEASIBLE, layout.marks, layout.places, left, stages)


class MinimalChange:
    """One layout while it is solved around what is held."""

    def __init__(self, problem: LayoutProblem, limits: Limits, before: Before) -> None:
        self.problem, self.limits, self.before = problem, limits, before
        self.stages: dict[str, Found] = {}
        self.v = make(problem, merge=False)
        self.search = Search(self.v, limits)
        self.search.suggest(before_values(self.v, before))

    def answer(self) -> LayoutAnswer:
        """Solve stage by stage; each is held before the next."""
        left = objective.left_out(self.v)
        if not self._stage("fit", left):
            return LayoutAnswer(self.stages["fit"].status, stages=self.stages)
        enough_openings(self.v, self.stages["fit"].raw)
        moved = marks_moved(self.v)
        self._stage("marks moved", moved, floor=self._forced(moved.unit))
        self._stage("things moved", things_moved(self.v))
        self._wish("rhythm", objective.rhythm(self.v), RHYTHM_WORK)
        self._later()
        proven = all(self.stages[name].proven for name in ("fit", "rhythm"))
        return LayoutAnswer(
            Status.OPTIMAL if proven else Status.FEASIBLE,
            marks_found(self.search),
            places_found(self.search),
            {kind: self.search.value(left) for kind, left in self.v.left.items()},
            self.stages,
        )

    def _stage(self, name: str, goal: Objective, *, floor: int = 0) -> bool:
        """Find the least of a goal that is never less than `floor`, and hold it.

        Whether the floor itself can be had is looked at first: mostly it can, and a look
        for it is much quicker than a search for the least.
        """
        whole = self.v.model
        self.v.model = whole.clone()
        self.v.model.add(goal.expression <= floor)
        if name == "fit":
            enough_openings(self.v, floor)
        try:
            verdict = self.search.feasible(work=LOOK_WORK)
        finally:
            self.v.model = whole
        if verdict is Verdict.YES:
            value = goal.unit * floor
            self.stages[name] = Found(Status.OPTIMAL, value, value, floor, goal.exact)
            self.v.model.add(goal.expression <= floor)
            return True
        return self._wish(name, goal, None)

    def _wish(self, name: str, goal: Objective, work: float | None) -> bool:
        """Minimise a goal and hold it; False where nothing was found."""
        found = self.search.minimise(goal, work=work)
        self.stages[name] = found
        if found.raw is not None:
            self.v.model.add(goal.expression <= found.raw)
        return found.raw is not None

    def _forced(self, unit: Fraction) -> int:
        """How far the held marks alone are from where they were [units of the goal].

        In bays that share all their shelf lines the same shelf of each moves along.
        """
        before, ways = dict(self.before.marks), 0
        for one in self.problem.holding.held:
            if isinstance(one, MarkHeld) and one.bay >= 0:
                line = one.mark + self.problem.bays[one.bay].line
                for bay in self._alongside(one.bay):
                    shape = self.problem.bays[bay]
                    way = abs(line - shape.line - before.get((bay, one.shelf), line - shape.line))
                    ways += shape.step * way
        return int(ways / unit)

    def _alongside(self, bay: int) -> list[int]:
        """The bays that share all shelf lines with a bay, itself first."""
        bays = self.problem.bays
        group = next(group for group in self.problem.groups if bay in group.bays)
        if bays[bay].shelves != group.most:
            return [bay]
        return [other for other in group.bays if bays[other].shelves == group.most]

    def _later(self) -> None:
        """Even headroom, where it is not the rhythm itself; then, marks held, the other wishes."""
        if self.problem.wishes.rhythm != "to-fit":
            self._wish("headroom", objective.headroom_spread(self.v), LATER_WORK)
        marks = marks_found(self.search)
        for (bay, shelf), mark in marks.items():
            self.v.model.add(self.v.mark(homes(self.v)[bay], shelf) == mark)
        floors = {(s.bay, s.opening): s.floor for s in spaces_of(self.problem, marks)}
        by_class = {(c, k): floors[self.v.classes[c].bays[0], k] for c, k in self.v.openings()}
        missed = objective.wishes_missed(self.v, eye_openings(self.v, by_class))
        self._wish("places", missed, LATER_WORK)
        self._wish("low weight", objective.mass_times_height(self.v, by_class), LATER_WORK)


def before_values(v: LayoutVariables, before: Before) -> dict[str, int]:
    """The layout before as values of variables by name, as far as it still has a place."""
    values = v.mark_values(dict(before.marks)) if before.marks else {}
    count = dict(before.things)
    home = homes(v)
    for (kind, bay, opening), things in count.items():
        single = [x for f, x in v.places(home[bay], opening).items() if f.kind == kind]
        if single and len(v.problem.kinds[kind].forms) == 1:
            values[single[0].name] = things
    return values


def previous_layout(
    problem: LayoutProblem, before: Before
) -> tuple[Constructed, dict[str, Found]] | None:
    """Return the layout before with its marks, and what its stages come to.

    None where its marks may not stay, or what is held, or a group, does not come out of it.
    """
    marks = dict(before.marks)
    if not _may_stay(problem, marks):
        return None
    rows = Rows(problem, [])
    for bay in range(len(problem.bays)):
        rows.add((bay,), marks)
    stood = Counter[int]()
    for (kind, bay, opening), count in before.things:
        count = min(count, problem.kinds[kind].count - stood[kind])
        stood[kind] += _again(problem, rows, (bay, opening), kind, count)
    for k, one in enumerate(problem.kinds):
        rows.left += [one.forms[0]] * (one.count - stood[k])
    rows.left.sort(key=tallest_first)
    rows.again()
    answer = Constructed(problem, marks, rows.places(), sum(form.things for form in rows.left))
    standing = Standing(problem, marks, answer.places)
    stages = _stages(answer, standing, before)
    good = all(map(standing.together, range(len(standing.at)))) and standing.all_kept
    if problem.holding.stay and stages["things moved"].value:
        return None
    return (answer, stages) if good else None


def _may_stay(problem: LayoutProblem, marks: Marks) -> bool:
    """Whether every shelf has its mark, held ones theirs, on the lines of its group."""
    shelves = {(b, k) for b, shape in enumerate(problem.bays) for k in range(1, shape.openings)}
    if marks.keys() != shelves:
        return False
    if not all(allowed(problem, b, marks) for b in range(len(problem.bays))):
        return False
    for group in problem.groups:
        lines = [
            {marks[b, k] + problem.bays[b].line for k in range(1, problem.bays[b].openings)}
            for b in group.bays
        ]
        if any(not some <= max(lines, key=len) for some in lines):
            return False
    return all(
        marks.get((one.bay, one.shelf)) == one.mark
        for one in problem.holding.held
        if isinstance(one, MarkHeld)
    )


def _again(problem: LayoutProblem, rows: Rows, at: tuple[int, int], kind: int, count: int) -> int:
    """Stand so many things of a kind in an opening, in as little width as may be; how many did."""
    stood, forms = 0, sorted(problem.kinds[kind].forms, key=_width)
    while form := next((f for f in forms if f.things <= count - stood and rows.put(at, f)), None):
        stood += form.things
    return stood


def _width(form: Form) -> Fraction:
    return Fraction(form.width, form.things)


def _stages(answer: Constructed, standing: Standing, before: Before) -> dict[str, Found]:
    problem, left = answer.problem, Fraction(answer.left)
    moved, least = Fraction(_moved(answer, before)), least_rhythm(problem, answer.left)
    stages = {
        "fit": _found(left, min(left, Fraction(least_left(problem)))),
        "marks moved": _found(Fraction(0)),
        "things moved": _found(moved),
        "rhythm": _found(answer.rhythm, min(least, answer.rhythm)),
    }
    if problem.wishes.rhythm != "to-fit":
        stages["headroom"] = _found(Fraction(standing.spread))
    stages["places"] = _found(Fraction(standing.missed))
    stages["low weight"] = _found(Fraction(standing.weight, 1000))
    return stages


def _found(value: Fraction, bound: Fraction = Fraction(0)) -> Found:
    status = Status.OPTIMAL if value <= bound else Status.FEASIBLE
    return Found(status, value, bound, int(value))


def _moved(answer: Constructed, before: Before) -> int:
    """Things in another opening than before; those that are no more have not moved."""
    now, were, gone = Counter[tuple[int, int, int]](), Counter[int](), 0
    for (bay, opening), places in answer.places.items():
        for form, things in places:
            now[form.kind, bay, opening] += things
    for (kind, bay, opening), count in before.things:
        were[kind] += count
        gone += max(0, count - now[kind, bay, opening])
    kinds = answer.problem.kinds
    return gone + sum(min(0, kinds[kind].count - count) for kind, count in were.items())
