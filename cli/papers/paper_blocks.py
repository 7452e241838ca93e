"""What a paper is made of: plain data that the template sets, texts never read as markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from rich.table import Table

from cli.drawings.fonts import printable
from cli.screen.console import Titled

Block = dict[str, Any]


@dataclass(frozen=True)
class Paper:
    """One paper, ready to be set.

    Attributes
    ----------
    key
        Its name in file names.
    title
        Its name in the contents and at the head of its pages.
    use
        Who uses it for what, in a line of the contents.
    blocks
        What is on it, in order.
    shop
        Whether it is read at the bench, so that its letters are larger.
    pictures
        Its drawings as SVG, by name.
    """

    key: str
    title: str
    use: str
    blocks: tuple[Block, ...]
    shop: bool = True
    pictures: tuple[tuple[str, bytes], ...] = ()


def heading(text: str) -> Block:
    """Return a heading that stays with what follows."""
    return {"kind": "heading", "text": printable(text)}


def line(text: str, *, strong: bool = False) -> Block:
    """Return a paragraph."""
    return {"kind": "line", "text": printable(text), "strong": strong}


def points(texts: Sequence[str]) -> list[Block]:
    """Return lines with a dash each; nothing where there are none."""
    return _list("points", texts)


def steps(texts: Sequence[str]) -> list[Block]:
    """Return numbered lines, each with a box to tick."""
    return _list("steps", texts)


def checks(texts: Sequence[str]) -> list[Block]:
    """Return lines with a box to tick each."""
    return _list("checks", texts)


def _list(kind: str, texts: Sequence[str]) -> list[Block]:
    return [{"kind": kind, "texts": [printable(text) for text in texts]}] if texts else []


def facts(rows: Sequence[tuple[str, str]]) -> Block:
    """Return names with what they are; an empty text is a line to write on."""
    return {"kind": "facts", "rows": [[printable(a), printable(b)] for a, b in rows]}


def fields(names: Sequence[str]) -> Block:
    """Return lines to write on side by side, the name below each: `signed`, `date`."""
    return {"kind": "fields", "names": [printable(name) for name in names]}


def boxed(*blocks: Block) -> Block:
    """Return blocks with a frame around them, never broken over pages."""
    return {"kind": "boxed", "blocks": list(blocks)}


def together(*blocks: Block) -> Block:
    """Return blocks that are never broken over pages."""
    return {"kind": "together", "blocks": list(blocks)}


def new_page() -> Block:
    """Return the end of a page."""
    return {"kind": "page"}


def grid(
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Sequence[str] = (),
    wide: Sequence[str] = (),
    title: str = "",
    rules: Literal["plain", "written"] = "plain",
) -> Block:
    """Return a table; an empty list of rows is no table and must not be asked for.

    Parameters
    ----------
    columns, rows
        Headings, and the cells of each row.
    right
        Columns ranged right and never broken: figures.
    wide
        Columns that take the room there is, beside those with long texts.
    title
        Line above it that stays with it.
    rules
        "written": with lines between all cells, high enough to write in.
    """
    given = {*wide, *(name for name, *cells in zip(columns, *rows, strict=True) if _long(cells))}
    return {
        "kind": "table",
        "title": printable(title),
        "columns": [
            {"name": printable(name), "right": name in right, "wide": name in given}
            for name in columns
        ],
        "rows": [[cell_text(cell) for cell in row] for row in rows],
        "rules": rules,
    }


LONG = 26
"""A column whose longest line has more letters gives way [-]."""


def _long(cells: Sequence[str]) -> bool:
    return max(len(part) for cell in cells for part in cell.split("\n")) > LONG


def cell_text(text: str) -> str:
    """Return a cell's text as the fonts can letter it, its line breaks kept."""
    return "\n".join(printable(part) for part in text.split("\n"))


BOX = "☐"
"""What is ticked when it is done."""


def of_screen(titled: Titled, *, keep: Sequence[str] | None = None, ticked: str = "") -> Block:
    """Return a table of the screen with its title; see :func:`of_table`."""
    return of_table(titled.table, title=titled.title, keep=keep, ticked=ticked)


def of_table(
    table: Table, *, title: str = "", keep: Sequence[str] | None = None, ticked: str = ""
) -> Block:
    """Return a table of the screen as a block.

    `keep` names the columns that are wanted, left out all; `ticked` is the heading of a further
    column of boxes.
    """
    columns = [one for one in table.columns if keep is None or str(one.header) in keep]
    cells = [[str(cell) for cell in column.cells] for column in columns]
    names = [str(column.header) for column in columns]
    if ticked:
        names.append(ticked)
        cells.append([BOX] * table.row_count)
    return grid(
        names,
        list(zip(*cells, strict=True)),
        right=[str(column.header) for column in columns if column.justify == "right"],
        title=title,
    )
