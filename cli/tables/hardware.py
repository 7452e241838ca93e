"""Hardware and consumables as tables and lines."""

from __future__ import annotations

from collections.abc import Sequence

from rich.table import Table

from cli.tables.style import Titled, plain_table
from cli.tables.trim import term
from cli.tables.words import count, measured, plain_name
from solver.hardware_list import BoughtAt, HardwareLine
from solver.pin_holes import PinHoles
from solver.units import Unit, format_length, with_unit

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
    what = term(plain_name(line.what), unit)
    return f"{what}, {plain_name(line.size)}" if line.size else what


def tables(lines: Sequence[HardwareLine], unit: Unit) -> list[Titled]:
    """Return a table for each place where things are bought."""
    return [
        Titled(title, _table(there, unit))
        for at, title in AT.items()
        if (there := [line for line in lines if line.at == at])
    ]


def _table(lines: Sequence[HardwareLine], unit: Unit) -> Table:
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
        shown = term(plain_name(use.what), unit)
        cases.setdefault(plain_name(use.case), []).append(shown if alone else f"{shown} {number}")
    return "; ".join(
        f"{case}: {', '.join(uses)}".removesuffix(": ") for case, uses in cases.items()
    )


def explained_lines(lines: Sequence[HardwareLine], unit: Unit) -> list[str]:
    """Give the arithmetic and the source of each line."""
    return [
        f"{named(line, unit)}: {term(line.how, unit)}. Source: {line.source}." for line in lines
    ]


def hole_lines(holes: Sequence[PinHoles], unit: Unit) -> list[str]:
    """Say where the pin holes of each bay are drilled, alike bays together."""
    said: dict[str, list[str]] = {}
    for one in holes:
        end = one.first + (one.count - 1) * one.pitch
        text = (
            f"{count(one.columns, 'column')} of {count(one.count, 'hole')} {one.diameter / 320:g} "
            f"mm, {one.total} in all: first {with_unit(one.first, unit)} from the bottom end, then "
            f"every {with_unit(one.pitch, unit)} to {with_unit(end, unit)}; "
            f"{format_length(one.front, unit)} and {with_unit(one.rear, unit)} from the front edge"
        )
        said.setdefault(text, []).append(f"{plain_name(one.case)}, bay {one.bay}")
    return [f"{' and '.join(bays)}: {text}" for text, bays in said.items()]
