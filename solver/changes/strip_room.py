"""Room kept in the changed plan: a change that only just fits is no advice.

A job that keeps a margin keeps it with every piece. Where it keeps none, every strip is to
have a little left: all sheets and sticks are taken to be that much smaller.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from solver.changes.lots import Problem
from solver.cutting.problem import CutPart, CutSheet, CuttingProblem, StickProblem
from solver.units import Ticks, Unit, inches, mm

LEAST: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Left in every strip where the job keeps no margin: what parts are cut to (common
practice) [tick]."""

SHARE = 100
"""No more is kept than one such part of a sheet's side [-]."""


def room_kept(margin: Ticks, unit: Unit) -> Ticks:
    """Return the room that the changed plan keeps: the margin, or the least [tick]."""
    return margin or LEAST[unit]


def roomy(problem: Problem, room: Ticks) -> Problem:
    """Return the problem with `room` [tick] kept in every strip, or with its own margin.

    A part that fills a sheet from edge to edge as it is stays so, since nothing else lies
    beside it that way: it is taken to be smaller like the sheet.
    """
    if problem.margin:
        return problem
    if isinstance(problem, StickProblem):
        return _shorter_sticks(problem, room)
    room = min(room, *(min(s.length, s.width) // SHARE for s in problem.sheets))
    sheets = tuple(
        replace(sheet, length=sheet.length - room, width=sheet.width - room)
        for sheet in problem.sheets
    )
    smaller = replace(problem, sheets=sheets)
    parts = tuple(_fitting(smaller, part, room) for part in problem.parts)
    return replace(smaller, parts=parts)


def _shorter_sticks(problem: StickProblem, room: Ticks) -> StickProblem:
    room = min(room, *(stick.length // SHARE for stick in problem.sticks))
    sticks = tuple(replace(stick, length=stick.length - room) for stick in problem.sticks)
    longest = max(stick.length for stick in sticks)
    pieces = tuple(replace(p, length=min(p.length, longest)) for p in problem.pieces)
    return replace(problem, pieces=pieces, sticks=sticks)


def _fitting(smaller: CuttingProblem, part: CutPart, room: Ticks) -> CutPart:
    """The part as it is, or smaller by the room where no sheet would take it otherwise."""
    for along, across in ((0, 0), (0, room), (room, 0), (room, room)):
        one = replace(part, length=part.length - along, width=part.width - across)
        if fits(smaller, smaller.sheets, one):
            return one
    return part


def fits(problem: CuttingProblem, sheets: Sequence[CutSheet], part: CutPart) -> bool:
    """Whether some sheet that is there or may be bought has room for a part."""
    lost = 2 * problem.edge_trim + problem.margin
    ways = [(part.length, part.width)] + [(part.width, part.length)] * part.may_turn
    return any(
        along <= sheet.length - lost and across <= sheet.width - lost
        for sheet in sheets
        if sheet.on_hand or sheet.limit != 0
        for along, across in ways
    )
