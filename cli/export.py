"""A plan as CSV files or one workbook; names stay names and never become formulas."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cli.output import check_target, make_folder, write_bytes, write_text
from cli.tables.words import plain_name
from solver.plan import CutPlan, Plan

if TYPE_CHECKING:
    from pandas import DataFrame

SAWING = ("cuts", "settings", "offcuts")
"""Tables of the cuts in order."""
TABLES = ("positions", "placements", "parts", "sheets", *SAWING, "mouldings")
"""Names of the files and of the workbook's sheets; mouldings only where there are any."""
CUT_TABLES = ("sheets", *SAWING)
"""Those of a cut plan of sheets."""

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A cell that starts with one of these would be worked out by a spreadsheet."""


def frames(plan: Plan) -> dict[str, DataFrame]:
    """Return the tables of all options by name."""
    from solver import plan_frames, saw_frames

    makers: dict[str, Callable[[Plan], DataFrame]] = {
        name: getattr(saw_frames if name in SAWING else plan_frames, f"{name}_frame")
        for name in TABLES
    }
    if not any(option.mouldings for option in plan.options):
        del makers["mouldings"]
    return {name: make(plan) for name, make in makers.items()}


def cut_frames(plan: CutPlan) -> dict[str, DataFrame]:
    """Return the tables of a cut plan of sheets by name."""
    from solver import saw_frames

    return {
        "sheets": saw_frames.pieces_frame(plan),
        **{name: getattr(saw_frames, f"{name}_frame")(plan) for name in SAWING},
    }


def check_csv(folder: str, *, force: bool, tables: Sequence[str] = TABLES) -> None:
    """Raise InputError where the files could not be written; asked before long work starts."""
    place = Path(folder)
    if place.is_dir():
        for name in tables:
            check_target(str(place / f"{name}.csv"), force=force)
    else:
        check_target(folder, force=False)


def write_csv(plan: Plan | CutPlan, folder: str, *, force: bool) -> None:
    """Write each table as a CSV file in `folder`, which is made where it is missing.

    Cells that a spreadsheet would take for a formula get an apostrophe in front.
    """
    tables = cut_frames(plan) if isinstance(plan, CutPlan) else frames(plan)
    place = make_folder(folder)
    paths = {name: str(place / f"{name}.csv") for name in tables}
    for path in paths.values():
        check_target(path, force=force)
    for name, frame in tables.items():
        text = frame.map(guarded_cell).to_csv(index=False, lineterminator="\n")
        write_text(paths[name], text, force=force)


def guarded_cell(value: Any) -> Any:
    """Return a cell of a CSV file, a text never the start of a formula."""
    if isinstance(value, str) and value.startswith(FORMULA_STARTS):
        return f"'{value}"
    return value


def write_xlsx(plan: Plan, path: str, *, force: bool) -> None:
    """Write the tables as the sheets of one workbook, texts typed as texts."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    del book[book.sheetnames[0]]
    for name, frame in frames(plan).items():
        sheet = book.create_sheet(name)
        for column, heading in enumerate(frame.columns, start=1):
            sheet.cell(1, column, heading).font = Font(bold=True)
        for row, values in enumerate(frame.itertuples(index=False, name=None), start=2):
            for column, value in enumerate(values, start=1):
                _fill(sheet.cell(row, column), value)
        sheet.freeze_panes = "B2"
    data = io.BytesIO()
    book.save(data)
    write_bytes(path, data.getvalue(), force=force)


def _fill(cell: Any, value: Any) -> None:
    """Put a value in a cell; a text is a text even where it looks like a formula."""
    if isinstance(value, str):
        cell.value = plain_name(value)  # signs that steer a terminal are not allowed in XML either
        cell.data_type = "s"
    else:
        cell.value = value


def table_text(columns: Sequence[str], rows: Sequence[Sequence[Any]]) -> str:
    """Return a table as the text of a CSV file; empty for None, no text the start of a formula."""
    import csv

    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow(["" if cell is None else guarded_cell(cell) for cell in row])
    return out.getvalue()
