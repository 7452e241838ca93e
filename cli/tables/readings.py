"""How each line of a list was read."""

from __future__ import annotations

from collections.abc import Sequence

from rich.table import Table

from cli.tables.style import plain_table
from cli.tables.words import NONE, count, mass_text, plain_name, triple
from solver.inventory import Item
from solver.listing.model import LineReading, Listing
from solver.units import Unit

_TEXT_MOST = 60
"""The units in full, since `in in` is hard to read."""


def readings_table(listing: Listing, unit: Unit) -> Table:
    """Return a row for each line of a list that is not blank; the summary counts those."""
    heads = ("line", "thing", "count", "W x H x D", "weight of one", "how it was read")
    table = plain_table(*heads, right=("line", "count"))
    for line in listing.lines:
        if line.item is not None:
            table.add_row(str(line.number), *_cells(line.item, unit), _notes(line))
        elif line.problems:
            table.add_row(str(line.number), _text(line), "", "", "", "; ".join(line.problems))
        elif line.skipped != "blank":
            table.add_row(str(line.number), _text(line), "", "", "", _notes(line))
    return table


def items_table(items: Sequence[Item], unit: Unit) -> Table:
    """Return a row for each kind of thing of a job."""
    heads = ("thing", "count", "W x H x D", "weight of one", "wishes")
    table = plain_table(*heads, right=("count",))
    for item in items:
        table.add_row(*_cells(item, unit), ", ".join(wishes(item)))
    return table


def summary(listing: Listing) -> str:
    """Say how many things there are, and how many lines hold none."""
    things = sum(item.count for item in listing.items)
    skipped = [line for line in listing.lines if line.skipped is not None and not line.problems]
    reasons = sorted({line.skipped for line in skipped if line.skipped})
    text = (
        f"{count(things, 'thing')} of {count(len(listing.items), 'kind')} "
        f"on {count(len(listing.lines), 'line')}"
    )
    if skipped:
        text += f"; {count(len(skipped), 'line')} without a thing ({', '.join(reasons)})"
    return text


def wishes(item: Item) -> list[str]:
    """Return how and where a thing is to stand, where the job says so."""
    return [
        text
        for text, said in (
            ("sizes guessed", item.guessed),
            ("may lie", item.may_lie),
            (f"stack {item.stack}", item.stack > 1),
            (f"{item.rows} rows deep", item.rows > 1),
            (f"group {plain_name(item.group or '')}", item.group is not None),
            (f"where {item.where}", item.where is not None),
            ("own gap", item.gap is not None),
            (f"picture {plain_name(item.picture or '')}", item.picture is not None),
        )
        if said
    ]


def _cells(item: Item, unit: Unit) -> tuple[str, str, str, str]:
    weight = NONE if item.weight is None else mass_text(item.weight, unit)
    sizes = triple((item.width, item.height, item.depth), unit)
    return plain_name(item.name), str(item.count), sizes, weight


def _notes(line: LineReading) -> str:
    told = wishes(line.item) if line.item else [f"skipped: {line.skipped}"]
    return plain_name("; ".join([*told, *line.notes]))


def _text(line: LineReading) -> str:
    shown = line.text if len(line.text) <= _TEXT_MOST else line.text[:_TEXT_MOST] + "…"
    return plain_name(shown)
