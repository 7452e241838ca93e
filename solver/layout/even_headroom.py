"""The most even headroom: marks and the tallest thing of each opening first, then the rest.

Rooms over the tallest things follow from the marks and from how tall the tallest thing of each
opening is. So they are chosen in the bare case (:mod:`solver.layout.master_problem`), the counting
cuts holding for the tallest things. Then it is asked whether all things can stand like that. Where
they cannot, a no-good cut rules out the same tallest things in any other order. Where they could
not even with smaller things on top, it rules out all lower ones as well.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from solver.layout import objective
from solver.layout.constraints import RULES, Rule, groups_together
from solver.layout.counting_cuts import Reaches, enough_openings
from solver.layout.evenness import Chains, Evenness, EvennessGoal, chains_of, evenness_goal
from solver.layout.hold_rules import held_as_decided
from solver.layout.layout_problem import LayoutProblem
from solver.layout.master_problem import (
    BARE_WORK,
    Admitted,
    Takes,
    marks_model,
    no_good_cut,
    other_than,
    ways_to_take,
)
from solver.layout.placement_subproblem import STAND_WORK, MarksByBay, plain
from solver.layout.stage_search import Search, make, marks_by_bay, marks_by_class
from solver.layout.variables import LayoutVariables, Linear
from solver.outcome import Limits, Status, Verdict
from solver.units import Ticks

ASKED_MOST = 6
FINE_MOST = 2
"""How often it is asked whether things can stand like that, and how often where nobody would
see how uneven the headroom is [-]."""
NEVER = 1 << 60
"""Bound of a way in which there is no layout at all."""
LARGE = 2_500
"""Booleans of a bare case with chains from which on it is not tried [-]."""


@dataclass(frozen=True)
class Evenest:
    """What was found: no layout is more even than `bound`; `search` has one that is, or nearly."""

    bound: Evenness
    search: Search | None = None


@dataclass
class _Way:
    """The lines used in one way; `bound` holds for it, `raw` is of its best, if known."""

    search: Search
    goal: EvennessGoal
    chains: Chains
    bound: int = 0
    raw: int | None = None
    last: list[Admitted] = field(default_factory=list)


def evenest(
    problem: LayoutProblem,
    limits: Limits,
    left: int,
    rhythm_most: Fraction,
    *,
    orderless: bool,
    enough: Ticks = 0,
) -> Evenest:
    """Find the most even headroom of the layouts with a rhythm of at most `rhythm_most` [tick].

    Of the layouts that leave out at most `left` things. What is more even by no more than
    `enough` is not looked for [tick].
    """
    if _size(problem) > LARGE:
        return Evenest(Evenness(0, 0))
    ways = [
        _way(problem, limits, left, rhythm_most, takes, orderless=orderless)
        for takes in ways_to_take(problem, orderless=orderless)
    ]
    asked = 0
    while asked < ASKED_MOST and not limits.over:
        best = min((one for one in ways if one.raw is not None), key=_raw, default=None)
        low = min(ways, key=lambda one: (one.bound, one.raw is not None))
        if low.bound >= NEVER:
            break
        if best is None or _raw(best) > low.bound + enough // low.goal.unit:
            if low.raw is not None or not _solve(low, best, limits):
                break
            continue
        if asked >= FINE_MOST and _raw(best) <= enough // low.goal.unit:
            break
        asked += 1
        marks = marks_by_bay(best.search)
        verdict, search = _stood(problem, marks, _by_bay(best), left, limits)
        if verdict is Verdict.YES:
            return Evenest(low.goal.value(low.bound), search)
        if verdict is not Verdict.NO or not _cut(problem, marks, best, ways, left, limits):
            break
    lowest = min(ways, key=lambda one: one.bound)
    return Evenest(lowest.goal.value(lowest.bound) if lowest.bound < NEVER else Evenness(0, 0))


def _raw(way: _Way) -> int:
    return NEVER if way.raw is None else way.raw


def _size(problem: LayoutProblem) -> int:
    """About how many booleans the chains and levels of a bare case have [-]."""
    heights = len({form.height for kind in problem.kinds for form in kind.forms})
    return 2 * heights * sum(bay.openings for bay in problem.bays)


def _way(
    problem: LayoutProblem,
    limits: Limits,
    left: int,
    rhythm_most: Fraction,
    takes: Takes,
    *,
    orderless: bool,
) -> _Way:
    v = marks_model(problem, left, takes, merge=False, orderless=orderless)
    chains = chains_of(v)
    enough_openings(v, left, _reached(chains))
    _alike_in_order(v, chains)
    rhythm = objective.rhythm(v)
    v.model.add(rhythm.expression <= int(rhythm_most / rhythm.unit))
    goal = evenness_goal(v, chains)
    search = Search(v, limits)
    return _Way(search, goal, chains)


def _alike_in_order(v: LayoutVariables, chains: Chains) -> None:
    """Symmetry: of bays alike that use all their lines, the first has the taller things."""
    shapes = [(one.group, v.problem.groups[one.group].most, one.shape) for one in v.classes]
    for (a, first), (b, second) in pairwise(enumerate(shapes)):
        group, most, shape = first
        same = (second[0], second[2].width, second[2].sag, second[2].run, second[2].load)
        if same != (group, shape.width, shape.sag, shape.run, shape.load):
            continue
        if not shape.shelves == second[2].shelves == most or shape.deep != second[2].deep:
            continue
        for k in range(shape.openings):
            for height, high in chains[b, k].items():
                if height in chains[a, k]:
                    v.model.add_implication(high, chains[a, k][height])


def _reached(chains: Chains) -> Reaches:
    """Whether the tallest thing of an opening is at least so high."""

    def reaches(c: int, opening: int, height: Ticks) -> Linear:
        return next((high for h, high in chains[c, opening].items() if h >= height), 0)

    return reaches


def _solve(way: _Way, best: _Way | None, limits: Limits) -> bool:
    """Find the best of a way, if it is better than the best so far; False if not settled."""
    search, whole, known = way.search, way.search.v.model, best.raw if best else None
    if known is not None:
        search.v.model = whole.clone()
        search.v.model.add(way.goal.objective.expression <= known - 1)
    try:
        found = search.minimise(way.goal.objective, work=limits.work * BARE_WORK)
    finally:
        search.v.model = whole
    if found.status is Status.INFEASIBLE:
        way.bound = NEVER if known is None else known
        return True
    way.bound, way.raw = max(way.bound, round(found.bound)), found.raw
    if found.raw is not None:
        chains = way.chains.items()
        way.last = [Admitted(*o, _tallest(search, dict(chain))) for o, chain in chains]
    return found.raw is not None


def _tallest(search: Search, chain: Mapping[Ticks, Linear]) -> Ticks:
    return max((height for height, high in chain.items() if search.value(high)), default=0)


Tallest = Mapping[tuple[int, int], Ticks]
"""Height of the tallest thing by (bay, opening), 0 where nothing stands [tick]."""


def _by_bay(way: _Way) -> Tallest:
    classes = way.search.v.classes
    return {(classes[one.c].bays[0], one.opening): one.height for one in way.last}


def _cut(
    problem: LayoutProblem,
    marks: MarksByBay,
    way: _Way,
    ways: list[_Way],
    left: int,
    limits: Limits,
) -> bool:
    """Rule out what cannot stand, in all ways; False where its order may be the reason."""
    tallest, rules = _by_bay(way), tuple(RULES)
    if not plain(problem):
        rules = tuple(rule for rule in RULES if rule not in (groups_together, held_as_decided))
        verdict, _ = _stood(problem, marks, tallest, left, limits, rules=rules)
        if verdict is not Verdict.NO:
            return False
    lower, _ = _stood(problem, marks, tallest, left, limits, rules=rules, just=False)
    for one in ways:
        cut = no_good_cut if lower is Verdict.NO else other_than
        cut(one.search.v, way.last, _reached(one.chains))
        if one.raw is not None:
            one.raw = None
    return True


def _stood(
    problem: LayoutProblem,
    marks: MarksByBay,
    tallest: Tallest,
    left: int,
    limits: Limits,
    *,
    rules: tuple[Rule, ...] = RULES,
    just: bool = True,
) -> tuple[Verdict, Search]:
    """Whether things can stand on marks, none higher than the tallest of its opening.

    With `just`, one that is so high stands in each.
    """
    v = make(problem, merge=False, marks=marks_by_class(problem, marks), rules=rules)
    v.model.add(sum(v.left.values()) <= left)
    for c, k in v.openings():
        height, places = tallest[v.classes[c].bays[0], k], v.places(c, k)
        for form, x in places.items():
            if form.height > height:
                v.model.add(x == 0)
        if height and just:
            v.model.add(sum(x for form, x in places.items() if form.height == height) >= 1)
    search = Search(v, limits)
    return search.feasible(work=limits.work * STAND_WORK), search
