"""A list of things as it was read, written back as a clean table that reads the same again."""

from __future__ import annotations

from cli.files.export import table_text
from cli.files.output import write_answer, write_text
from solver.job.inventory import Item
from solver.listing.line_readings import Listing
from solver.units import TICKS_PER_MM, Unit

COLUMNS = (
    *("name", "width", "height", "depth", "count", "weight", "group", "heading", "keep", "hero"),
    *("fragile", "together", "order", "where", "may_lie", "rows", "stack", "gap", "guessed"),
)
"""Columns of the table, by the names of the job file's keys."""
_LENGTHS = ("width", "height", "depth", "gap")


def write_clean_csv(listing: Listing, path: str, *, force: bool) -> None:
    """Write the things as a CSV file; lengths with their unit, exact."""
    rows = [[_cell(item, column) for column in COLUMNS] for item in listing.items]
    write_text(path, table_text(COLUMNS, rows), force=force)


def write_clean_json(listing: Listing, path: str, unit: Unit, *, force: bool) -> None:
    """Write the things, and each line with what it was read as, questions included."""
    items = [{column: _cell(item, column) for column in COLUMNS} for item in listing.items]
    lines = [
        {
            "line": line.number,
            "text": line.text,
            "notes": line.notes,
            "problems": line.problems,
            "skipped": line.skipped,
            "doubts": [
                {"question": doubt.question, "answers": [one.label for one in doubt.choices]}
                for doubt in line.doubts
            ],
        }
        for line in listing.lines
    ]
    write_answer(path, "list", unit, {"items": items, "lines": lines}, force=force)


def _cell(item: Item, column: str) -> str | None:
    """A cell: lengths in millimetres and weights in grams, so that nothing is rounded."""
    value = getattr(item, column)
    if value is None or value is False or value == "":
        return None
    if value is True:
        return "yes"
    if column in _LENGTHS:
        return f"{value / TICKS_PER_MM:.6f}".rstrip("0").rstrip(".") + " mm"
    return f"{value} g" if column == "weight" else str(value)
