"""Where every thing of a place stands, and the mirror image of a row. Pure arithmetic on ticks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from solver.layout.layout_problem import BayShape, Form, LayoutProblem, Place
from solver.units import Ticks


@dataclass(frozen=True)
class Spot:
    """One thing where it stands in its opening; `on` is the index of the spot below it."""

    kind: int
    form: Form
    x: Ticks
    y: Ticks
    z: Ticks
    row: int
    on: int | None


def stood(bay: BayShape, row: Sequence[Place], edges: Sequence[Ticks]) -> tuple[Spot, ...]:
    """Fill the places of a row, from left to right; `edges` are their left edges [tick]."""
    spots: list[Spot] = []
    for (form, things), x in zip(row, edges, strict=True):
        spots += _stand(bay, form, things, x, len(spots))
    return tuple(spots)


def _stand(bay: BayShape, form: Form, things: int, x: Ticks, first: int) -> list[Spot]:
    """Fill one place: the front row from the floor up, then the next row on its riser."""
    _, height, depth = form.size
    rows = -(-things // form.stack)
    pitch = (form.depth - depth) // (form.rows - 1) if form.rows > 1 else 0
    front = bay.front + (bay.deep - (depth + (rows - 1) * pitch)) // 2
    spots = []
    for number in range(things):
        row, level = divmod(number, form.stack)
        spots.append(
            Spot(
                kind=form.kind,
                form=form,
                x=x,
                y=row * form.riser + level * height,
                z=front + row * pitch,
                row=row + 1,
                on=first + number - 1 if level else None,
            )
        )
    return spots


def flanking(problem: LayoutProblem, case_index: int) -> tuple[tuple[int, int], ...]:
    """Pairs of bays of one width, left and right of a case's middle, by index in the problem."""
    bays = [b for b, shape in enumerate(problem.bays) if shape.case == case_index]
    bays.sort(key=lambda b: problem.bays[b].number)
    pairs = zip(bays[: len(bays) // 2], reversed(bays), strict=False)
    return tuple(
        (left, right)
        for left, right in pairs
        if problem.bays[left].width == problem.bays[right].width
    )


def mirrored(spots: Sequence[Spot], width: Ticks) -> tuple[Spot, ...]:
    """Return the mirror image of what stands in an opening `width` wide [tick], left to right."""
    order = sorted(range(len(spots)), key=lambda i: -spots[i].x)
    new = {old: number for number, old in enumerate(order)}
    turned = (spots[old] for old in order)
    return tuple(
        replace(
            spot,
            x=width - spot.x - spot.form.width,
            on=None if spot.on is None else new[spot.on],
        )
        for spot in turned
    )
