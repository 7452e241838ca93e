"""What does not fit and by how much, and which things to leave out for the least loss."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from solver.layout.layout_engine import LayoutAnswer
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.plan.plan import Change, LeftOut, ShortBy
from solver.plan.slack_and_advice import Binding, BindingLimit
from solver.units import Ticks


def leaving_out(problem: LayoutProblem, answer: LayoutAnswer) -> tuple[Change, ...]:
    """Return what to leave out so that the rest fits, with the least loss to the client."""
    left = {k: count for k, count in answer.left.items() if count}
    return (_change(problem, left, proven=answer.stages["fit"].proven),)


def _change(problem: LayoutProblem, left: Mapping[int, int], *, proven: bool) -> Change:
    leaves = {problem.kinds[k].name: count for k, count in left.items()}
    named = ", ".join(f"{count} x {name}" for name, count in leaves.items())
    return Change(what="leave out", leaves=leaves, text=f"leave out {named}", proven=proven)


def left_out(
    problem: LayoutProblem, answer: LayoutAnswer, binds: Sequence[Binding]
) -> tuple[LeftOut, ...]:
    """Every kind that is left out, with what is missing for one of it where that is what binds."""
    told = _told(binds)
    return tuple(
        LeftOut(
            item=problem.kinds[kind].name, count=count, short_by=_short(problem, answer, kind, told)
        )
        for kind, count in sorted(answer.left.items())
        if count
    )


_DIRECTIONS: dict[str, frozenset[BindingLimit]] = {
    "depth": frozenset(["depth", "front margin"]),
    "height": frozenset(
        ["height", "most clear height", "least clear height", "headroom", "lip", "marks"]
    ),
    "width": frozenset(["width", "gap", "end margin", "spare"]),
    "load": frozenset(["sag", "load"]),
}
"""The limits of each direction in which something may be missing."""


def _told(binds: Sequence[Binding]) -> frozenset[str]:
    """The directions in which it is said how much is missing: those of the limits that bind."""
    if not binds:
        return frozenset(["depth", "height"])
    bound = set(binds[0].limits)
    return frozenset(what for what, limits in _DIRECTIONS.items() if limits & bound)


def _short(
    problem: LayoutProblem, answer: LayoutAnswer, kind: int, told: frozenset[str]
) -> ShortBy:
    """The least missing in each direction told, each over the openings that pass the one before.

    Depth first, then height in bays deep enough, then width in openings high enough.
    """
    forms = problem.kinds[kind].forms
    pairs = [(form, bay) for form in forms for bay in range(len(problem.bays))]
    depth = min(form.depth - problem.bays[bay].deep for form, bay in pairs)
    if depth > 0 and "depth" in told:
        return ShortBy(depth=depth)
    deep = [(form, bay) for form, bay in pairs if form.depth <= problem.bays[bay].deep] or pairs
    spots = [(form, bay, k) for form, bay in deep for k in range(problem.bays[bay].openings)]
    height = min(_missing_height(problem, answer, *spot) for spot in spots)
    if height > 0 and "height" in told:
        return ShortBy(height=height)
    high = [s for s in spots if _missing_height(problem, answer, *s) <= 0] or spots
    width = min(_missing_width(problem, answer, *spot) for spot in high)
    if width > 0 and "width" in told:
        return ShortBy(width=width)
    load = min(_missing_load(problem, answer, kind, bay, k) for _, bay, k in high)
    return ShortBy(load=load if load > 0 and "load" in told else None)


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


def run_needed(problem: LayoutProblem) -> Ticks:
    """Least width that all things and the gaps between them take side by side [tick]."""
    least = (
        kind.count * min(Fraction(form.width + kind.gap, form.things) for form in kind.forms)
        for kind in problem.kinds
    )
    return int(sum(least, Fraction(0)))


def run_given(problem: LayoutProblem) -> Ticks:
    """Width that all boards have for things and the gaps between them [tick]."""
    return sum(shape.openings * (shape.run + problem.wishes.gap) for shape in problem.bays)
