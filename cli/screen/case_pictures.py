"""Front elevations of the options in text, roughly to scale, side by side, with their key.

Boards are lines, things are blocks with a letter in the corner.
"""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from cli.screen.text_blocks import Grid, blocks, busiest
from cli.screen.wording import plain_name, tag_words
from solver.carcass.front_boards import carcass_fronts, shelf_fronts
from solver.plan.built import Bay, CasePlan, Opening
from solver.plan.plan import Option, Plan
from solver.units import Ticks, Unit, format_length
from solver.words import word

ROWS = 30
"""Rows that the highest case takes, where the width allows it."""
ROWS_LEAST = 24
"""Of ROWS, rows that it still takes where that lets more options stand beside each other."""
APART = 2
"""Columns between two pictures."""
LETTERS = string.ascii_uppercase + string.ascii_lowercase + string.digits
OTHER = "*"
"""Stands for every kind after the last letter."""


def picture_keys(plan: Plan) -> dict[str, str]:
    """Return the letter of each kind of thing, the same in every picture of a plan."""
    names = [item.name for item in plan.job.items]
    return dict(zip_longest(names, LETTERS[: len(names)], fillvalue=OTHER))


def pictures(plan: Plan, width: int, *, plain: bool = False) -> list[str]:
    """Return pictures of all options that have a layout, side by side, and the key.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are [-].
    plain
        Draw with ASCII signs only.
    """
    options = [option for option in plan.options if option.cases]
    if not options:
        return []
    lines = pictures_in(plan, options, width, ROWS, plain=plain)
    return lines + key_lines(plan, picture_keys(plan), width)


def pictures_in(
    plan: Plan, options: Sequence[Option], width: int, rows: int, *, plain: bool
) -> list[str]:
    """Return pictures of these options side by side, the highest case in `rows` or a few less."""
    row = _row_height(options, width, rows)
    scale = Scale(row, width, PLAIN if plain else LINES)
    drawn = [option_picture(option, plan.unit, picture_keys(plan), scale) for option in options]
    lines: list[str] = []
    for group in _groups(drawn, width):
        lines += [*_beside(group), ""]
    return lines


def _row_height(options: Sequence[Option], width: int, rows: int) -> Ticks:
    """Height of one row [tick]: the highest case in `rows`, if need be in a few less.

    As many pictures as are then still high enough stand beside each other.
    """
    high = max(case.above_floor + case.outside.height for o in options for case in o.cases)
    for beside in range(len(options), 1, -1):
        row = max(-(-high // rows), _row_for(options, (width + APART) // beside - APART))
        if row * rows * ROWS_LEAST <= high * ROWS:
            return row
    return max(1, -(-high // rows), _row_for(options, width))


def _row_for(options: Sequence[Option], width: int) -> Ticks:
    """Least height of a row [tick] with which the widest option takes no more than `width`."""
    wide = max(sum(case.outside.width for case in option.cases) for option in options)
    beside = max(len(option.cases) for option in options)
    bays = max(len(case.bays) for option in options for case in option.cases)
    room = max(5, width - beside * (GUTTER + HEIGHTS + bays + APART) + APART)
    return 2 * -(-wide // room)


def option_picture(option: Option, unit: Unit, keys: Mapping[str, str], scale: Scale) -> list[str]:
    """Return one option's cases beside each other, as high above the floor as they hang."""
    lowest = min(case.above_floor for case in option.cases)
    each = Scale(scale.row, scale.room // len(option.cases) - APART, scale.signs)
    drawn = []
    for case in option.cases:
        lines = case_picture(case, unit, keys, each)
        if len(option.cases) > 1:
            lines.insert(0, " " * GUTTER + plain_name(case.name))
        drawn.append(lines + [""] * round((case.above_floor - lowest) / scale.row))
    titles = [plain_name(option.name), *([", ".join(tag_words(option))] if option.tags else [])]
    return [*(" " * GUTTER + title for title in titles), *_beside(drawn)]


def _beside(pictures: Sequence[Sequence[str]]) -> list[str]:
    """Put pictures beside each other, standing on the same line."""
    high = max(len(lines) for lines in pictures)
    wide = [max(map(len, lines)) + APART for lines in pictures]
    level = [[""] * (high - len(lines)) + list(lines) for lines in pictures]
    return [
        "".join(cell.ljust(columns) for cell, columns in zip(row, wide, strict=True)).rstrip()
        for row in zip(*level, strict=True)
    ]


def _groups(drawn: Sequence[list[str]], width: int) -> list[list[list[str]]]:
    """Share pictures out to rows of pictures that are no wider than the width."""
    groups: list[list[list[str]]] = []
    left = 0
    for lines in drawn:
        wide = max(map(len, lines)) + APART
        if not groups or wide - APART > left:
            groups.append([])
            left = width
        groups[-1].append(lines)
        left -= wide
    return groups


def key_entries(plan: Plan, keys: Mapping[str, str]) -> list[str]:
    """Return each letter with its kind of thing and how many there are."""
    counts = Counter({item.name: item.count for item in plan.job.items})
    entries = [
        f"{keys[name]} {plain_name(name)}{f' ({number})' if number > 1 else ''}"
        for name, number in counts.items()
        if keys[name] != OTHER
    ]
    others = sum(letter == OTHER for letter in keys.values())
    return [*entries, f"{OTHER} one of {others} other kinds, see the tables"] if others else entries


def key_lines(plan: Plan, keys: Mapping[str, str], width: int) -> list[str]:
    """Return the key of the letters, in as many columns as fit."""
    entries = key_entries(plan, keys)
    wide = max(map(len, entries)) + APART
    columns = max(1, (width + APART) // wide)
    deep = -(-len(entries) // columns)
    rows = [entries[at::deep] for at in range(deep)]
    return ["".join(entry.ljust(wide) for entry in row).rstrip() for row in rows]


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
    levels = []
    carcass = {front.kind: front for front in carcass_fronts(case)}
    low = [0] if "toe" in carcass else []
    low.append(carcass["bottom"].middle)
    for bay in case.bays:
        shelves = [shelf_fronts(bay, shelf)[0].middle for shelf in bay.shelves]
        rows: list[int] = []
        for height in [*low, *shelves, carcass["top"].middle]:
            least = rows[-1] + 2 if rows else 0
            rows.append(max(least, round(height / scale.row)) if rows else 0)
        levels.append(rows)
    high = max(rows[-1] for rows in levels)
    return [[*rows[:-1], high] for rows in levels]


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
