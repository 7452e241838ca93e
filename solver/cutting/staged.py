"""Whether a sheet keeps to the stages that the shop allows, seen from its pieces alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from solver.cutting.problem import CuttingProblem
from solver.stocked import Sheet
from solver.units import Ticks

Rect: TypeAlias = tuple[Ticks, Ticks, Ticks, Ticks]
"""x0, y0, x1, y1 of a piece with its margin."""


def keeps_stages(problem: CuttingProblem, sheet: Sheet) -> bool:
    """Return True where so many stages, begun as the sheet says, free every piece.

    Each stage divides wherever a cut passes. After two stages one more cut may trim a
    piece, so that each must be alone; after three none may, so that pieces of one column
    have its full size.
    """
    if problem.stages == "any":
        return True
    groups = [
        [
            (p.x, p.y, p.x + p.length + problem.margin, p.y + p.width + problem.margin)
            for p in sheet.pieces
        ]
    ]
    axis = 0 if sheet.first_cut == "crosscut" else 1
    before = groups
    for stage in range(int(problem.stages)):
        before, side = groups, (axis + stage) % 2
        groups = [part for group in groups for part in _divided(group, side, problem.kerf)]
    if any(len(group) > 1 for group in groups):
        return False
    side = (axis + int(problem.stages)) % 2
    return (problem.stages == "2" and problem.trimming) or all(
        len({(r[side], r[side + 2]) for r in column}) == 1 for column in before
    )


def _divided(rects: Sequence[Rect], axis: int, kerf: Ticks) -> list[list[Rect]]:
    parts: list[list[Rect]] = []
    for rect in sorted(rects, key=lambda r: r[axis]):
        if parts and rect[axis] - max(r[axis + 2] for r in parts[-1]) < kerf:
            parts[-1].append(rect)
        else:
            parts.append([rect])
    return parts
