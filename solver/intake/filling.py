"""Filling a raw job with the defaults of :mod:`solver.job.defaults`, before it is validated."""

from __future__ import annotations

from typing import Any

from solver.job.assumed import default_sheets, explicit_defaults
from solver.job.materials import SheetStock
from solver.units import TICKS_PER_MM, Unit, parse_length

THIN: int = 13 * TICKS_PER_MM
"""Sheets thinner than this are taken for backs where the job does not say [tick]."""


def filled(data: dict[str, Any], numbers: Unit | None) -> dict[str, Any]:
    """Return the raw job with every default of :mod:`solver.job.defaults` filled in.

    Keys are those of the job file. Nothing that the user wrote is changed.
    `numbers` is the unit of plain numbers, None where they are ticks.
    """
    data = dict(data)
    head = data.get("job")
    if not isinstance(head, dict) or head.get("unit") not in ("in", "mm"):
        return data
    unit: Unit = head["unit"]
    sheets = data.get("sheet") or _parsed(default_sheets(unit), unit)
    data["job"] = {**explicit_defaults("job", unit), **head}
    if isinstance(data.get("doorway"), list | tuple):
        data["doorway"] = [_with_defaults("doorway", one, unit) for one in data["doorway"]]
    for table in ("look", "shop"):
        if isinstance(data.get(table, {}), dict):
            data[table] = {**explicit_defaults(table, unit), **data.get(table, {})}
    for table in ("site", "finish", "price"):
        if isinstance(data.get(table), dict):
            data[table] = {**explicit_defaults(table, unit), **data[table]}
    if isinstance(data.get("case"), list | tuple) and isinstance(sheets, list | tuple):
        sheets = _with_back(list(sheets), data["case"], unit, numbers)
        data["case"] = [_filled_case(case, unit, numbers, sheets) for case in data["case"]]
    data["sheet"] = sheets
    return data


def _with_defaults(table: str, one: Any, unit: Unit) -> Any:
    return {**explicit_defaults(table, unit), **one} if isinstance(one, dict) else one


def _parsed(sheets: list[dict[str, Any]], unit: Unit) -> list[dict[str, Any]]:
    return [
        {
            key: f"{value} {unit}" if key in ("length", "width", "thickness") else value
            for key, value in sheet.items()
        }
        for sheet in sheets
    ]


def _thickness(sheet: Any, unit: Unit, numbers: Unit | None) -> int:
    """Thickness of a sheet as far as it can be read [tick]; 0 where it cannot."""
    if isinstance(sheet, SheetStock):
        return sheet.thickness
    value = sheet.get("thickness")
    if isinstance(value, dict):
        value = value.get("most")
    if isinstance(value, int) and numbers is None:
        return value
    try:
        return parse_length(str(value), unit if isinstance(value, str) else numbers or unit)
    except ValueError:
        return 0


def _material(sheet: Any) -> Any:
    return sheet.get("material") if isinstance(sheet, dict) else sheet.material


def _with_back(sheets: list[Any], cases: Any, unit: Unit, numbers: Unit | None) -> list[Any]:
    """Add the default back sheet where a case leaves its back open and no thin sheet is listed."""
    wanted = any(isinstance(case, dict) and "back" not in case for case in cases)
    if wanted and not any(0 < _thickness(sheet, unit, numbers) < THIN for sheet in sheets):
        return [*sheets, _parsed(default_sheets(unit), unit)[1]]
    return sheets


def _filled_case(case: Any, unit: Unit, numbers: Unit | None, sheets: list[Any]) -> Any:
    if not isinstance(case, dict):
        return case
    thick = [s for s in sheets if _thickness(s, unit, numbers) >= THIN] or sheets
    thin = [s for s in sheets if 0 < _thickness(s, unit, numbers) < THIN]
    chosen = {"material": _material(thick[0]), "back": _material(thin[0]) if thin else "none"}
    made = {**explicit_defaults("case", unit), **chosen, **case}
    for table in ("trim", "light"):
        if isinstance(case.get(table), dict):
            made[table] = {**explicit_defaults(f"case.{table}", unit), **case[table]}
    return made
