"""The sheet of a case on one screen: weights, figures, hinges, what to get, what else would do."""

from __future__ import annotations

from rich.table import Table

from cli.screen.strength_tables import force_text, sag_text
from cli.screen.style import plain_table
from cli.screen.wording import NONE, plain_name
from solver.plan.hanging import Figure, HangSheet, clear_of_shelf
from solver.plan.plan import Option
from solver.strength.constants import MM_PER_INCH, NEWTONS_PER_POUND, STANDARD_GRAVITY
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Unit, format_mass, with_unit


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
    return [_held(sheet, unit) for sheet in (option.hanging.cases if option.hanging else ())]


def _held(sheet: HangSheet, unit: Unit) -> str:
    both = format_mass(sheet.empty + sheet.contents, unit)
    words = [f"{format_mass(sheet.empty, unit)} empty, {both} with what stands in it"]
    rated = next((one for one in sheet.figures if one.key == "rating"), None)
    if sheet.hinge is not None and rated is not None:
        words.append(f"{sheet.hinge.count} hinges, rated for {value_text(rated, unit)} together")
    words += [f"NOT ENOUGH: {one.what}: {one.says}" for one in sheet.figures if one.ok is False]
    return f"What holds it: {plain_name(sheet.case)}, {'; '.join(words)}; casewright hang says why."
