"""The buy list, errand by errand."""

from __future__ import annotations

from collections.abc import Iterable

from rich.table import Table

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, amount, listed, plain_name
from solver.bought import BuyLine, BuyList, Place
from solver.units import Unit

_PLACES: dict[Place, tuple[str, str]] = {
    "sheets": ("Sheet yard", "Timber merchant, sheets"),
    "mouldings": ("Lumber yard, mouldings", "Timber merchant, mouldings"),
    "trim": ("Lumber yard, trim", "Timber merchant, trim"),
    "hardware": ("Cabinet hardware", "Ironmonger"),
    "fixings": ("Hardware store, screws and nails", "Ironmonger, screws and pins"),
    "glue": ("Hardware store, glue and filler", "Ironmonger, glue and filler"),
    "paint": ("Paint store", "Paint merchant"),
}
"""Where things are bought, in an inch job and in a metric one."""
NO_PRICE = "no price"


def place_name(place: Place, unit: Unit) -> str:
    """Return where something is bought, as the country of the unit calls it."""
    return _PLACES[place][0 if unit == "in" else 1]


def buy_tables(bought: BuyList, unit: Unit) -> list[Titled]:
    """Return a table for each errand, in the order of the errands."""
    return [
        Titled(place_name(place, unit), _table(lines, bought.currency))
        for place in _PLACES
        if (lines := bought.at(place))
    ]


def _table(lines: Iterable[BuyLine], currency: str) -> Table:
    table = plain_table("buy", "what", "for", "each", "amount", right=("buy", "each", "amount"))
    for line in lines:
        table.add_row(
            str(line.packs),
            plain_name(line.named) + _pack(line) + _there(line),
            plain_name("; ".join(line.why)),
            NONE if line.each is None else amount(line.each, currency),
            NO_PRICE if line.amount is None else amount(line.amount, currency),
        )
    return table


def _pack(line: BuyLine) -> str:
    """Say what a pack holds and what is needed of it, where it holds more than one."""
    if line.pack == 1:
        return f" ({line.spare} spare)" if line.spare else ""
    unit = "" if line.counted in ("each", "sheet", "stick") else f" {line.counted}"
    spare = f", {line.spare} of them spare" if line.spare else ""
    return f" (pack of {line.pack}{unit}; {line.need}{unit} needed{spare})"


def _there(line: BuyLine) -> str:
    return f"; {line.on_hand} on hand" if line.on_hand else ""


def buy_lines(bought: BuyList) -> list[str]:
    """Say what the whole comes to, and what has no price."""
    said = [f"Together {amount(bought.total, bought.currency)}."]
    if bought.missing:
        said = [f"Together {amount(bought.total, bought.currency)} so far: incomplete."]
        said.append(f"No price: {listed([plain_name(one) for one in bought.missing])}.")
    if bought.note:
        said.append(f"Price list: {plain_name(bought.note)}.")
    return said
