"""The trade-off front as a CSV file: one row an option."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from cli.export import guarded_cell
from cli.output import write_text
from cli.tables.words import tag_words
from solver.tradeoff import FrontPoint, TradeOff
from solver.units import format_length

if TYPE_CHECKING:
    from pandas import DataFrame


def front_frame(front: TradeOff) -> DataFrame:
    """Return the front as a table; lengths in millimetres under `_mm`, marks as printed."""
    import pandas as pd

    return pd.DataFrame([_row(front, point) for point in front.points])


def write_front_csv(front: TradeOff, path: str, *, force: bool) -> None:
    """Write the table; cells that a spreadsheet would take for a formula get an apostrophe."""
    text = front_frame(front).map(guarded_cell).to_csv(index=False, lineterminator="\n")
    write_text(path, text, force=force)


def _row(front: TradeOff, point: FrontPoint) -> dict[str, Any]:
    data = point.model_dump(mode="json", exclude={"option"})
    lengths = ("rhythm", "rhythm_sum", "rhythm_bound", "headroom", "headroom_bound")
    option = point.option
    return {
        "number": point.number,
        "option": option.name,
        "tags": ", ".join(tag_words(option)),
        "currency": front.job.head.currency,
        **{key: data[key] for key in ("price", "price_bound", "premium")},
        "area_m2": point.area,
        "sheets": option.sheet_count,
        **{f"{key}_mm": data[key] for key in lengths},
        "empty_openings": point.empty_openings,
        "empty_bound": point.empty_bound,
        "proven": point.proven,
        "marks": "; ".join(_marks(front, point)),
    }


def _marks(front: TradeOff, point: FrontPoint) -> list[str]:
    """The marks of each bay, lowest first, in the job's unit."""
    found = []
    for case in point.option.cases:
        for bay in case.bays:
            marks = " ".join(format_length(s.underside, front.unit) for s in bay.shelves)
            found.append(f"{case.name} {bay.number}: {marks or 'no shelves'}")
    return found
