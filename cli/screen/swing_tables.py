"""The swing of a case: tables, sentences, and pictures in text of it seen from above."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil, radians
from typing import Any

from rich.table import Table

from cli.screen.console import plain_table
from cli.screen.trim_tables import trade_term
from cli.screen.wording import plain_name
from solver.carcass.trim_face import Side, leg_name
from solver.doorway.swing_clearance import full_opening, tightest
from solver.doorway.swing_scene import (
    WALL_REACH,
    Point,
    Shape,
    Swing,
    carried,
    case_outlines,
    hinge_jamb,
    latch_jamb,
    surroundings,
    turned,
)
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.plan.swinging import Swinging
from solver.plan.trimming import Explained
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
        name = trade_term(one.name, unit) if one.name in new else plain_name(one.name)
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


GAP = 3
"""Columns between two pictures."""
TALLEST = 26
"""Most rows of a picture, so that everything stays on one screen."""
WALL_SHOWN = 0.25
"""How much of the wall beside the opening is shown, as a share of the case's width [-]."""


@dataclass(frozen=True)
class Signs:
    """What the picture is drawn with."""

    wall: str = "▓"
    case: str = "░"
    trim: str = "▒"
    thing: str = "x"
    pin: str = "o"


PLAIN = Signs(wall="#", case=":", trim="%")


@dataclass
class _View:
    """One picture: what turns by one angle, and the window that is shown."""

    title: str
    angle: float
    low: Point
    high: Point
    rows: list[list[str]] = field(default_factory=list)


def pictures(swing: Swing, opens_to: int, width: int, *, mirrored: bool, plain: bool) -> list[str]:
    """Return the lines of the three pictures side by side.

    `mirrored` where the hinges are on the right as seen from the room. The room is at the
    foot: a case that swings out comes down, one that swings in goes up.
    """
    signs = PLAIN if plain else Signs()
    views = _views(swing, opens_to)
    scale = _scale(views, width)
    for view in views:
        _draw(swing, view, scale, signs)
        if swing.back_leads:
            view.rows.reverse()
        if mirrored:
            view.rows = [row[::-1] for row in view.rows]
    return _beside(views)


def _views(swing: Swing, opens_to: int) -> list[_View]:
    _, tight = tightest(swing, opens_to)
    full, _ = full_opening(swing)
    shown = [("at rest", 0.0), (f"tightest, {tight:.0f}°", tight), (f"open, {full:.0f}°", full)]
    if full <= tight:
        shown[1:] = [(f"binds, {full:.0f}°", full)]
    px, py = swing.pin
    wall = WALL_SHOWN * swing.width
    corners = [_turned_corners(swing, radians(angle)) for _, angle in shown]
    ys = [y for some in corners for _, y in some] + [-py - swing.jamb, -py]
    views = []
    for (title, angle), some in zip(shown, corners, strict=True):
        xs = [x for x, _ in some] + [-px - wall, swing.opening - px + wall]
        views.append(_View(title, radians(angle), (min(xs), min(ys)), (max(xs), max(ys))))
    return views


def _turned_corners(swing: Swing, turn: float) -> list[Point]:
    return [turned(corner, turn) for shape in _moving(swing) for corner in shape.corners]


def _moving(swing: Swing) -> tuple[Shape, ...]:
    return (*case_outlines(swing), *carried(swing))


def _scale(views: Sequence[_View], width: int) -> float:
    """Ticks that one column stands for; a row stands for twice as much."""
    across = sum(view.high[0] - view.low[0] for view in views)
    up = max(view.high[1] - view.low[1] for view in views)
    return max(across / (width - GAP * (len(views) - 1) - 2 * len(views)), up / (2 * TALLEST))


def _draw(swing: Swing, view: _View, scale: float, signs: Signs) -> None:
    columns = ceil((view.high[0] - view.low[0]) / scale) + 1
    lines = ceil((view.high[1] - view.low[1]) / (2 * scale)) + 1
    view.rows = [[" "] * columns for _ in range(lines)]
    walls = (hinge_jamb(swing), latch_jamb(swing))
    trims = {strip.name for strip in (*swing.fixed_trim, *swing.carried)}
    for shape in walls:
        _fill(view, scale, [(float(x), float(y)) for x, y in shape.corners], signs.wall)
    for shape in surroundings(swing):
        sign = signs.trim if shape.name in trims else signs.thing
        _fill(view, scale, [(float(x), float(y)) for x, y in shape.corners], sign)
    for shape in _moving(swing):
        outline = [turned(corner, view.angle) for corner in shape.corners]
        _fill(view, scale, outline, signs.trim if shape.name in trims else signs.case)
    _put(view, scale, (0.0, 0.0), signs.pin)


def _fill(view: _View, scale: float, outline: list[Point], sign: str) -> None:
    """Fill every cell whose middle lies in a convex outline, and thin shapes along their edges."""
    if (
        not _filled(view, scale, outline, sign)
        and max(abs(c) for p in outline for c in p) < WALL_REACH
    ):
        for start, end in zip(outline, outline[1:] + outline[:1], strict=True):
            for step in range(101):
                share = step / 100
                at = (
                    start[0] + share * (end[0] - start[0]),
                    start[1] + share * (end[1] - start[1]),
                )
                _put(view, scale, at, sign)


def _filled(view: _View, scale: float, outline: list[Point], sign: str) -> bool:
    any_filled = False
    for j, row in enumerate(view.rows):
        for i in range(len(row)):
            at = (view.low[0] + (i + 0.5) * scale, view.low[1] + (2 * j + 1) * scale)
            if _inside(at, outline):
                row[i], any_filled = sign, True
    return any_filled


def _inside(at: Point, outline: list[Point]) -> bool:
    sides = [
        (bx - ax) * (at[1] - ay) - (by - ay) * (at[0] - ax)
        for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True)
    ]
    return min(sides) >= 0 or max(sides) <= 0


def _put(view: _View, scale: float, at: Point, sign: str) -> None:
    i, j = int((at[0] - view.low[0]) / scale), int((at[1] - view.low[1]) / (2 * scale))
    if 0 <= j < len(view.rows) and 0 <= i < len(view.rows[j]):
        view.rows[j][i] = sign


def _beside(views: Sequence[_View]) -> list[str]:
    """Put pictures of one height side by side."""
    wide = [max(len(view.rows[0]), len(view.title)) for view in views]
    gap = " " * GAP
    titles = gap.join(view.title.ljust(w) for view, w in zip(views, wide, strict=True))
    rows = zip(*(view.rows for view in views), strict=True)
    lines = [
        gap.join("".join(row).ljust(w) for row, w in zip(some, wide, strict=True)) for some in rows
    ]
    return [titles.rstrip(), "", *(line.rstrip() for line in lines)]
