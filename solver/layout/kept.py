"""The layout before, as it is, for where the models that would better it are too large.

What stood in an opening stands there again as far as it may; what is new, or may not, takes the
first opening that has room for it.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from solver.layout.arithmetic import least_left, least_rhythm
from solver.layout.constructed import Constructed, allowed
from solver.layout.holding import Before, MarkHeld
from solver.layout.in_order import tallest_first
from solver.layout.rows import Rows
from solver.layout.search import Found
from solver.layout.shapes import Form, LayoutProblem
from solver.layout.standing import Marks, Standing
from solver.outcome import Status


def kept(problem: LayoutProblem, before: Before) -> tuple[Constructed, dict[str, Found]] | None:
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
