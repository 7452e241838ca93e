"""Room kept with every piece of a changed list: a near miss is no advice."""

from __future__ import annotations

from dataclasses import replace

from solver.advice.lots import Problem
from solver.cutting.problem import CutPart, CuttingProblem, StickPart, StickProblem
from solver.units import Ticks, Unit, inches, mm

LEAST: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Room kept with every piece where the job keeps no margin: what parts that meet are
cut to (practice of the trade) [tick]."""


def kept(margin: Ticks, unit: Unit) -> Ticks:
    """Return the room that advice keeps with every piece: the margin, or the least [tick]."""
    return margin or LEAST[unit]


def roomy(problem: Problem, room: Ticks) -> Problem:
    """Return the problem with every part larger by what `room` [tick] is over the margin.

    A part that fills a sheet from edge to edge as it is stays so; it has no room to lose.
    """
    if isinstance(problem, StickProblem):
        return replace(problem, pieces=tuple(_longer(problem, p, room) for p in problem.pieces))
    extra = max(0, room - problem.margin)
    return replace(problem, parts=tuple(_larger(problem, part, extra) for part in problem.parts))


def _longer(problem: StickProblem, piece: StickPart, room: Ticks) -> StickPart:
    longest = max(stick.length for stick in problem.sticks)
    return replace(piece, length=max(piece.length, min(piece.length + room, longest)))


def _larger(problem: CuttingProblem, part: CutPart, extra: Ticks) -> CutPart:
    for along, across in ((extra, extra), (extra, 0), (0, extra)):
        larger = replace(part, length=part.length + along, width=part.width + across)
        if fits(problem, larger):
            return larger
    return part


def fits(problem: CuttingProblem, part: CutPart) -> bool:
    """Whether some sheet that is there or may be bought has room for a part."""
    lost = 2 * problem.edge_trim + problem.margin
    ways = [(part.length, part.width)] + [(part.width, part.length)] * part.may_turn
    return any(
        along <= sheet.length - lost and across <= sheet.width - lost
        for sheet in problem.sheets
        if sheet.on_hand or sheet.limit != 0
        for along, across in ways
    )
