"""Every default with its value, meaning and source."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from cli.screen.console import plain_table
from solver.job.assumed import default_sheets
from solver.job.defaults import (
    CP,
    DEFAULTS,
    SHELF_LOAD_MOST_POUNDS,
    SHELF_LOAD_POUNDS_PER_SQUARE_FOOT,
    Default,
)
from solver.job.labour_table import TASKS, Task
from solver.units import GRAMS_PER_POUND, Unit

_SQUARE_METRES = 0.3048**2
LOAD_SOURCE = "Architectural Woodwork Standards 1st ed. (2009), section 10, 1.2.21.2"
SHEET_SOURCE = "sheet sizes: common practice; thickness: woodworking.about.com Plywood Sizing"
_MANY = ("case", "sheet")


def default_rows(unit: Unit) -> list[dict[str, Any]]:
    """Return every default of a job in `unit` as table, key, value, meaning, source."""
    rows = [_row(default, unit) for default in DEFAULTS]
    load = {
        "table": "look",
        "key": "shelf_load",
        "value": _load(unit),
        "meaning": "most load on one shelf, a limit on what is stood there",
        "source": LOAD_SOURCE,
    }
    last_of_look = max(at for at, row in enumerate(rows) if row["table"] == "look")
    rows.insert(last_of_look + 1, load)
    rows += [_task_row(task) for task in TASKS.values()]
    return rows + [_sheet_row(sheet, unit) for sheet in default_sheets(unit)]


def _row(default: Default, unit: Unit) -> dict[str, Any]:
    return {
        "table": default.table,
        "key": default.key,
        "value": default.value(unit),
        "meaning": default.meaning,
        "source": default.source,
    }


def _task_row(task: Task) -> dict[str, Any]:
    return {
        "table": "price.labour",
        "key": task.key,
        "value": f"{task.minutes:f} min",
        "meaning": f"work for one {task.per}",
        "source": task.source,
    }


def _load(unit: Unit) -> str:
    if unit == "in":
        return f"{SHELF_LOAD_POUNDS_PER_SQUARE_FOOT} lb/ft2, at most {SHELF_LOAD_MOST_POUNDS} lb"
    kilograms = float(GRAMS_PER_POUND) / 1000
    each = SHELF_LOAD_POUNDS_PER_SQUARE_FOOT * kilograms / _SQUARE_METRES
    return f"{each:.0f} kg/m2, at most {SHELF_LOAD_MOST_POUNDS * kilograms:.1f} kg"


def _sheet_row(sheet: dict[str, Any], unit: Unit) -> dict[str, Any]:
    size = " x ".join(str(sheet[side]) for side in ("length", "width", "thickness"))
    return {
        "table": "sheet",
        "key": sheet["name"],
        "value": f"{size} {unit}, no price",
        "meaning": "taken where no sheet is listed: length, width, thickness",
        "source": SHEET_SOURCE,
    }


def defaults_table(unit: Unit) -> Table:
    """Return the defaults as a table; a header row stands before each table of the job file."""
    table = plain_table("key", "default", "meaning", "source")
    before = None
    for row in default_rows(unit):
        if row["table"] != before:
            before = row["table"]
            name = f"[[{before}]]" if before in _MANY else f"[{before}]"
            table.add_row(name, "", "", "")
        table.add_row(row["key"], default_text(row["value"]), row["meaning"], _short(row["source"]))
    return table


def _short(source: str) -> str:
    """Common practice needs no second remark that it has no source: the line below says so."""
    return source.replace(CP, "common practice")


def default_text(value: Any) -> str:
    """A default as it would be written in the job file, without the quotes."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict) and "share" in value:
        return f"{value['share']} % {value['when']}"
    if isinstance(value, dict):
        return f"{value['least']} to {value['most']}"
    if isinstance(value, tuple):
        return ", ".join(map(default_text, value))
    return str(value)
