"""A plan as pandas DataFrames, for the user's own tables. pandas is imported when asked for.

Every length stands twice: as a decimal in the job's unit, in a column named after it
(``length_in`` or ``length_mm``), and as text with its unit, as on a shop paper (``length``).
Millimetres are exact; inches are given to a millionth, which names one tick only.
Names are those of the job, untouched. The order is that of the plan.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from solver.plan.built import Bay, CasePlan, Opening
from solver.plan.plan import Option, Plan
from solver.plan.stocked import Sheet, Stick
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

if TYPE_CHECKING:
    from pandas import DataFrame

Row = Mapping[str, Any]


def positions_frame(plan: Plan) -> DataFrame:
    """Return one row for each board of each bay, the lowest first.

    Columns: option, case, bay [-], board, and lengths in the job's unit: underside and
    top_face from the bottom end of the side, opening_above (empty above the top).
    """
    return _frame(plan, _positions, ("option", "case", "bay", "board"), POSITION_LENGTHS)


def placements_frame(plan: Plan) -> DataFrame:
    """Return one row for each thing as it stands.

    Columns: option, case, bay [-], opening [-], item, number [-], row [-], on [-], lying,
    mass_g [g], mass_assumed, and lengths in the job's unit: x, y, z, width, height, depth,
    headroom. `x` is from the bay's left side, `y` from the opening's floor, `z` from the front.
    """
    plain = ("option", "case", "bay", "opening", "item", "number", "row", "on", "lying")
    return _frame(plan, _placements, (*plain, "mass_g", "mass_assumed"), PLACEMENT_LENGTHS)


def parts_frame(plan: Plan) -> DataFrame:
    """Return one row for each part to cut, allowances included.

    Columns: option, part, name, case, material, grain, allowances, and lengths in the
    job's unit: length (along the grain), width, thickness.
    """
    plain = ("option", "part", "name", "case", "material", "grain", "allowances")
    return _frame(plan, _parts, plain, ("length", "width", "thickness"))


def sheets_frame(plan: Plan) -> DataFrame:
    """Return one row for each piece of each sheet.

    Columns: option, sheet [-], stock, material, on_hand, price (of the sheet, in the job's
    currency; empty where not known), first_cut, part, turned, strip (its number on the
    sheet [-]), and lengths in the job's unit: sheet_length, sheet_width, x, y, length, width,
    from the factory corner, slack_beside (left beside the strips of the sheet) and
    slack_along (left along the piece's own strip).
    """
    return _frame(plan, lambda o: sheet_rows(o.sheets), ("option", *SHEET_PLAIN), SHEET_LENGTHS)


def mouldings_frame(plan: Plan) -> DataFrame:
    """Return one row for each piece of each stick of moulding.

    Columns: option, stick [-], stock, on_hand, price (of the stick), part, cut [-] (its
    number on the stick; empty where the piece is what is left), setting [-] (of the stop, over
    all sticks), measured_from, and lengths in the job's unit: stick_length, start, length
    (which the stop is set to), slack (left of the stick).
    """
    sawn = ("cut", "setting", "measured_from")
    plain = ("option", "stick", "stock", "on_hand", "price", "part", *sawn)
    return _frame(plan, _mouldings, plain, ("stick_length", "start", "length", "slack"))


POSITION_LENGTHS = ("underside", "top_face", "opening_above")
PLACEMENT_LENGTHS = ("x", "y", "z", "width", "height", "depth", "headroom")
SHEET_PLAIN = (
    "sheet",
    "stock",
    "material",
    "on_hand",
    "price",
    "first_cut",
    "part",
    "turned",
    "strip",
)
SHEET_LENGTHS = (
    "sheet_length",
    "sheet_width",
    "x",
    "y",
    "length",
    "width",
    "slack_beside",
    "slack_along",
)


def decimal_length(ticks: Ticks, unit: Unit) -> Decimal:
    """Return a length [tick] in the job's unit: mm exact, inches to a millionth."""
    if unit == "mm":
        return _tidy(Decimal(ticks) / TICKS_PER_MM)
    return _tidy((Decimal(ticks) / TICKS_PER_INCH).quantize(Decimal("0.000001")))


def _tidy(value: Decimal) -> Decimal:
    return Decimal(format(value.normalize(), "f"))


def _frame(plan: Plan, rows: Any, plain: tuple[str, ...], lengths: tuple[str, ...]) -> DataFrame:
    named = [(option.name, rows(option)) for option in plan.options]
    return frame_of(plan.unit, named, plain, lengths)


def frame_of(
    unit: Unit,
    named: Iterable[tuple[str, Iterable[Row]]],
    plain: tuple[str, ...],
    lengths: tuple[str, ...],
) -> DataFrame:
    """Return a frame of the plain columns, then each length as a decimal and as text.

    `named` are the rows of each option with its name. Cells are Python objects: a missing
    cell would turn a column of ints into floats.
    """
    import pandas as pd

    data = []
    for option, rows in named:
        for row in rows:
            cells = {name: option if name == "option" else row[name] for name in plain}
            for name in lengths:
                ticks = row[name]
                cells[f"{name}_{unit}"] = None if ticks is None else decimal_length(ticks, unit)
                cells[name] = None if ticks is None else with_unit(ticks, unit)
            data.append(cells)
    both = [column for name in lengths for column in (f"{name}_{unit}", name)]
    return pd.DataFrame(data, columns=[*plain, *both], dtype=object)


def _positions(option: Option) -> Iterator[Row]:
    for case in option.cases:
        for bay in case.bays:
            for board, underside, top, above in boards(case, bay):
                yield {
                    "case": case.name,
                    "bay": bay.number,
                    "board": board,
                    "underside": underside,
                    "top_face": top,
                    "opening_above": above,
                }


def boards(case: CasePlan, bay: Bay) -> list[tuple[str, Ticks, Ticks, Ticks | None]]:
    """Return the boards of a bay from the lowest up.

    Each is (name, underside, top face, clear opening above it, None above the top) [tick],
    heights from the bottom end of the side. Bottom and top are as thick as what the
    case's height leaves above the top opening.
    """
    floor, last = bay.openings[0].floor, bay.openings[-1]
    ceiling = last.floor + last.height
    thickness = case.outside.height - ceiling
    shelves = [
        (f"shelf {shelf.index}", shelf.underside, shelf.top, bay.openings[shelf.index].height)
        for shelf in bay.shelves
    ]
    bottom = ("bottom", floor - thickness, floor, bay.openings[0].height)
    return [bottom, *shelves, ("top", ceiling, case.outside.height, None)]


def _placements(option: Option) -> Iterator[Row]:
    for case in option.cases:
        for bay in case.bays:
            for opening in bay.openings:
                yield from _things(case, bay, opening)


def _things(case: CasePlan, bay: Bay, opening: Opening) -> Iterator[Row]:
    for thing in opening.items:
        yield {
            **{name: getattr(thing, name) for name in PLACEMENT_LENGTHS},
            **{name: getattr(thing, name) for name in ("item", "number", "row", "on", "lying")},
            "case": case.name,
            "bay": bay.number,
            "opening": opening.index,
            "mass_g": thing.mass,
            "mass_assumed": thing.mass_assumed,
        }


def _parts(option: Option) -> Iterator[Row]:
    for part in option.parts:
        yield {
            "part": part.id,
            "allowances": ", ".join(allowance.what for allowance in part.allowances),
            **{name: getattr(part, name) for name in ("name", "case", "material", "grain")},
            **{name: getattr(part, name) for name in ("length", "width", "thickness")},
        }


def sheet_rows(sheets: Sequence[Sheet]) -> Iterator[Row]:
    """Yield a row for each piece of each sheet."""
    for number, sheet in enumerate(sheets, start=1):
        strips = _strips(sheet)
        for piece in sheet.pieces:
            strip, along = strips.get(piece.part, (None, None))
            yield {
                "sheet": number,
                "sheet_length": sheet.length,
                "sheet_width": sheet.width,
                **{name: getattr(sheet, name) for name in ("stock", "material", "on_hand")},
                **{name: getattr(sheet, name) for name in ("price", "first_cut")},
                **{name: getattr(piece, name) for name in ("part", "turned")},
                **{name: getattr(piece, name) for name in ("x", "y", "length", "width")},
                "strip": strip,
                "slack_beside": None if sheet.slack is None else sheet.slack.across,
                "slack_along": along,
            }


def _strips(sheet: Sheet) -> dict[str, tuple[int, Ticks]]:
    """Number of each part's strip, and what is left along that strip [tick]."""
    strips = () if sheet.slack is None else sheet.slack.strips
    return {
        part: (number, strip.along)
        for number, strip in enumerate(strips, start=1)
        for part in strip.parts
    }


def _mouldings(option: Option) -> Iterator[Row]:
    for number, stick in enumerate(option.mouldings, start=1):
        for piece in stick.pieces:
            yield {
                "stick": number,
                "stick_length": stick.length,
                **{name: getattr(stick, name) for name in ("stock", "on_hand", "price", "slack")},
                **{name: getattr(piece, name) for name in ("part", "start", "length")},
                **_sawn(stick, piece.part),
            }


def _sawn(stick: Stick, part: str) -> Row:
    """The cut that frees a piece of a stick."""
    cut = next((cut for cut in stick.cuts if cut.part == part), None)
    return {
        "cut": None if cut is None else cut.number,
        "setting": None if cut is None else cut.batch,
        "measured_from": None if cut is None else cut.measured_from,
    }
