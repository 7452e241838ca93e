"""The blank survey: one page to print and fill in by hand, in the order of the work on site."""

from __future__ import annotations

from cli.tables.words import UNIT_NAMES
from solver.survey_old_door import DUTIES
from solver.units import Unit

WIDTH, LINES_MOST = 80, 60
"""Columns and lines that a sheet of A4 and of Letter both take at ten to the inch [-]."""


def form(unit: Unit) -> str:
    """Return the text of the form; `unit` is that of every length [-]."""
    lines = [
        f"SURVEY OF A DOORWAY OR ALCOVE   lengths in {UNIT_NAMES[unit]}; write every one down",
        _line("Client", "Place", "Date", "By"),
        "",
        _line("Widths    top", "middle", "bottom"),
        _line("Heights   left", "right", "centre"),
        _line("Diagonals bottom left to top right", "bottom right to top left"),
        _line("Jamb depth", "Stop, in from the jamb", "comes off?"),
        _line("Ceiling, lowest", "Wall by hinge", "by latch"),
        "",
        "Plumb: how far the top leans, over what length (level or bob)",
        _line("Hinge jamb  into / away from opening", "to room / back", "over"),
        _line("Latch jamb  into / away from opening", "to room / back", "over"),
        "",
        _line("Hinge side  left / right, seen from the room", "swings  out / in"),
        _line("Old mortises, head down to top of each  1", "2", "3"),
        _line("Leaf height", "width", "corner radius", "backset"),
        "",
        _line("Floor covering here", "in the swing"),
        _line("Pile and pad", "highest point in the whole swing"),
        "",
        "Casing and trim        width     thickness     reveal or cover",
        _line("  hinge side, room", "", ""),
        _line("  latch side, room", "", ""),
        _line("  behind", "", ""),
        "",
        "In the swing: heater, light, switch, rug, door, furniture",
        "  what            from hinge jamb   out from wall   width   depth   bottom   top",
        *("  " + "_" * (WIDTH - 2) for _ in range(3)),
        _line("Room in front, to what is opposite", "room behind"),
        _line("What is behind it"),
        _line("Year of the house", "Old paint tested?"),
        "",
        "The old door                                                  yes / no / unknown",
        *(f"  {duty.question} ".ljust(WIDTH - 10, ".") + "_" * 10 for duty in DUTIES),
        _line("  Way out or fire door: cleared by"),
        "",
        "Way in: doors, lifts, stairs    clear width   height   before a turn   after it",
        *("  " + "_" * (WIDTH - 2) for _ in range(2)),
        _line("Photos: front, hinge jamb, latch jamb, floor, behind", "Notes"),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _line(*labels: str) -> str:
    """Labels with blanks behind them that fill the width evenly."""
    blank = max(6, (WIDTH - sum(len(label) + 3 for label in labels) + 2) // len(labels))
    return "  ".join(f"{label} {'_' * blank}" for label in labels)[:WIDTH]
