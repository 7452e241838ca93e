"""The cuts of each sheet in order, and the settings of the saws over all sheets."""

from __future__ import annotations

from collections.abc import Sequence

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, plain_name
from solver.cuts import Cut, Panel, SawSetting
from solver.plan import Sheet
from solver.units import Unit, format_length

SAW = {"guided saw": "track saw", "table saw": "table saw", "mitre saw": "mitre saw"}


def cut_table(number: int, sheet: Sheet, unit: Unit) -> Titled:
    """Return the cuts of one sheet in the order in which they are made."""
    table = plain_table("cut", "how", "set to", "from", "comes off", "goes on", right=("cut",))
    for cut in sheet.cuts:
        table.add_row(
            str(cut.number),
            how(cut),
            set_to(cut, unit),
            cut.measured_from,
            came_off(cut, unit),
            goes_on(cut, unit),
        )
    return Titled(f"Cuts of sheet {number} ({unit})", table)


def how(cut: Cut) -> str:
    """Say which saw makes a cut, and which way it runs."""
    saw = (cut.saw or "no saw").removesuffix(" saw")
    return f"{saw} {cut.direction}" + (", trim" if cut.kind == "trim" else "")


def set_to(cut: Cut, unit: Unit) -> str:
    """Say what is set to what."""
    return f"{cut.guide or 'at'} {format_length(cut.setting, unit)}"


def came_off(cut: Cut, unit: Unit) -> str:
    return _named(cut.comes_off, unit)


def goes_on(cut: Cut, unit: Unit) -> str:
    return _named(cut.goes_on, unit)


def _named(panel: Panel | None, unit: Unit) -> str:
    if panel is None:
        return NONE
    if panel.what in ("strip", "blank", "sheet"):
        size = f"{format_length(panel.length, unit)} x {format_length(panel.width, unit)}"
        return f"{panel.what} {panel.name}, {size}" if panel.what != "sheet" else f"sheet, {size}"
    return plain_name(panel.name)


def settings_table(settings: Sequence[SawSetting], unit: Unit) -> Titled:
    """Return the settings of the saws in the order of the work, with the cuts of each."""
    table = plain_table("setting", "saw", "set to", "cuts", right=("setting",))
    for one in settings:
        table.add_row(
            str(one.number),
            f"{(one.saw or 'no saw')} {one.direction}",
            f"{one.guide or 'at'} {format_length(one.setting, unit)}",
            "; ".join(f"sheet {some.sheet}: {', '.join(map(str, some.cuts))}" for some in one.cuts),
        )
    return Titled(f"Settings ({unit})", table)
