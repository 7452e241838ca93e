"""What to buy, errand by errand; hardware and consumables with their arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.table import Table

from cli.screen.console import Titled, plain_table
from cli.screen.trim_tables import trade_term
from cli.screen.wording import NONE, amount, count, measured, percent, plain_name
from solver.carcass.pin_holes import PinHoles
from solver.costing.buy_list import USUAL
from solver.job.job import Job
from solver.plan.bought import BoughtAt, BuyLine, BuyList, HardwareLine, Place
from solver.units import Unit, format_length, with_unit

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
            plain_name(line.named) + _pack(line, unit) + _on_hand(line, unit),
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


def _on_hand(line: BuyLine, unit: Unit) -> str:
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
    lines = [f"Together {amount(bought.total, bought.currency)}."]
    if bought.missing:
        lines = [f"Together {amount(bought.total, bought.currency)} so far: incomplete."]
        lines.append(f"No price: {'; '.join(map(plain_name, bought.missing))}.")
        lines += [f"{plain_name(one)}?" for one in bought.near]
    if bought.note:
        lines.append(f"Price list: {plain_name(bought.note.rstrip('.'))}.")
    return lines


AT: dict[BoughtAt, str] = {
    "hardware": "Cabinet hardware",
    "fixings": "Screws and nails",
    "trim": "Trim",
    "glue": "Glue and filler",
    "paint": "Finish and abrasives",
}
"""Headings, in the order of the tables."""


def amount_text(line: HardwareLine, amount: int, unit: Unit) -> str:
    """Write so much of what a line counts, liquids in fluid ounces or millilitres."""
    return measured(line.counted, amount, unit)


def named(line: HardwareLine, unit: Unit) -> str:
    """Return what a line is, with its size."""
    what = trade_term(plain_name(line.what), unit)
    return f"{what}, {plain_name(line.size)}" if line.size else what


def tables(lines: Sequence[HardwareLine], unit: Unit) -> list[Titled]:
    """Return a table for each place where things are bought."""
    return [
        Titled(title, _hardware_table(there, unit))
        for at, title in AT.items()
        if (there := [line for line in lines if line.at == at])
    ]


def _hardware_table(lines: Sequence[HardwareLine], unit: Unit) -> Table:
    table = plain_table(
        "buy", "what", "needs", "spare", "pack", "for", right=("buy", "needs", "spare", "pack")
    )
    for line in lines:
        table.add_row(
            str(line.packs),
            named(line, unit),
            amount_text(line, line.need, unit),
            amount_text(line, line.spare, unit) if line.spare else "",
            amount_text(line, line.pack, unit) if line.pack > 1 else "",
            _uses(line, unit),
        )
    return table


def _uses(line: HardwareLine, unit: Unit) -> str:
    """Say what it is for, case by case: `alcove: top ends 6, shelf ends 30`."""
    alone = len(line.uses) == 1 or line.counted == "ml"
    cases: dict[str, list[str]] = {}
    for use, number in line.uses:
        shown = trade_term(plain_name(use.what), unit)
        cases.setdefault(plain_name(use.case), []).append(shown if alone else f"{shown} {number}")
    return "; ".join(
        f"{case}: {', '.join(uses)}".removesuffix(": ") for case, uses in cases.items()
    )


def explained_lines(lines: Sequence[HardwareLine], unit: Unit) -> list[str]:
    """Give the arithmetic and the source of each line."""
    return [
        f"{named(line, unit)}: {trade_term(line.how, unit)}. Source: {line.source}."
        for line in lines
    ]


def hole_lines(holes: Sequence[PinHoles], unit: Unit) -> list[str]:
    """Say where the pin holes of each bay are drilled, alike bays together."""
    places_of: dict[str, list[str]] = {}
    for one in holes:
        end = one.first + (one.count - 1) * one.pitch
        text = (
            f"{count(one.columns, 'column')} of {count(one.count, 'hole')} {one.diameter / 320:g} "
            f"mm, {one.total} in all: first {with_unit(one.first, unit)} from the bottom end, then "
            f"every {with_unit(one.pitch, unit)} to {with_unit(end, unit)}; "
            f"{format_length(one.front, unit)} and {with_unit(one.rear, unit)} from the front edge"
        )
        places_of.setdefault(text, []).append(f"{plain_name(one.case)}, bay {one.bay}")
    return [f"{' and '.join(bays)}: {text}" for text, bays in places_of.items()]
