"""The swing of a case as tables and lines."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from cli.tables.style import plain_table
from cli.tables.trim import term
from cli.tables.words import plain_name
from solver.case import Case
from solver.doorway import Doorway
from solver.explained import Explained
from solver.swing.scene import Swing
from solver.swinging import Swinging
from solver.trim_face import Side, leg_name
from solver.units import Ticks, Unit, with_unit


def headline(case: Case, door: Doorway, answer: Swinging, side: str) -> str:
    """Say in one line whether it swings, hinged on that side."""
    way = f"swings {door.swing or 'out'}, hinged {side}"
    name = f"{plain_name(case.name)} in {plain_name(door.name)}"
    if answer.swings:
        return f"{name}: {way}; it clears to {answer.opens_to}°."
    if answer.binds_at is None:
        return f"{name}: {way}; IT DOES NOT CLEAR: less than the running clearance is left."
    return f"{name}: {way}; IT BINDS at {answer.binds_at}°: {answer.binds}."


def figures_table(swing: Swing, answer: Swinging, unit: Unit) -> Table:
    """What the swing needs beside what there is."""
    table = plain_table("figure", "has", "needs or allows", right=("has",))
    table.add_row("opening", with_unit(swing.opening, unit), "")
    table.add_row("case width", with_unit(swing.width, unit), _at_most(answer.widest, unit))
    table.add_row("case depth", with_unit(swing.depth, unit), _at_most(answer.deepest, unit))
    gap = f"at least {with_unit(answer.latch_gap_needed, unit)}"
    table.add_row("latch gap at rest", with_unit(answer.latch_gap, unit), gap)
    hinge = f"at least {with_unit(answer.hinge_gap_needed, unit)}"
    table.add_row("hinge gap at rest", with_unit(answer.hinge_gap, unit), hinge)
    room = f"at least {with_unit(swing.clearance, unit)}, at {answer.tightest_at}°"
    table.add_row("room at the tightest", with_unit(answer.tightest, unit), room)
    stopped = f"stopped there: {answer.stopped_by}" if answer.stopped_by else "half a turn"
    table.add_row("opens fully to", f"{answer.opens_fully}°", stopped)
    table.add_row("passage at 90°", with_unit(answer.passage_90, unit), "")
    table.add_row("passage fully open", with_unit(answer.passage_full, unit), "")
    if answer.pair is not None:
        needs = f"at least {with_unit(answer.pair.gap_together, unit)} to open both at once"
        table.add_row("between the cases", with_unit(answer.pair.gap, unit), needs)
    return table


def _at_most(length: Ticks | None, unit: Unit) -> str:
    return "none would do" if length is None else f"at most {with_unit(length, unit)}"


def trim_table(answer: Swinging, unit: Unit) -> Table:
    """Each strip of trim: does it travel or stay, and why; new legs in the unit's terms."""
    table = plain_table("trim", "", "why")
    sides: tuple[Side, ...] = ("hinge", "latch")
    new = {leg_name(side) for side in sides}
    for one in answer.trim:
        name = term(one.name, unit) if one.name in new else plain_name(one.name)
        table.add_row(name, "travels" if one.travels else "stays on the wall", one.why)
    return table


def ways_lines(answer: Swinging) -> list[str]:
    """Every way out, one line each."""
    return [
        way.text if way.swings or way.what == "other way" else f"{way.text} (not by itself)"
        for way in answer.ways_out
    ]


def explained_lines(figures: tuple[Explained, ...]) -> list[str]:
    """Return formula, numbers and source of each figure."""
    return [
        line
        for one in figures
        for line in (
            f"{one.what}: {one.value}",
            f"    {one.formula}",
            f"    {one.numbers}",
            f"    {one.source}",
        )
    ]


def as_data(case: Case, answer: Swinging, figures: tuple[Explained, ...]) -> dict[str, Any]:
    """The answer as JSON data; lengths in mm."""
    return {
        "case": case.name,
        **answer.model_dump(mode="json"),
        "explained": [one.model_dump(mode="json") for one in figures],
    }
