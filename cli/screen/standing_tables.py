"""What stands where: opening by opening, from left to right."""

from __future__ import annotations

from collections.abc import Mapping

from cli.screen.style import Titled, lined_up, plain_table
from cli.screen.wording import mass_text, percent, plain_name, triple
from solver.plan.built import Bay, CasePlan, Opening, Placement
from solver.plan.plan import Option
from solver.units import Unit, format_length, with_unit

COLUMNS = ("", "thing", "from left", "W x H x D", "headroom")


def standing_tables(
    option: Option, unit: Unit, keys: Mapping[str, str], width: int
) -> list[Titled]:
    """Return a table for each opening, bay by bay, the lowest opening first.

    `keys` are the letters of the picture by kind of thing; `width` is the columns there
    are [-].
    """
    openings = [
        (f"Opening {opening.index}{bay_label(option, case, bay)}{_heading(opening, unit)}", opening)
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
    ]
    rows = [_rows(opening, unit, keys) for _, opening in openings]
    widths = lined_up([COLUMNS, *(row for some in rows for row in some)], width, folded=1)
    tables = []
    for (title, _), some in zip(openings, rows, strict=True):
        table = plain_table(*COLUMNS, right=("from left", "headroom"), widths=widths)
        table.show_header = False
        for row in some:
            table.add_row(*row)
        tables.append(Titled(title, table))
    if tables:
        tables[0].table.show_header = True
    return tables


def bay_label(option: Option, case: CasePlan, bay: Bay) -> str:
    """Return `, case, bay 2`, as far as there are several to tell apart."""
    label = f", {plain_name(case.name)}" if len(option.cases) > 1 else ""
    return f"{label}, bay {bay.number}" if len(case.bays) > 1 else label


def _heading(opening: Opening, unit: Unit) -> str:
    lip = ""
    if opening.lip_above_floor or opening.lip_below_ceiling:
        daylight = opening.height - opening.lip_above_floor - opening.lip_below_ceiling
        lip = f", {with_unit(daylight, unit)} daylight"
    clear = with_unit(opening.height, unit)
    if not opening.items:
        return f": {clear} clear{lip}, empty"
    load = f"{mass_text(opening.load, unit)} of {mass_text(opening.load_limit, unit)}"
    return f": {clear} clear{lip}, {percent(opening.fill)} full, {load}"


def _rows(opening: Opening, unit: Unit, keys: Mapping[str, str]) -> list[tuple[str, ...]]:
    return [
        (
            keys.get(thing.item, ""),
            f"{plain_name(thing.item)}{_notes(thing, unit)}",
            format_length(thing.x, unit),
            triple((thing.width, thing.height, thing.depth), unit),
            format_length(thing.headroom, unit),
        )
        for thing in sorted(opening.items, key=lambda t: (t.x, t.row, t.y))
    ]


def _notes(thing: Placement, unit: Unit) -> str:
    """How a thing stands, where that is not plainly on the shelf in the front row."""
    notes = []
    if thing.row > 1:
        notes.append(f"row {thing.row}, {with_unit(thing.z, unit)} back")
    if thing.on is not None:
        notes.append("on the one below")
    elif thing.y:
        notes.append(f"on a riser of {with_unit(thing.y, unit)}")
    if thing.lying:
        notes.append("lying")
    return f" ({', '.join(notes)})" if notes else ""
