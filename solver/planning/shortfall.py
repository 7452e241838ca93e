"""What does not fit and by how much, and which things to leave out for the least loss."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from solver.layout.counting_cuts import enough_openings
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.layout_problem import BayShape, Form, LayoutProblem, too_large
from solver.layout.objective import Objective
from solver.layout.stage_search import Search, make
from solver.outcome import Limits
from solver.plan.plan import Change, LeftOut, ShortBy
from solver.units import Ticks

WORK = 2.0
"""Deterministic work for the choice that loses least."""
AREA = 320 * 320
"""Square ticks in a unit of what is lost to the eye, a square millimetre."""


def leaving_out(problem: LayoutProblem, answer: LayoutAnswer, limits: Limits) -> tuple[Change, ...]:
    """Return what to leave out so that the rest fits: as few things as can be.

    First the choice that loses least to the eye (width times height), then, where it is
    another one, that of the layout shown. Fewer are proven not to do where stage 1 is proven.
    """
    shown = {k: count for k, count in answer.left.items() if count}
    proven = answer.stages["fit"].proven
    least, sure = _least_loss(problem, sum(shown.values()), limits)
    choices = [(least, proven and sure), (shown, proven)] if least else [(shown, proven)]
    if len(choices) == 2 and choices[0][0] == shown:
        choices = choices[:1]
    return tuple(_change(problem, left, proven=fewest) for left, fewest in choices)


def _least_loss(problem: LayoutProblem, count: int, limits: Limits) -> tuple[dict[int, int], bool]:
    """What loses least with `count` things left out; nothing where it was not found."""
    if too_large(problem, limits):
        return {}, False
    v = make(problem, merge=False)
    v.model.add(sum(v.left.values()) <= count)
    enough_openings(v, count)
    search = Search(v, limits)
    lost = sum(_area(problem, k) * left for k, left in v.left.items())
    found = search.minimise(Objective(lost, Fraction(1)), work=WORK)
    if found.value is None:
        return {}, False
    left = {k: search.value(variable) for k, variable in v.left.items()}
    return {k: number for k, number in left.items() if number}, found.proven


def _area(problem: LayoutProblem, kind: int) -> int:
    width, height, _ = problem.kinds[kind].forms[0].size
    return max(1, width * height // AREA)


def _change(problem: LayoutProblem, left: Mapping[int, int], *, proven: bool) -> Change:
    leaves = {problem.kinds[k].name: count for k, count in left.items()}
    named = ", ".join(f"{count} x {name}" for name, count in leaves.items())
    return Change(what="leave out", leaves=leaves, text=f"leave out {named}", proven=proven)


def left_out(problem: LayoutProblem, answer: LayoutAnswer) -> tuple[LeftOut, ...]:
    """Every kind that is left out, with what is missing for one of it."""
    return tuple(
        LeftOut(item=problem.kinds[kind].name, count=count, short_by=_short(problem, answer, kind))
        for kind, count in sorted(answer.left.items())
        if count
    )


def _short(problem: LayoutProblem, answer: LayoutAnswer, kind: int) -> ShortBy:
    """The least missing in each direction, each over the openings that pass the one before.

    Depth first, then height in bays deep enough, then width in openings high enough.
    """
    forms = problem.kinds[kind].forms
    pairs = [(form, bay) for form in forms for bay in range(len(problem.bays))]
    depth = min(form.depth - problem.bays[bay].deep for form, bay in pairs)
    if depth > 0:
        return ShortBy(depth=depth)
    deep = [(form, bay) for form, bay in pairs if form.depth <= problem.bays[bay].deep]
    spots = [(form, bay, k) for form, bay in deep for k in range(problem.bays[bay].openings)]
    height = min(_missing_height(problem, answer, *spot) for spot in spots)
    if height > 0:
        return ShortBy(height=height)
    high = [s for s in spots if _missing_height(problem, answer, *s) <= 0]
    width = min(_missing_width(problem, answer, *spot) for spot in high)
    if width > 0:
        return ShortBy(width=width)
    load = min(_missing_load(problem, answer, kind, bay, k) for _, bay, k in high)
    return ShortBy(load=load if load > 0 else None)


def heights(problem: LayoutProblem, answer: LayoutAnswer, bay: int) -> Iterator[Ticks]:
    """Clear heights of a bay, lowest first [tick]."""
    shape: BayShape = problem.bays[bay]
    marks = [answer.underside(problem, bay, k) for k in range(1, shape.shelves + 1)]
    floors = [shape.floor, *(mark + shape.thickness for mark in marks)]
    ceilings = [*marks, shape.floor + shape.inside]
    return (high - low for low, high in zip(floors, ceilings, strict=True))


def _missing_height(
    problem: LayoutProblem, answer: LayoutAnswer, form: Form, bay: int, opening: int
) -> Ticks:
    clear = list(heights(problem, answer, bay))[opening]
    return problem.needed(form, problem.bays[bay], opening) - clear


def _missing_width(
    problem: LayoutProblem, answer: LayoutAnswer, form: Form, bay: int, opening: int
) -> Ticks:
    gap = problem.wishes.gap
    taken = sum(
        other.width + min(gap, problem.kinds[other.kind].gap)
        for other, _ in answer.places.get((bay, opening), ())
    )
    return taken + form.width - problem.bays[bay].run


def _missing_load(
    problem: LayoutProblem, answer: LayoutAnswer, kind: int, bay: int, opening: int
) -> int:
    load = sum(
        problem.kinds[form.kind].mass * things
        for form, things in answer.places.get((bay, opening), ())
    )
    return load + problem.kinds[kind].mass - problem.bays[bay].load_at(opening)
