"""A layout by rule, where no model gives one, and to start models from.

Next fit by decreasing height says how high each row is: the tallest things fill the lowest rows of
all bays, and so on upwards. On the shelf lines of :mod:`solver.layout.lines_by_rule` kinds then
stand whole, the tallest first, each in the lowest opening that does; a kind that finds none is
parted, and what finds no place is left out. Of a few such layouts, from rows filled more or less,
the one that loses least is taken, then the one that looks best; nothing about it is proven.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial

from solver.layout.layout_problem import Form, Kind, LayoutProblem, Spot, tallest_first
from solver.layout.lines_by_rule import Rows, marks_by_rule
from solver.layout.look_scores import LookScores
from solver.layout.rules_kept import all_kept
from solver.layout.stages import asked_for
from solver.layout.standing import Placed, Standing
from solver.layout.wishes import kept_empty
from solver.units import Grams, Ticks

SHARES = tuple(
    (Fraction(width, 100), Fraction(load, 100))
    for width, load in ((95, 95), (90, 200), (100, 100), (90, 90), (80, 80))
)
"""How full rows are taken to become: shares of their width, and of their load [-]. Loads
of more than they bear leave the heavy to the rows above."""
Share = tuple[Fraction, Fraction]
Layout = tuple[dict[Spot, int], Placed]
"""Marks by (bay, shelf from 1), and places by (bay, opening)."""


def by_rule(problem: LayoutProblem) -> Layout | None:
    """Return a layout that keeps every rule, or None where none was found."""
    best: tuple[tuple[int, ...], Layout] | None = None
    for marks in _some_marks(problem):
        for dearest_first in (False, True):
            layout = marks, Standing(problem, marks).filled(dearest_first=dearest_first)
            if not all_kept(problem, *layout):
                continue
            score = wished(problem, layout)
            if best is None or score < best[0]:
                best = score, layout
            if not any(score[:3]):
                break
    return None if best is None else steadier(problem, best[1])


def steadier(problem: LayoutProblem, layout: Layout) -> Layout:
    """The same places on marks that what stands there needs, if that keeps every rule."""
    rows, places = [Rows(problem, group) for group in problem.groups], layout[1]
    needs = [list(one.least) for one in rows]
    for one, steps in zip(rows, needs, strict=True):
        for k in range(one.last + 1):
            forms = [form for bay in one.group.bays for form, _ in places.get((bay, k), ())]
            steps[k] = max((one.need(k, form) for form in forms), default=steps[k])
    marks = marks_by_rule(problem, rows, needs)
    again = layout if marks is None else (marks, places)
    if not all_kept(problem, *again) or wished(problem, again) > wished(problem, layout):
        return layout
    return again


def wished(problem: LayoutProblem, layout: Layout) -> tuple[int, ...]:
    """What a layout comes to: loss by `keep`, then wishes up to `rises`, first one first; raw."""
    scores = LookScores(problem, *layout)
    loss = [0, 0, 0]
    for k, count in scores.left().items():
        loss[problem.kinds[k].keep] += problem.kinds[k].area * count
    return (*loss, *(scores.value(name) for name in (*asked_for(problem), "rises")))


def _some_marks(problem: LayoutProblem) -> Iterator[dict[Spot, int]]:
    """The marks before, where there are any, and those of rows filled more or less."""
    before = problem.holding.before
    if before is not None:
        marks = dict(before.marks)
        if len(marks) == sum(shape.shelves for shape in problem.bays):
            yield marks
    rows, seen = [Rows(problem, group) for group in problem.groups], list[dict[Spot, int]]()
    forms = sorted(filter(None, map(partial(_usual, problem), problem.kinds)), key=tallest_first)
    for share in SHARES:
        marks_now = marks_by_rule(problem, rows, _needs(problem, rows, forms, share))
        if marks_now is not None and marks_now not in seen:
            seen.append(marks_now)
            yield marks_now


def _usual(problem: LayoutProblem, kind: Kind) -> Form | None:
    """The first form of a kind for which any bay is deep and wide enough: of a single thing."""
    bays = problem.bays
    usable = (f for f in kind.forms if any(f.depth <= b.deep and f.width <= b.run for b in bays))
    return next(usable, None)


def _needs(
    problem: LayoutProblem, rows: Sequence[Rows], forms: Sequence[Form], share: Share
) -> list[list[int]]:
    """Steps that each row needs, the tallest that the height does not do for left aside."""
    lowest = [[one.need(k, forms[-1]) for k in range(one.last + 1)] for one in rows if forms]
    needs = _filled_rows(problem, rows, lowest, forms, share)
    if _high_enough(needs):  # no row too low for anything
        return needs
    least = [one.least for one in rows]
    low, high = 0, len(forms)
    while low < high:
        middle = (low + high) // 2
        if _high_enough(_filled_rows(problem, rows, least, forms[middle:], share)):
            high = middle
        else:
            low = middle + 1
    return _filled_rows(problem, rows, least, forms[low:], share)


def _high_enough(needs: Sequence[Sequence[int]]) -> bool:
    """Whether there is the height for the steps of all rows of each group."""
    return all(sum(steps) <= 0 for steps in needs)


def _filled_rows(
    problem: LayoutProblem,
    rows: Sequence[Rows],
    least: Sequence[Sequence[int]],
    forms: Sequence[Form],
    share: Share,
) -> list[list[int]]:
    """Steps that each row needs for what fills it, all bays of a row taken together."""
    needs, top = (
        [list(steps) for steps in least or (one.least for one in rows)],
        problem.wishes.tallest == "top",
    )
    order = sorted((level, g) for g, one in enumerate(rows) for level in range(one.last + 1))
    turn = iter([(g, rows[g].last - level if top else level) for level, g in order])
    g, k = next(turn)
    room, bears = _room(problem, rows[g], k, share)
    for form in forms:
        kind = problem.kinds[form.kind]
        width, left = form.width + min(problem.wishes.gap, kind.gap), kind.count
        while left:
            stand = min(left, room // width, bears // kind.mass if kind.mass else left)
            if stand:
                needs[g][k] = max(needs[g][k], rows[g].need(k, form))
                room, bears, left = room - stand * width, bears - stand * kind.mass, left - stand
            elif (following := next(turn, None)) is None:
                return needs
            else:
                g, k = following
                room, bears = _room(problem, rows[g], k, share)
                left = left if room >= width and bears >= kind.mass else 0
    return needs


def _room(problem: LayoutProblem, row: Rows, k: int, share: Share) -> tuple[Ticks, Grams]:
    """Width and load that the openings of a row have together, for a share of them."""
    kept, bays = kept_empty(problem), problem.bays
    there = [b for b in row.group.bays if bays[b].openings > k and (b, k) not in kept]
    width = sum(bays[b].run + problem.wishes.gap for b in there)
    return int(share[0] * width), int(share[1] * sum(bays[b].load_at(k) for b in there))
