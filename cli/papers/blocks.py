"""What a paper is made of: plain data that the template sets, texts never read as markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from rich.table import Table

from cli.tables.style import Titled
from cli.tables.words import plain_name

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
    """

    key: str
    title: str
    use: str
    blocks: tuple[Block, ...]
    shop: bool = True


def heading(text: str) -> Block:
    """Return a heading that stays with what follows."""
    return {"kind": "heading", "text": plain_name(text)}


def line(text: str, *, strong: bool = False) -> Block:
    """Return a paragraph."""
    return {"kind": "line", "text": plain_name(text), "strong": strong}


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
    return [{"kind": kind, "texts": [plain_name(text) for text in texts]}] if texts else []


def facts(rows: Sequence[tuple[str, str]]) -> Block:
    """Return names with what they are; an empty text is a line to write on."""
    return {"kind": "facts", "rows": [[plain_name(a), plain_name(b)] for a, b in rows]}


def fields(names: Sequence[str]) -> Block:
    """Return lines to write on side by side, the name below each: `signed`, `date`."""
    return {"kind": "fields", "names": [plain_name(name) for name in names]}


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
        Columns that take the room there is; left out: all that are not ranged right.
    title
        Line above it that stays with it.
    rules
        "written": with lines between all cells, high enough to write in.
    """
    given = wide or [name for name in columns if name not in right]
    return {
        "kind": "table",
        "title": plain_name(title),
        "columns": [
            {"name": plain_name(name), "right": name in right, "wide": name in given}
            for name in columns
        ],
        "rows": [[plain_line(cell) for cell in row] for row in rows],
        "rules": rules,
    }


def plain_line(text: str) -> str:
    """Return a cell's text with its line breaks kept and nothing else that is not printed."""
    return "\n".join(plain_name(part) for part in text.split("\n"))


def of_screen(titled: Titled, *, keep: Sequence[str] | None = None) -> Block:
    """Return a table of the screen as it is; `keep` names the columns that are wanted."""
    return of_table(titled.table, title=titled.title, keep=keep)


def of_table(table: Table, *, title: str = "", keep: Sequence[str] | None = None) -> Block:
    """Return a screen table as a block; `keep` names the columns that are wanted."""
    columns = [one for one in table.columns if keep is None or str(one.header) in keep]
    cells = [[str(cell) for cell in column.cells] for column in columns]
    names = [str(column.header) for column in columns]
    return grid(
        names,
        list(zip(*cells, strict=True)),
        right=[str(column.header) for column in columns if column.justify == "right"],
        title=title,
    )
