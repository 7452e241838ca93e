"""One case as lines of text: boards as lines, things as blocks with a letter in the corner."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cli.blocks import Grid, blocks, busiest
from solver.built import Bay, CasePlan, Opening
from solver.front_boards import carcass_fronts, shelf_fronts
from solver.trade_words import word
from solver.units import Ticks, Unit, format_length

GUTTER = 3
"""Columns left of a case, for the numbers of the openings."""
HEIGHTS = 11
"""Columns right of a case, for clear heights."""


@dataclass(frozen=True)
class Signs:
    """What lines and blocks are drawn with; corners from top left to bottom right."""

    across: str
    up: str
    corners: str
    shades: str


LINES = Signs("─", "│", "┌┬┐├┼┤└┴┘", "░▒")
PLAIN = Signs("-", "|", "+++++++++", ".:")


@dataclass(frozen=True)
class Scale:
    """What one row stands for [tick], and the most columns a case may take [-]."""

    row: Ticks
    room: int
    signs: Signs = LINES

    @property
    def column(self) -> float:
        """What one column stands for: a cell is twice as high as wide [tick]."""
        return self.row / 2


Rows = list[str | None]
"""Rows of one bay from the bottom up; None is a board across."""


def case_picture(case: CasePlan, unit: Unit, keys: Mapping[str, str], scale: Scale) -> list[str]:
    """Return one case from the top row to the bottom one.

    Openings are numbered on the left; on the right stand their clear heights, where
    the case has one bay.
    """
    levels = _levels(case, scale)
    wide = _bay_columns(case, scale)
    raised = len(levels[0]) > len(case.bays[0].openings) + 1
    bays = [
        _bay_rows(bay, columns, at, keys, scale, word("toe", unit) if raised else "")
        for bay, columns, at in zip(case.bays, wide, levels, strict=True)
    ]
    rows = list(zip(*bays, strict=True))
    lines = [_line(row, wide, scale.signs, _edge(i, len(rows))) for i, row in enumerate(rows)]
    _label(lines, case, levels[0][1 if raised else 0 :], unit)
    return lines[::-1]


def _edge(index: int, count: int) -> int:
    """Return which three of the corner signs a row takes: 0 top, 1 between, 2 bottom."""
    return 2 if index == 0 else 0 if index == count - 1 else 1


def _levels(case: CasePlan, scale: Scale) -> list[list[int]]:
    """Return the row of each board of each bay, the lower end first, a row apart at least."""
    found = []
    carcass = {front.kind: front for front in carcass_fronts(case)}
    low = [0] if "toe" in carcass else []
    low.append(carcass["bottom"].middle)
    for bay in case.bays:
        shelves = [shelf_fronts(bay, shelf)[0].middle for shelf in bay.shelves]
        rows: list[int] = []
        for height in [*low, *shelves, carcass["top"].middle]:
            least = rows[-1] + 2 if rows else 0
            rows.append(max(least, round(height / scale.row)) if rows else 0)
        found.append(rows)
    high = max(rows[-1] for rows in found)
    return [[*rows[:-1], high] for rows in found]


def _bay_columns(case: CasePlan, scale: Scale) -> list[int]:
    """Return the columns of each bay: to scale, but a column a thing, as far as there is room."""
    wide = [
        max(1, round(bay.inside.width / scale.column), *(busiest(o.items) for o in bay.openings))
        for bay in case.bays
    ]
    room = scale.room - GUTTER - HEIGHTS - len(wide) - 1
    if sum(wide) > room:
        wide = [max(1, columns * room // sum(wide)) for columns in wide]
    return wide


def _bay_rows(
    bay: Bay, columns: int, levels: Sequence[int], keys: Mapping[str, str], scale: Scale, toe: str
) -> Rows:
    rows: Rows = [None]
    if toe:
        rows += [*(toe if i == 0 else "" for i in range(levels[1] - levels[0] - 1)), None]
        rows = [row if row is None else row[:columns].center(columns) for row in rows]
        levels = levels[1:]
    for opening, low, high in zip(bay.openings, levels[:-1], levels[1:], strict=True):
        rows += _opening_rows(opening, high - low - 1, columns, keys, scale)
        rows.append(None)
    return rows


def _opening_rows(
    opening: Opening, rows: int, columns: int, keys: Mapping[str, str], scale: Scale
) -> list[str]:
    """Rows of one opening from its floor up."""
    things = opening.items
    cells = blocks(things, Grid(rows, columns, scale.row, scale.column))
    order = sorted(range(len(things)), key=lambda i: (things[i].x, things[i].y, things[i].row))
    shade = {i: scale.signs.shades[at % 2] for at, i in enumerate(order)}
    corner = {
        i: min((c for c, o in cells.items() if o == i), key=lambda c: (-c[0], c[1]))
        for i in set(cells.values())
    }
    lines = []
    for row in range(rows):
        line = ""
        for column in range(columns):
            owner = cells.get((row, column))
            if owner is None:
                line += " "
            elif corner[owner] == (row, column):
                line += keys.get(things[owner].item, "?")
            else:
                line += shade[owner]
        lines.append(line)
    return lines


def _line(row: Sequence[str | None], wide: Sequence[int], signs: Signs, edge: int) -> str:
    """One row over all bays, with sides and uprights and how boards meet them."""
    corners = signs.corners[3 * edge : 3 * edge + 3]
    text = ""
    for at in range(len(row) + 1):
        before = at > 0 and row[at - 1] is None
        after = at < len(row) and row[at] is None
        if before and after:
            text += corners[1]
        elif after:
            text += corners[0] if at == 0 else signs.corners[3]
        elif before:
            text += corners[2] if at == len(row) else signs.corners[5]
        else:
            text += signs.up
        if at < len(row):
            cells = row[at]
            text += signs.across * wide[at] if cells is None else cells
    return text


def _label(lines: list[str], case: CasePlan, boards: Sequence[int], unit: Unit) -> None:
    """Put the openings' numbers left of the lines and their clear heights right of them."""
    openings = case.bays[0].openings
    middle = {
        (low + high) // 2: o for o, low, high in zip(openings, boards[:-1], boards[1:], strict=True)
    }
    for i, line in enumerate(lines):
        opening = middle.get(i)
        number = f"{opening.index:>{GUTTER - 1}} " if opening else " " * GUTTER
        show = opening and len(case.bays) == 1
        clear = f" {format_length(opening.height, unit)}" if opening and show else ""
        lines[i] = f"{number}{line}{clear}"
