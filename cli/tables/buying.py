"""The buy list, errand by errand."""

from __future__ import annotations

from collections.abc import Iterable

from rich.table import Table

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, amount, count, measured, percent, plain_name
from solver.bought import BuyLine, BuyList, Place
from solver.buying.buy_list import USUAL
from solver.job import Job
from solver.units import Unit

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
        Titled(place_name(place, job), _table(lines, bought.currency, job.unit))
        for place in _PLACES
        if (lines := bought.at(place))
    ]


def _table(lines: Iterable[BuyLine], currency: str, unit: Unit) -> Table:
    table = plain_table("buy", "what", "for", "each", "amount", right=("buy", "each", "amount"))
    for line in lines:
        table.add_row(
            str(line.packs),
            plain_name(line.named) + _pack(line, unit) + _there(line, unit),
            plain_name("; ".join(line.why)),
            NONE if line.each is None else amount(line.each, currency),
            NO_PRICE if line.amount is None else amount(line.amount, currency),
        )
    return table


def _pack(line: BuyLine, unit: Unit) -> str:
    """Say what a pack holds and what is needed of it, where it holds more than one."""
    if line.pack == 1:
        return f" ({line.spare} spare)" if line.spare else ""
    spare = f", {line.spare} of them spare" if line.spare else ""
    pack, need = _counted(line, line.pack, unit), _counted(line, line.need, unit)
    return f" (pack of {pack}; {need} needed{spare})"


def _counted(line: BuyLine, amount: int, unit: Unit) -> str:
    pairs = f" {'pairs' if amount > 1 else 'pair'}" if line.counted == "pair" else ""
    return measured(line.counted, amount, unit) + pairs


def _there(line: BuyLine, unit: Unit) -> str:
    return f"; {_counted(line, line.on_hand, unit)} on hand" if line.on_hand else ""


def use_lines(bought: BuyList) -> list[str]:
    """Say how well the sheets are used, beside what the shops' average would have bought."""
    return [
        f"{plain_name(one.material)}: {count(one.sheets, 'sheet')}, {percent(float(one.waste))} "
        f"waste; by area alone, at the shops' average of {percent(float(USUAL))}, "
        f"{one.by_area} {'sheet' if one.by_area == 1 else 'sheets'}."
        for one in bought.uses
    ]


def buy_lines(bought: BuyList) -> list[str]:
    """Say what the whole comes to, and what has no price."""
    said = [f"Together {amount(bought.total, bought.currency)}."]
    if bought.missing:
        said = [f"Together {amount(bought.total, bought.currency)} so far: incomplete."]
        said.append(f"No price: {'; '.join(map(plain_name, bought.missing))}.")
        said += [f"{plain_name(one)}?" for one in bought.near]
    if bought.note:
        said.append(f"Price list: {plain_name(bought.note.rstrip('.'))}.")
    return said
