"""The cuts of a plan or cut plan as pandas DataFrames: cuts in order, settings, offcuts.

Lengths stand twice, as in :mod:`solver.plan.plan_frames`. A cut plan has no options, and its
frames no column for them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any, TypeAlias

from solver.plan.plan import CutPlan, Plan
from solver.plan.plan_frames import SHEET_LENGTHS, SHEET_PLAIN, Row, frame_of, sheet_rows
from solver.plan.saw_cuts import Cut, Panel, SawSetting
from solver.plan.stocked import Sheet

if TYPE_CHECKING:
    from pandas import DataFrame

Rows: TypeAlias = Callable[[Sequence[Sheet], Sequence[SawSetting]], Iterator[Row]]

CUT_PLAIN = ("sheet", "cut", "setting", "kind", "direction", "saw", "guide", "measured_from", "of")
PANELS = ("comes_off", "comes_off_is", "goes_on", "goes_on_is")
CUT_LENGTHS = (
    "set_to",
    "comes_off_length",
    "comes_off_width",
    "goes_on_length",
    "goes_on_width",
    "at",
    "start",
    "end",
)


def cuts_frame(plan: Plan | CutPlan) -> DataFrame:
    """Return one row for each cut of each sheet, in the order in which they are made.

    Columns: sheet [-], cut [-], setting (number of the saw's setting [-]), kind, direction,
    saw, guide, measured_from, of (the panel that is cut), comes_off and goes_on (names) with
    what they are, cautions, and lengths in the job's unit: set_to, the sizes of both, and
    at, start, end of the saw cut on the sheet.
    """
    return _frame(plan, _cuts, (*CUT_PLAIN, *PANELS, "cautions"), CUT_LENGTHS)


def settings_frame(plan: Plan | CutPlan) -> DataFrame:
    """Return one row for each setting of a saw and sheet that is cut with it, in order.

    Columns: setting [-], saw, guide, trim, as_it_stands, sheet [-], cuts (their numbers), and
    set_to in the job's unit.
    """
    plain = ("setting", "saw", "guide", "trim", "as_it_stands", "sheet", "cuts")
    return _frame(plan, _settings, plain, ("set_to",))


def offcuts_frame(plan: Plan | CutPlan) -> DataFrame:
    """Return one row for each offcut worth keeping.

    Columns: sheet [-], offcut, enough_for, and lengths in the job's unit: length, width,
    x and y from the factory corner.
    """
    plain = ("sheet", "offcut", "enough_for")
    return _frame(plan, _offcuts, plain, ("length", "width", "x", "y"))


def pieces_frame(plan: CutPlan) -> DataFrame:
    """Return one row for each piece of each sheet; columns as those of a plan's sheets."""
    return frame_of(plan.unit, [("", sheet_rows(plan.sheets or ()))], SHEET_PLAIN, SHEET_LENGTHS)


def _frame(
    plan: Plan | CutPlan, rows: Rows, plain: tuple[str, ...], lengths: tuple[str, ...]
) -> DataFrame:
    if isinstance(plan, CutPlan):
        some = rows(plan.sheets or (), plan.settings)
        return frame_of(plan.unit, [("", some)], plain, lengths)
    named = [(option.name, rows(option.sheets, option.settings)) for option in plan.options]
    return frame_of(plan.unit, named, ("option", *plain), lengths)


def _cuts(sheets: Sequence[Sheet], settings: Sequence[SawSetting]) -> Iterator[Row]:
    numbers = {
        (some.sheet, cut): one.number for one in settings for some in one.cuts for cut in some.cuts
    }
    for number, sheet in enumerate(sheets, start=1):
        for cut in sheet.cuts:
            yield {
                "sheet": number,
                "cut": cut.number,
                "setting": numbers.get((number, cut.number)),
                **_cut(cut),
                **_panel("comes_off", cut.comes_off),
                **_panel("goes_on", cut.goes_on),
            }


def _cut(cut: Cut) -> dict[str, Any]:
    same = ("kind", "direction", "saw", "guide", "measured_from", "at", "start", "end")
    return {
        **{name: getattr(cut, name) for name in same},
        "of": cut.panel,
        "set_to": cut.setting,
        "cautions": ", ".join(cut.cautions),
    }


def _panel(key: str, panel: Panel | None) -> dict[str, Any]:
    return {
        key: None if panel is None else panel.name,
        f"{key}_is": None if panel is None else panel.what,
        f"{key}_length": None if panel is None else panel.length,
        f"{key}_width": None if panel is None else panel.width,
    }


def _settings(sheets: Sequence[Sheet], settings: Sequence[SawSetting]) -> Iterator[Row]:
    del sheets
    for one in settings:
        for some in one.cuts:
            yield {
                "setting": one.number,
                **{name: getattr(one, name) for name in ("saw", "guide", "trim", "as_it_stands")},
                "set_to": one.setting,
                "sheet": some.sheet,
                "cuts": ", ".join(map(str, some.cuts)),
            }


def _offcuts(sheets: Sequence[Sheet], settings: Sequence[SawSetting]) -> Iterator[Row]:
    del settings
    for number, sheet in enumerate(sheets, start=1):
        for offcut in sheet.offcuts:
            yield {
                "sheet": number,
                "offcut": offcut.name,
                **{name: getattr(offcut, name) for name in ("enough_for", "length", "width")},
                **{name: getattr(offcut, name) for name in ("x", "y")},
            }
