"""A plan as CSV files or one workbook; names stay names and never become formulas."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cli.files.output import check_target, make_folder, write_bytes, write_text
from cli.files.workbooks import workbook
from cli.screen.wording import tag_words
from solver.job.price_terms import PriceList
from solver.plan import plan_frames, saw_frames
from solver.plan.plan import CutPlan, Plan, Scores
from solver.plan.price_front import FrontPoint, TradeOff
from solver.units import format_length
from solver.work import work_frames

if TYPE_CHECKING:
    from pandas import DataFrame


SAWING = ("cuts", "settings", "offcuts")
"""Tables of the cuts in order."""
WHERE_ANY = ("hinges", "trim", "mouldings")
"""Tables that are left out where they would be empty."""
TABLES = (
    *("positions", "placements", "parts", "sheets", *SAWING),
    *("shelves", "buying", "labour", "price", "steps", *WHERE_ANY),
)
"""Names of the files and of the workbook's sheets."""
CUT_TABLES = ("sheets", *SAWING)
"""Those of a cut plan of sheets."""

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A cell that starts with one of these would be worked out by a spreadsheet."""


def frames(plan: Plan, prices: PriceList | None = None) -> dict[str, DataFrame]:
    """Return the tables of all options by name; `prices` are a shop's, beside those of the job."""
    made = {
        "positions": plan_frames.positions_frame(plan),
        "placements": plan_frames.placements_frame(plan),
        "parts": plan_frames.parts_frame(plan),
        "sheets": plan_frames.sheets_frame(plan),
        **_sawing(plan),
        "shelves": work_frames.shelves_frame(plan),
        "buying": work_frames.buying_frame(plan, prices),
        "labour": work_frames.labour_frame(plan, prices),
        "price": work_frames.price_frame(plan, prices),
        "steps": work_frames.steps_frame(plan),
        "hinges": work_frames.hinges_frame(plan),
        "trim": work_frames.trim_frame(plan),
        "mouldings": plan_frames.mouldings_frame(plan),
    }
    return {name: frame for name, frame in made.items() if name not in WHERE_ANY or len(frame)}


def _sawing(plan: Plan | CutPlan) -> dict[str, DataFrame]:
    """Return the tables of the cuts in order."""
    return {
        "cuts": saw_frames.cuts_frame(plan),
        "settings": saw_frames.settings_frame(plan),
        "offcuts": saw_frames.offcuts_frame(plan),
    }


def cut_frames(plan: CutPlan) -> dict[str, DataFrame]:
    """Return the tables of a cut plan of sheets by name."""
    return {"sheets": saw_frames.pieces_frame(plan), **_sawing(plan)}


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
        write_text(paths[name], csv_text(frame), force=force)


def csv_text(frame: DataFrame) -> str:
    """Return a table as the text of a CSV file, no cell the start of a formula."""
    text: str = frame.map(guarded_cell).to_csv(index=False, lineterminator="\n")
    return text


def guarded_cell(value: Any) -> Any:
    """Return a cell of a CSV file, a text never the start of a formula."""
    if isinstance(value, str) and value.startswith(FORMULA_STARTS):
        return f"'{value}"
    return value


def write_xlsx(plan: Plan, path: str, *, force: bool) -> None:
    """Write the tables as the sheets of one workbook; see :mod:`cli.files.workbooks`."""
    write_bytes(path, workbook(frames(plan), plan.unit), force=force)


def table_text(columns: Sequence[str], rows: Sequence[Sequence[Any]]) -> str:
    """Return a table as the text of a CSV file; empty for None, no text the start of a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow(["" if cell is None else guarded_cell(cell) for cell in row])
    return out.getvalue()


def front_frame(front: TradeOff) -> DataFrame:
    """Return the front as a table; lengths in millimetres under `_mm`, marks as printed."""
    import pandas as pd

    return pd.DataFrame([_front_row(front, point) for point in front.points])


def write_front_csv(front: TradeOff, path: str, *, force: bool) -> None:
    """Write the table; cells that a spreadsheet would take for a formula get an apostrophe."""
    text = front_frame(front).map(guarded_cell).to_csv(index=False, lineterminator="\n")
    write_text(path, text, force=force)


def _front_row(front: TradeOff, point: FrontPoint) -> dict[str, Any]:
    data = point.model_dump(mode="json", exclude={"option"})
    option = point.option
    scores = option.scores
    return {
        "number": point.number,
        "option": option.name,
        "tags": ", ".join(tag_words(option)),
        "currency": front.job.head.currency,
        **{key: data[key] for key in ("price", "price_bound", "premium")},
        "area_m2": point.area,
        "sheets": option.sheet_count,
        "places_parted": point.places_parted,
        "parted_bound": point.parted_bound,
        **({} if scores is None else _look_cells(scores)),
        "proven": point.proven,
        "marks": "; ".join(_front_marks(front, point)),
    }


def _look_cells(scores: Scores) -> dict[str, Any]:
    """What an option looks like, in figures; lengths in millimetres."""
    data = scores.model_dump(mode="json")
    return {
        "steps_mean_mm": data["steps_mean"],
        "steps_range_mm": data["steps_range"],
        "outline_missed_percent": data["outline_missed"],
        "headroom_least_mm": data["headroom_least"],
        "headroom_spread_mm": data["headroom_spread"],
    }


def _front_marks(front: TradeOff, point: FrontPoint) -> list[str]:
    """The marks of each bay, lowest first, in the job's unit."""
    rows = []
    for case in point.option.cases:
        for bay in case.bays:
            marks = " ".join(format_length(s.underside, front.unit) for s in bay.shelves)
            rows.append(f"{case.name} {bay.number}: {marks or 'no shelves'}")
    return rows
