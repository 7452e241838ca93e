"""The parts of a matched set as one block to cut, and the block on its sheet taken apart again.

A block is a row of parts, or rows of parts: end to end in a row, the rows side by side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from solver.cutting.cutting_problem import CutPart, CuttingProblem
from solver.cutting.draw_cuts import DIRECTION, X, Y
from solver.cutting.padded_sizes import room
from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Piece, Sheet
from solver.units import Ticks

Rect: TypeAlias = tuple[Ticks, Ticks, Ticks, Ticks]
"""x0, y0, x1, y1 of a piece with its margin."""

WAYS_MOST = 3
"""Most ways to lay a set that are tried [-]."""


@dataclass(frozen=True)
class SetBlock:
    """Parts that follow one another in a row, with the cuts between them.

    Attributes
    ----------
    members
        In their order; some may be blocks themselves.
    axis
        X: end to end, along their length; Y: side by side.
    part
        The block as one part, of the exact size that the row takes [tick].
    inner
        The members that are blocks.
    """

    members: tuple[CutPart, ...]
    axis: int
    part: CutPart
    inner: tuple[SetBlock, ...] = ()

    @property
    def area(self) -> int:
        """Area that it takes [tick2]."""
        return self.part.length * self.part.width


def block(problem: CuttingProblem, members: Sequence[CutPart], axis: int, name: str) -> SetBlock:
    """Put parts in a row along an axis; they turn together, and only if all may."""
    between = (len(members) - 1) * (problem.kerf + problem.margin)
    lengths, widths = [m.length for m in members], [m.width for m in members]
    if axis == X:
        length, width = sum(lengths) + between, max(widths)
    else:
        length, width = max(lengths), sum(widths) + between
    part = CutPart(name, length, width, all(m.may_turn for m in members))
    return SetBlock(tuple(members), axis, part)


def in_rows(problem: CuttingProblem, parts: Sequence[CutPart], columns: int, name: str) -> SetBlock:
    """Put parts in rows of so many, each row end to end, the rows side by side."""
    rows = [
        block(problem, parts[at : at + columns], X, f"{name}\n{at}")
        for at in range(0, len(parts), columns)
    ]
    whole = block(problem, [row.part for row in rows], Y, name)
    return SetBlock(whole.members, Y, whole.part, tuple(rows))


def block_choices(problem: CuttingProblem, parts: Sequence[CutPart], name: str) -> list[SetBlock]:
    """Return the blocks of a set that some sheet takes, the smallest first.

    End to end or side by side; where neither fits, in several rows.
    """
    rows = [block(problem, parts, axis, f"{name}\n{'XY'[axis]}") for axis in (X, Y)]
    fitting = [row for row in rows if _fits(problem, row.part)]
    if not fitting:
        columns = {-(-len(parts) // rows) for rows in range(2, len(parts))} - {1}
        several = [in_rows(problem, parts, n, f"{name}\n{n}") for n in sorted(columns)]
        fitting = [one for one in several if _fits(problem, one.part)]
    return sorted(fitting, key=lambda one: one.area)[:WAYS_MOST]


def _fits(problem: CuttingProblem, part: CutPart) -> bool:
    extra = problem.kerf + problem.margin
    lies = [(part.length, part.width)] + [(part.width, part.length)] * part.may_turn
    return any(
        a + extra <= room(problem, sheet.length) and b + extra <= room(problem, sheet.width)
        for a, b in lies
        for sheet in problem.sheets
    )


def blocked(problem: CuttingProblem, blocks: Sequence[SetBlock]) -> tuple[CutPart, ...]:
    """Return the parts of the problem with blocks in place of their members."""
    taken = {member.id for one in blocks_by_name(blocks).values() for member in one.members}
    rest = tuple(part for part in problem.parts if part.id not in taken)
    return tuple(one.part for one in blocks) + rest


def blocks_by_name(blocks: Sequence[SetBlock]) -> dict[str, SetBlock]:
    """Return blocks and those within them by the name of their part."""
    by_name = {}
    for one in blocks:
        by_name[one.part.id] = one
        by_name.update(blocks_by_name(one.inner))
    return by_name


def taken_apart(sheet: Sheet, blocks: Mapping[str, SetBlock]) -> Sheet:
    """Replace every block on a sheet by its members, and cut them apart last."""
    while whole := next((piece for piece in sheet.pieces if piece.part in blocks), None):
        sheet = _apart(sheet, whole, blocks[whole.part])
    return sheet


def _apart(sheet: Sheet, whole: Piece, taken: SetBlock) -> Sheet:
    """Cut the members off one after the other, each to its own size.

    The margins between them stay behind: where there are any, the last is cut to size too.
    """
    axis = taken.axis if not whole.turned else 1 - taken.axis
    across, deep = 1 - axis, (whole.length, whole.width)[1 - axis]
    panel = list(panel_of(sheet, whole))
    pieces, cuts = [], list(sheet.cuts)
    for number, member in enumerate(taken.members, start=1):
        size = (member.width, member.length) if whole.turned else (member.length, member.width)
        pieces.append(_piece(member.id, panel, size, turned=whole.turned))
        own, last = list(panel), number == len(taken.members)
        if not last or (sheet.margin and len(taken.members) > 1):
            own[axis + 2] = panel[axis] + size[axis] + (0 if last else sheet.margin)
            cuts.append(_cut(len(cuts) + 1, axis, own[axis + 2], panel, size[axis]))
            panel[axis] = own[axis + 2] + sheet.kerf
        if size[across] < deep:
            at = own[across] + size[across]
            at += sheet.margin if at + sheet.margin < own[across + 2] else 0
            cuts.append(_cut(len(cuts) + 1, across, at, own, size[across]))
    others = tuple(piece for piece in sheet.pieces if piece != whole)
    return sheet.model_copy(update={"pieces": (*others, *pieces), "cuts": tuple(cuts)})


def _piece(part: str, panel: Sequence[Ticks], size: tuple[Ticks, Ticks], *, turned: bool) -> Piece:
    return Piece(part=part, x=panel[X], y=panel[Y], length=size[X], width=size[Y], turned=turned)


def _cut(number: int, axis: int, at: Ticks, panel: Sequence[Ticks], setting: Ticks) -> Cut:
    """Cut a panel from edge to edge, across an axis."""
    along = 1 - axis
    return Cut(
        number=number,
        kind=DIRECTION[axis],
        direction=DIRECTION[axis],
        at=at,
        start=panel[along],
        end=panel[along + 2],
        setting=setting,
    )


def panel_of(sheet: Sheet, piece: Piece) -> tuple[Ticks, Ticks, Ticks, Ticks]:
    """Return the panel (x0, y0, x1, y1) that a piece lies on when all cuts are made [tick]."""
    panel = [0, 0, sheet.length, sheet.width]
    near = piece.x, piece.y
    for cut in sheet.cuts:
        axis = Y if cut.direction == "rip" else X
        along = 1 - axis
        whole = (panel[along], panel[along + 2]) == (cut.start, cut.end)
        if not whole or not panel[axis] - sheet.kerf < cut.at < panel[axis + 2]:
            continue
        if near[axis] < cut.at:
            panel[axis + 2] = cut.at
        else:
            panel[axis] = cut.at + sheet.kerf
    return panel[0], panel[1], panel[2], panel[3]


def keeps_stages(problem: CuttingProblem, sheet: Sheet) -> bool:
    """Return True where the stages allowed, with the first cut of the sheet, free every piece.

    Each stage divides wherever a cut passes. After two stages one more cut may trim a
    piece, so each piece must be alone; after three none may, so all pieces of one column must
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
