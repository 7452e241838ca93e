"""The buy list, errand by errand."""

from __future__ import annotations

from collections.abc import Iterable

from rich.table import Table

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, amount, listed, plain_name
from solver.bought import BuyLine, BuyList, Place
from solver.job import Job

_PLACES: dict[Place, tuple[str, str]] = {
    "sheets": ("Lumber yard: sheets", "Timber merchant: sheets"),
    "mouldings": (
        "Lumber yard: mouldings by the stick",
        "Timber merchant: mouldings by the length",
    ),
    "trim": ("Lumber yard: blocks and other trim", "Timber merchant: blocks and other trim"),
    "hardware": ("Cabinet hardware", "Cabinet ironmonger"),
    "fixings": ("Hardware store: screws, brads, fixings", "Ironmonger: screws, pins, fixings"),
    "glue": ("Hardware store: glue and filler", "Ironmonger: glue and filler"),
    "paint": ("Paint store", "Paint merchant"),
}
"""Where things are bought, in American and in British words."""
NO_PRICE = "no price"
AMERICAN = ("US", "CA")


def place_name(place: Place, job: Job) -> str:
    """Return where something is bought, as the job's country calls it, else its unit."""
    country = job.ground.country
    american = country in AMERICAN if country is not None else job.unit == "in"
    return _PLACES[place][0 if american else 1]


def buy_tables(bought: BuyList, job: Job) -> list[Titled]:
    """Return a table for each errand, in the order of the errands."""
    return [
        Titled(place_name(place, job), _table(lines, bought.currency))
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
        said += [f"{plain_name(one)}?" for one in bought.near]
    if bought.note:
        said.append(f"Price list: {plain_name(bought.note)}.")
    return said
