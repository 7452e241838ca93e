"""Sag of shelves under a plan: a line for each, the worst, and what would mend it."""

from __future__ import annotations

from cli.strength_text import ratio_text, sag_text
from cli.tables.style import Titled, plain_table
from cli.tables.words import plain_name
from solver.bearing import ShelfStrength
from solver.plan import Option
from solver.units import TICKS_PER_MM, Unit, format_mass

_HELD = {
    "industry": "the layout keeps to L/144, the industry's maximum",
    "display": "the layout keeps to the display limits",
    "none": "the layout keeps to no sag limit",
}
_OVER = {
    ("display-first",): "over display, first day",
    ("display-long",): "over display, years",
    ("display-first", "display-long"): "over display",
}


def sag_table(option: Option, unit: Unit) -> list[Titled]:
    """Every board that spans: sag of the first day and after years, against its limits."""
    strength = option.strength
    if strength is None or not strength.shelves:
        return []
    table = plain_table(
        "shelf", "load", "first day", "", "after years", "limits kept?", right=("load",)
    )
    for one in strength.shelves:
        table.add_row(
            name_of(one),
            format_mass(one.load, unit),
            _mm(one.sag_first, unit),
            ratio_text(one.ratio),
            _mm(one.sag_long, unit),
            _verdict(one),
        )
    return [Titled("Sag of the shelves as loaded (an estimate; assumptions below)", table)]


def _verdict(one: ShelfStrength) -> str:
    """Say which limits it is over; over display is over both of its limits."""
    if "industry" in one.over:
        return "OVER L/144, THE MOST"
    return _OVER.get(one.over, "yes")


def name_of(one: ShelfStrength) -> str:
    """Return the name of a board: `alcove, bay 1, shelf 3`."""
    board = f"shelf {one.index}" if one.index else "bottom"
    return f"{plain_name(one.case)}, bay {one.bay}, {board}"


def _mm(ticks: int, unit: Unit, *, down: bool = False) -> str:
    return sag_text(ticks / TICKS_PER_MM, unit, down=down)


def sag_lines(option: Option, unit: Unit) -> list[str]:
    """Say which board is the worst, what would mend it, and what the figures rest on."""
    strength = option.strength
    if strength is None or strength.worst is None:
        return []
    worst = strength.shelves[strength.worst]
    allowed = (
        f"display allows {_mm(worst.allowed_first, unit, down=True)} and "
        f"{_mm(worst.allowed_long, unit, down=True)}"
    )
    lines = [
        f"Sag, worst: {name_of(worst)}, {_mm(worst.sag_first, unit)} on the first day and "
        f"{_mm(worst.sag_long, unit)} after years ({allowed}); {_HELD[strength.held]}."
    ]
    if worst.mends:
        mends = "; or ".join(mend.text for mend in worst.mends)
        lines.append(f"To keep the display limits there: {mends}.")
    return [*lines, f"Sag rests on: {'; '.join(strength.assumed)}."]
