"""Small changes that save stock, or one line where there are none."""

from __future__ import annotations

from collections.abc import Sequence

from cli.tables.style import Titled, plain_table
from cli.tables.words import amount, count, plain_name
from solver.remarks import Advice
from solver.units import Unit, with_unit


def advice_table(advice: Sequence[Advice], unit: Unit, currency: str) -> Titled:
    """Return what may be changed and what each change saves."""
    table = plain_table("change", "saves")
    for change in advice:
        table.add_row(plain_name(change.text), saving(change, currency))
    room = with_unit(advice[0].slack, unit)
    return Titled(f"Advice (each confirmed by cutting, with room to spare: {room})", table)


def saving(change: Advice, currency: str) -> str:
    """Return what a change saves, in sheets or sticks and in money where prices are known."""
    texts = [count(change.sheets_saved, change.stock)] if change.sheets_saved > 0 else []
    if change.saves:
        texts.append(amount(change.saves, currency))
    return ", ".join(texts) or f"smaller {change.stock}s"


def advice_line(note: str | None) -> list[str]:
    """Return the line that stands where there is no advice."""
    return [f"Advice: {plain_name(note)}."] if note else []
