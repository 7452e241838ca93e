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

    Columns named in `right` are ranged right; `widths` are least widths of the first
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
            min_width=widths[at] if at < len(widths) else None,
        )
    return table


def column_widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """Return the longest cell of each column [-]; empty where there are no rows."""
    return [max(map(len, column)) for column in zip(*rows, strict=True)]
