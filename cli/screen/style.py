"""One plain look for every table: a rule under the heading, nothing cut off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich import box
from rich.table import Table


@dataclass(frozen=True)
class Titled:
    """A table and the line above it, which may be longer than the table is wide."""

    title: str
    table: Table


def plain_table(*columns: str, right: Sequence[str] = (), widths: Sequence[int] = ()) -> Table:
    """Return an empty table in the common style; long cells are folded, never cut off.

    Columns named in `right` are ranged right and never folded; `widths` are those of the
    columns [-], so that tables below each other line up.
    """
    table = Table(
        box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1), header_style="bold"
    )
    for at, name in enumerate(columns):
        table.add_column(
            name,
            overflow="fold",
            justify="right" if name in right else "left",
            no_wrap=name in right,
            width=widths[at] if widths else None,
        )
    return table


def lined_up(rows: Sequence[Sequence[str]], width: int, folded: int) -> list[int]:
    """Return widths that let tables of these rows stand below each other, lined up [-].

    Every column is as wide as its longest cell, but the one numbered `folded` gives way
    where the whole would be wider than `width`. No widths at all where even that is
    not enough: then every column folds as it must.
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    over = sum(widths) + 3 * (len(widths) - 1) - width
    if over > 0:
        widths[folded] -= over
    return widths if widths[folded] >= FOLDED_LEAST else []


FOLDED_LEAST = 12
"""Least width of a column that gives way [-]."""
