"""The record of gaps as hung: planned beside measured, empty, loaded and a month later."""

from __future__ import annotations

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, fields, grid, heading, line
from solver.job.doorway import Doorway
from solver.plan.built import CasePlan
from solver.units import Ticks, Unit, inches, mm, with_unit

HUNG = ("planned", "hung, empty", "loaded", "after a month")
FITTED = ("planned", "as fitted", "after a month")
PLACES = ("top", "middle", "bottom")
SQUARE = {"in": inches("1/16"), "mm": mm(2)}
"""Diagonals may differ by so much: sawmillcreek.org t-198769; metric: common practice [tick]."""


def gap_record(issue: Issue) -> Paper:
    """Return the record to fill in."""
    blocks: list[Block] = [
        line(
            "Measured with a rule or feeler, written down as read. What has moved after a month"
            " shows which hinge, screw or fixing gives."
        )
    ]
    for planned in issue.option.cases:
        doorway = _doorway(issue, planned)
        hung = planned.kind == "hung" and doorway is not None
        columns = ("where", *(HUNG if hung else FITTED))
        rows = [
            (name, "" if value is None else value, *[""] * (len(columns) - 2))
            for name, value in _places(issue, planned, doorway)
        ]
        blocks.append(heading(planned.name))
        blocks.append(grid(columns, rows, wide=columns[2:], rules="written"))
        blocks.append(fields(("measured by", "date", "after a month by", "date")))
    return Paper("gaps", "Record of gaps", "as hung or fitted, and a month later", tuple(blocks))


def _doorway(issue: Issue, planned: CasePlan) -> Doorway | None:
    name = issue.job.case(planned.name).doorway
    return next((one for one in issue.job.doorways if one.name == name), None)


def _places(
    issue: Issue, planned: CasePlan, doorway: Doorway | None
) -> list[tuple[str, str | None]]:
    unit = issue.unit
    square = ("diagonals, difference", f"at most {with_unit(SQUARE[unit], unit)}")
    if doorway is None:
        rows = [("level, left to right", "level"), ("plumb, front to back", "plumb")]
        wall = [("gap to the wall, top", None), ("gap to the wall, bottom", None)]
        return [*rows, square, *wall, ("fixings tight", "yes")]
    if planned.kind == "hung":
        return [*_hung(planned, doorway, unit), square]
    return [*_in_alcove(planned, doorway, unit), square, ("fixings tight", "yes")]


def _hung(planned: CasePlan, doorway: Doorway, unit: Unit) -> list[tuple[str, str | None]]:
    """Gaps of a case in a doorway, the narrowest of it where it was measured more than once."""
    swing = planned.swing
    latch = doorway.clear_width - planned.outside.width - doorway.hinge_gap
    rest = latch if swing is None else swing.latch_gap
    head = doorway.clear_height - planned.above_floor - planned.outside.height
    foot = planned.above_floor - doorway.floor_to_clear
    rows: list[tuple[str, str | None]] = []
    rows += [(f"hinge side, {at}", with_unit(doorway.hinge_gap, unit)) for at in PLACES]
    rows += [(f"latch side, {at}", _least(rest, unit)) for at in PLACES]
    rows += [(f"head, {side} side", _least(head, unit)) for side in ("hinge", "latch")]
    rows.append(("latch foot over the highest floor", _least(foot, unit)))
    if swing is not None:
        rows.append((f"opens to, of {doorway.opens_to}°", f"{swing.opens_fully:g}°"))
        rows.append(("way left at 90°", with_unit(swing.passage_90, unit)))
    return rows


def _least(gap: Ticks, unit: Unit) -> str:
    return f"{with_unit(gap, unit)} or more"


def _in_alcove(planned: CasePlan, doorway: Doorway, unit: Unit) -> list[tuple[str, str | None]]:
    """Room beside and above a case in an alcove, place by place as it was measured."""
    names = PLACES if len(doorway.widths) == 3 else ("narrowest",)
    widths = doorway.widths if len(doorway.widths) == 3 else (doorway.clear_width,)
    rows: list[tuple[str, str | None]] = [
        (f"left and right together, {at}", with_unit(width - planned.outside.width, unit))
        for at, width in zip(names, widths, strict=True)
    ]
    head = doorway.clear_height - planned.above_floor - planned.outside.height
    return [*rows, ("over the top", with_unit(head, unit))]
