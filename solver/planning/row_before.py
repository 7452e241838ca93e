"""A row of the last plan in the numbers of a layout problem."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from solver.layout.layout_problem import Form, LayoutProblem, Place, RowBefore
from solver.plan.built import Placement
from solver.units import Ticks


def row_before(
    problem: LayoutProblem, kinds: Mapping[str, int], width: Ticks, things: Sequence[Placement]
) -> RowBefore | None:
    """Return what stood in an opening, `width` wide [tick], place by place.

    None where nothing did, a thing is no more, or is of another size. `kinds` are indices by name.
    """
    standing: dict[tuple[Ticks, str], list[Placement]] = defaultdict(list)
    for thing in things:
        standing[thing.x, thing.item].append(thing)
    places: list[Place] = []
    for (_, item), some in sorted(standing.items()):
        form = _form(problem, kinds[item], some) if item in kinds else None
        if form is None:
            return None
        places.append((form, len(some)))
    edges = tuple(x for x, _ in sorted(standing))
    return RowBefore(width, tuple(places), edges) if places else None


def _form(problem: LayoutProblem, kind: int, things: Sequence[Placement]) -> Form | None:
    """The form of a place on which these things stand."""
    one, rows = things[0], max(thing.row for thing in things)
    looks = (
        kind,
        (one.width, one.height, one.depth),
        one.lying,
        sum(thing.row == 1 for thing in things),
        rows,
        len(things),
    )
    return next(
        (
            form
            for form in problem.kinds[kind].forms
            if (form.kind, form.size, form.lying, form.stack, form.rows, form.things) == looks
        ),
        None,
    )
