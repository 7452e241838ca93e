"""Sag of shelves, and what holds a case: each figure rounded to its safe side.

Sag under a plan has a line for each shelf, the worst, and what would mend it; `casewright
deflection` and the sheet of a hung case (weights, hinges, what to get) have tables of their own.
"""

from __future__ import annotations

from math import ceil, floor
from typing import Any

from rich.table import Table

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, plain_name
from solver.job.boards import Board
from solver.plan.built import ShelfStrength
from solver.plan.hanging import Figure, HangSheet, clear_of_shelf
from solver.plan.plan import Option
from solver.strength.constants import MM_PER_INCH, NEWTONS_PER_POUND, STANDARD_GRAVITY
from solver.strength.shelf_beams import ASSUMED, ShelfBeam
from solver.strength.single_shelf import Deflection
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Unit, format_mass, with_unit

_NOISE = 1e-6


def sag_text(millimetres: float, unit: Unit, *, down: bool = False) -> str:
    """Write a small length [mm] in thousandths of an inch, or hundredths of a millimetre.

    Rounded up, as a sag must be; `down` for one that is allowed.
    """
    step, places = (MM_PER_INCH / 1000, 3) if unit == "in" else (0.01, 2)
    steps = millimetres / step
    whole = floor(steps + _NOISE) if down else ceil(steps - _NOISE)
    return f"{whole / 10**places:.{places}f} {unit}"


def size_text(millimetres: float, unit: Unit) -> str:
    """Write a length that is allowed [mm] to a tenth of an inch, or a millimetre, rounded down."""
    if unit == "in":
        return f"{floor(millimetres / MM_PER_INCH * 10 + _NOISE) / 10:.1f} in"
    return f"{floor(millimetres + _NOISE)} mm"


def force_text(newtons: float, unit: Unit, *, down: bool = False) -> str:
    """Write a force [N] as the mass that weighs it, pounds or kilograms to 0.1.

    Rounded up, as a load must be; `down` for one that is allowed.
    """
    tenths = newtons / (NEWTONS_PER_POUND if unit == "in" else STANDARD_GRAVITY) * 10
    whole = floor(tenths + _NOISE) if down else ceil(tenths - _NOISE)
    return f"{whole / 10:.1f} {'lb' if unit == 'in' else 'kg'}"


def ratio_text(ratio: float) -> str:
    """Write span over sag, rounded down: L/237."""
    return f"L/{floor(ratio + _NOISE)}"


_HELD = {
    "industry": "the layout keeps to L/144, the industry's maximum",
    "display": "the layout keeps to the display limits",
    "none": "the layout keeps to no sag limit",
}
_OVER = {
    ("display-first",): "over display, first day",
    ("display-long",): "over display, years",
    ("display-first", "display-long"): "over display",
}


def sag_table(option: Option, unit: Unit) -> list[Titled]:
    """Every board that spans: sag of the first day and after years, against its limits."""
    strength = option.strength
    if strength is None or not strength.shelves:
        return []
    table = plain_table(
        "shelf", "load", "first day", "", "after years", "limits kept?", right=("load",)
    )
    for one in strength.shelves:
        table.add_row(
            name_of(one),
            format_mass(one.load, unit),
            _mm(one.sag_first, unit),
            ratio_text(one.ratio),
            _mm(one.sag_long, unit),
            _verdict(one),
        )
    return [Titled("Sag of the shelves as loaded (an estimate; assumptions below)", table)]


def _verdict(one: ShelfStrength) -> str:
    """Say which limits it is over; over display is over both of its limits."""
    if "industry" in one.over:
        return "OVER L/144, THE MOST"
    return _OVER.get(one.over, "yes")


def name_of(one: ShelfStrength) -> str:
    """Return the name of a board: `alcove, bay 1, shelf 3`."""
    board = f"shelf {one.index}" if one.index else "bottom"
    return f"{plain_name(one.case)}, bay {one.bay}, {board}"


def _mm(ticks: int, unit: Unit, *, down: bool = False) -> str:
    return sag_text(ticks / TICKS_PER_MM, unit, down=down)


def sag_lines(option: Option, unit: Unit) -> list[str]:
    """Say which board is the worst, what would mend it, and what the figures rest on."""
    strength = option.strength
    if strength is None or strength.worst is None:
        return []
    worst = strength.shelves[strength.worst]
    allowed = (
        f"display allows {_mm(worst.allowed_first, unit, down=True)} and "
        f"{_mm(worst.allowed_long, unit, down=True)}"
    )
    lines = [
        f"Sag, worst: {name_of(worst)}, {_mm(worst.sag_first, unit)} on the first day and "
        f"{_mm(worst.sag_long, unit)} after years ({allowed}); {_HELD[strength.held]}."
    ]
    if worst.mends:
        mends = "; or ".join(mend.text for mend in worst.mends)
        lines.append(f"To keep the display limits there: {mends}.")
    return [*lines, f"Sag rests on: {'; '.join(strength.assumed)}."]


def answer_line(found: Deflection, unit: Unit) -> str:
    """Say the answer in one line."""
    return (
        f"First day {sag_text(found.first_day, unit)} ({ratio_text(found.ratio)}), "
        f"after years {sag_text(found.long_term, unit)} ({ratio_text(found.long_ratio)})."
    )


def limits_table(found: Deflection, unit: Unit) -> Table:
    """Every named limit: the sag that it looks at, what it allows, and how far one could go."""
    table = plain_table(
        "limit", "sag", "allowed", "", "longest span", "most load", right=("sag", "allowed")
    )
    for held in found.limits:
        table.add_row(
            held.limit.name(unit),
            sag_text(held.sag, unit),
            sag_text(held.allowed, unit, down=True),
            "kept" if held.kept else "OVER",
            size_text(held.longest, unit),
            force_text(held.load, unit, down=True),
        )
    return table


def assumed_lines(board: Board) -> list[str]:
    """Say what the figures rest on."""
    return [
        f"E {board.modulus / 1e6:.2f} million psi: {board.name} ({board.source})",
        "load spread evenly; own weight of the shelf not counted, as in published tables",
        *ASSUMED,
        "an estimate for choosing sizes, not a test; makers' load tables come first",
    ]


def explained(found: Deflection, beam: ShelfBeam, load: float, unit: Unit) -> list[str]:
    """Give formula, numbers and source of each figure, in N and mm."""
    return [
        "first day = 5 W L^3 / (384 E I): "
        f"5 x {load:.1f} N x ({beam.span:.1f} mm)^3 / (384 x {beam.stiffness:.4g} N mm2) = "
        f"{found.first_day:.3f} mm. Wood Handbook FPL-GTR-190 Eq. 9-2, Table 9-1",
        f"after years = 2 x first day = {found.long_term:.3f} mm. Wood Handbook ch. 5, p. 5-38: "
        "creep may about equal the first sag (AWC NDS 3.5.2: 1.5 for seasoned lumber, else 2.0)",
        "longest span = (384 E I / (5 n q))^(1/3), with q the load on each length and n of L/n; "
        "twice n where the limit is long-term",
        *(f"{held.limit.name(unit)}: {held.limit.source}" for held in found.limits),
    ]


def as_data(found: Deflection, board: Board) -> dict[str, Any]:
    """The answer as JSON data: mm and N."""
    return {
        "span_mm": round(found.span, 3),
        "first_day_mm": round(found.first_day, 4),
        "long_term_mm": round(found.long_term, 4),
        "ratio": int(found.ratio + 1e-9),
        "long_term_ratio": int(found.long_ratio + 1e-9),
        "board": board.name,
        "modulus_psi": board.modulus,
        "limits": [
            {
                "limit": held.limit.key,
                "allowed_mm": round(held.allowed, 4),
                "kept": held.kept,
                "longest_span_mm": round(held.longest, 1),
                "most_load_n": round(held.load, 1),
                "source": held.limit.source,
            }
            for held in found.limits
        ],
        "assumed": assumed_lines(board),
    }


def value_text(figure: Figure, unit: Unit) -> str:
    """Write a figure in the job's unit; what is allowed or left is rounded down by its key."""
    if figure.key == "back" and unit == "mm":  # 5/32 or 7/16 in by the trade: no truer than that
        return f"{figure.value:.1f} mm"
    if figure.kind == "length":
        return sag_text(figure.value, unit, down=figure.key == "foot")
    if figure.kind == "force":
        return force_text(figure.value, unit, down=figure.key.startswith(("tip", "climbed")))
    if figure.kind == "moment":
        if unit == "in":
            return f"{figure.value / NEWTONS_PER_POUND / MM_PER_INCH / 12:.1f} lb ft"
        return f"{figure.value / STANDARD_GRAVITY / 1000:.2f} kg m"
    return f"{figure.value:g}"


def headline(sheet: HangSheet, unit: Unit) -> str:
    """Return what the case weighs and where its centre of gravity is, in a line."""
    step = TICKS_PER_INCH // 8 if unit == "in" else TICKS_PER_MM
    x, z, y = (with_unit((one + step // 2) // step * step, unit) for one in sheet.centre)
    both = format_mass(sheet.empty + sheet.contents, unit)
    return (
        f"{plain_name(sheet.case)} ({sheet.kind}): empty {format_mass(sheet.empty, unit)}, with "
        f"{format_mass(sheet.contents, unit)} in it {both}; centre of gravity about {x} from the "
        f"left, {z} from the front, {y} up"
    )


def weight_lines(sheet: HangSheet) -> list[str]:
    """Say which weights are assumed and which sizes are guessed."""
    lines = []
    if sheet.assumed:
        names = ", ".join(plain_name(name) for name in sheet.assumed)
        lines.append(f"weight not given, the standard shelf load on its footprint counts: {names}")
    if sheet.guessed:
        names = ", ".join(plain_name(name) for name in sheet.guessed)
        lines.append(f"sizes guessed, planned with the allowance: {names}")
    return lines


def figures_table(sheet: HangSheet, unit: Unit) -> Table:
    """Every figure with its verdict, and what follows where it is not as it should be."""
    table = plain_table("figure", "value", "", right=("value",))
    for one in sheet.figures:
        verdict = NONE if one.ok is None else "good" if one.ok else f"NOT ENOUGH: {one.says}"
        table.add_row(one.what, value_text(one, unit), verdict)
    return table


def hinges_table(sheet: HangSheet, unit: Unit) -> Table:
    """Where each hinge goes, old mortises named."""
    table = plain_table("hinge", "from head", "on the case", "", right=("from head", "on the case"))
    near = clear_of_shelf(unit)
    for at, one in enumerate(sheet.hinges, start=1):
        notes = ["old mortise" if one.old else "new"]
        if one.near_shelf:
            notes.append(f"nearer than {near} to a shelf: move it or the screws")
        table.add_row(
            str(at),
            with_unit(one.from_head, unit),
            with_unit(one.from_top, unit),
            "; ".join(notes),
        )
    return table


def explained_lines(sheet: HangSheet) -> list[str]:
    """Give formula, numbers, source and assumptions of each figure."""
    return [
        f"{one.what}: {one.formula}. {one.numbers}. Source: {one.source}."
        + (f" Assumed: {one.assumes}." if one.assumes else "")
        for one in sheet.figures
    ]


def hold_lines(option: Option, unit: Unit) -> list[str]:
    """Say of each case what it weighs, what hinges it asks for, and what does not hold it."""
    return [_fixing_line(sheet, unit) for sheet in (option.hanging.cases if option.hanging else ())]


def _fixing_line(sheet: HangSheet, unit: Unit) -> str:
    both = format_mass(sheet.empty + sheet.contents, unit)
    words = [f"{format_mass(sheet.empty, unit)} empty, {both} with what stands in it"]
    rated = next((one for one in sheet.figures if one.key == "rating"), None)
    if sheet.hinge is not None and rated is not None:
        words.append(f"{sheet.hinge.count} hinges, rated for {value_text(rated, unit)} together")
    words += [f"NOT ENOUGH: {one.what}: {one.says}" for one in sheet.figures if one.ok is False]
    return f"What holds it: {plain_name(sheet.case)}, {'; '.join(words)}; casewright hang says why."
