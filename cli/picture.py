"""A front elevation in text, roughly to scale: pictures of the options and their key.

Pure: a plan in, lines out.
"""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import zip_longest

from cli.case_picture import GUTTER, HEIGHTS, LINES, PLAIN, Scale, case_picture
from cli.tables.words import plain_name, tag_words
from solver.plan import Option, Plan
from solver.units import Ticks, Unit

ROWS = 30
"""Rows that the highest case takes, where the width allows it."""
ROWS_LEAST = 24
"""Rows that it still takes where that lets more options stand beside each other."""
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
    keys = picture_keys(plan)
    scale = Scale(_row_height(options, width), width, PLAIN if plain else LINES)
    drawn = [option_picture(option, plan.unit, keys, scale) for option in options]
    lines: list[str] = []
    for group in _groups(drawn, width):
        lines += [*_beside(group), ""]
    return lines + key_lines(plan, keys, width)


def _row_height(options: Sequence[Option], width: int) -> Ticks:
    """Height of one row [tick]: the highest case in ROWS, if need be in a few less.

    As many pictures as are then still high enough stand beside each other.
    """
    high = max(case.above_floor + case.outside.height for o in options for case in o.cases)
    for beside in range(len(options), 1, -1):
        row = max(-(-high // ROWS), _row_for(options, (width + APART) // beside - APART))
        if row * ROWS_LEAST <= high:
            return row
    return max(1, -(-high // ROWS), _row_for(options, width))


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


def key_lines(plan: Plan, keys: Mapping[str, str], width: int) -> list[str]:
    """Return the key of the letters, in as many columns as fit."""
    counts = Counter({item.name: item.count for item in plan.job.items})
    entries = [
        f"{keys[name]} {plain_name(name)}{f' ({number})' if number > 1 else ''}"
        for name, number in counts.items()
        if keys[name] != OTHER
    ]
    others = sum(letter == OTHER for letter in keys.values())
    if others:
        entries.append(f"{OTHER} one of {others} other kinds, see the tables")
    wide = max(map(len, entries)) + APART
    columns = max(1, (width + APART) // wide)
    deep = -(-len(entries) // columns)
    rows = [entries[at::deep] for at in range(deep)]
    return ["".join(entry.ljust(wide) for entry in row).rstrip() for row in rows]
