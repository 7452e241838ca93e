"""The order in which things are stood up by rule, and the forms they take."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from fractions import Fraction

from solver.layout.shapes import Form, Kind, LayoutProblem


def plainly(problem: LayoutProblem) -> list[list[Form]]:
    """Every thing by itself in its plain form, groups in one, tallest first."""
    return _in_order(problem, lambda kind, _: kind.forms[0])


def densely(problem: LayoutProblem) -> list[list[Form]]:
    """Everything in the forms that take the least width, groups in one, tallest first."""
    return _in_order(
        problem,
        lambda kind, left: min(
            (form for form in kind.forms if form.things <= left),
            key=lambda form: (Fraction(form.width + kind.gap, form.things), form.height),
        ),
    )


def _in_order(problem: LayoutProblem, choose: Callable[[Kind, int], Form]) -> list[list[Form]]:
    groups: dict[object, list[Form]] = defaultdict(list)
    for k, kind in enumerate(problem.kinds):
        left = kind.count
        while left:
            form = choose(kind, left)
            groups[(k, left) if kind.group is None else kind.group].append(form)
            left -= form.things
    things = [sorted(group, key=tallest_first) for group in groups.values()]
    return sorted(things, key=lambda group: tallest_first(group[0]))


def tallest_first(form: Form) -> tuple[int, int, int]:
    """Return what forms are sorted by: height, then width, then kind."""
    return -form.height, -form.width, form.kind
