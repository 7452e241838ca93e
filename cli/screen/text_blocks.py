"""Things of one opening as blocks of character cells, each with at least one cell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from solver.plan.built import Placement
from solver.units import Ticks

Cell = tuple[int, int]
"""Row from the opening's floor, column from the bay's left side [-]."""


@dataclass(frozen=True)
class Grid:
    """The character cells of one opening.

    Attributes
    ----------
    rows, columns
        Cells there are [-].
    row, column
        What one cell stands for [tick].
    """

    rows: int
    columns: int
    row: Ticks
    column: float


def busiest(things: Sequence[Placement]) -> int:
    """Return the most things that stand beside each other in one row [-]."""
    rows = [thing.row for thing in things if thing.on is None]
    return max((rows.count(row) for row in set(rows)), default=0)


def blocks(things: Sequence[Placement], grid: Grid) -> dict[Cell, int]:
    """Return which thing (its index) each cell shows; cells that show none are left out.

    Things behind are drawn first and those in front over them; one that would be lost
    that way takes a cell from where it stands.
    """
    columns = _columns(things, grid)
    spans = [(_rows(thing, grid), columns[i]) for i, thing in enumerate(things)]
    cells: dict[Cell, int] = {}
    for i in sorted(range(len(things)), key=lambda i: (-things[i].row, things[i].y)):
        cells.update(dict.fromkeys(_span(spans[i]), i))
    for i, span in enumerate(spans):
        if i not in cells.values():
            _rescue(i, span, cells, grid)
    return cells


Range = tuple[int, int]


def _span(span: tuple[Range, Range]) -> list[Cell]:
    (low, high), (left, right) = span
    return [(row, column) for row in range(low, high) for column in range(left, right)]


def _rows(thing: Placement, grid: Grid) -> Range:
    """Rows of a thing from the opening's floor, at least one and none above the ceiling."""
    low = round(thing.y / grid.row)
    high = max(low + 1, round((thing.y + thing.height) / grid.row))
    high = min(high, grid.rows)
    return min(low, high - 1), high


def _columns(things: Sequence[Placement], grid: Grid) -> Mapping[int, Range]:
    """Columns of each thing: to scale, then moved apart where rounding laid them together."""
    ranges: dict[int, Range] = {}
    for row in {thing.row for thing in things}:
        beside = [i for i, thing in enumerate(things) if thing.row == row and thing.on is None]
        ranges |= _apart(sorted(beside, key=lambda i: things[i].x), things, grid)
    numbered = {(thing.item, thing.number): i for i, thing in enumerate(things)}
    for i in sorted(range(len(things)), key=lambda i: things[i].y):
        if i not in ranges:
            below = numbered.get((things[i].item, things[i].on or 0))
            ranges[i] = ranges[below] if below in ranges else _to_scale(things[i], grid)
    return ranges


def _to_scale(thing: Placement, grid: Grid) -> Range:
    left = min(round(thing.x / grid.column), grid.columns - 1)
    right = min(round((thing.x + thing.width) / grid.column), grid.columns)
    return left, max(left + 1, right)


def _apart(order: Sequence[int], things: Sequence[Placement], grid: Grid) -> dict[int, Range]:
    """Push overlapping blocks to the right, then back inside from the right-hand end."""
    spans, end = [], 0
    for i in order:
        left, right = _to_scale(things[i], grid)
        left = max(left, end)
        end = max(right, left + 1)
        spans.append((left, end))
    limit = grid.columns
    for at in reversed(range(len(spans))):
        left, right = spans[at]
        right = max(1, min(right, limit))
        limit = max(0, min(left, right - 1))
        spans[at] = (limit, right)
    return dict(zip(order, spans, strict=True))


def _rescue(thing: int, span: tuple[Range, Range], cells: dict[Cell, int], grid: Grid) -> None:
    """Give a hidden thing one cell: of its own span, else the nearest that can be spared."""
    owners = list(cells.values())
    own = _span(span)
    row, column = own[-1]
    every = [(r, c) for r in range(grid.rows) for c in range(grid.columns)]
    nearest = sorted(every, key=lambda cell: (abs(cell[1] - column), abs(cell[0] - row)))
    for cell in [*reversed(own), *nearest]:
        if cell not in cells or owners.count(cells[cell]) > 1:
            cells[cell] = thing
            return
