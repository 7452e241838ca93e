"""Slack: room left in sheets and sticks, for a sheet under size or a kerf that wanders.

It is worked out from where the pieces lie, never from how the plan was found. The first cuts
divide a sheet into strips, the next divide each strip into rows of pieces; what is left
of the trimmed sheet, beyond the pieces and one kerf between neighbours, is its slack. The
margin kept with each piece is part of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from solver.plan.slack_and_advice import SheetSlack, StripSlack
from solver.plan.stocked import Piece, Sheet, Stick
from solver.units import Ticks, Unit, inches, mm

ALONG, ACROSS = 0, 1
"""Directions: along the sheet's length, across it."""

TIGHT: dict[Unit, Ticks] = {"in": inches("1/16"), "mm": mm(1)}
"""Less slack than this is too little: sheets and kerfs vary by as much [tick]."""


def with_slack(sheet: Sheet) -> Sheet:
    """Return the sheet with its slack stated."""
    return sheet.model_copy(update={"slack": sheet_slack(sheet)})


def stick_with_slack(stick: Stick) -> Stick:
    """Return the stick with its slack stated."""
    return stick.model_copy(update={"slack": stick_slack(stick)})


def sheet_slack(sheet: Sheet) -> SheetSlack:
    """Return the room left beside the strips of a sheet and along each of them [tick].

    Strips are those that cuts of the sheet's first kind make, in order from the factory corner.
    """
    first = ACROSS if sheet.first_cut == "rip" else ALONG
    rooms = (sheet.length - 2 * sheet.edge_trim, sheet.width - 2 * sheet.edge_trim)
    strips = divide(sheet.pieces, first, sheet.kerf)
    across = _left(rooms[first], strips, first, sheet.kerf)
    found = tuple(_strip(strip, first, rooms[1 - first], sheet.kerf) for strip in strips)
    return SheetSlack(
        across=across, strips=found, least=min(across, *(strip.along for strip in found))
    )


def _strip(pieces: Sequence[Piece], first: int, room: Ticks, kerf: Ticks) -> StripSlack:
    rows = divide(pieces, 1 - first, kerf)
    size = extent(pieces, first)
    stacked = [some for row in rows if len(some := divide(row, first, kerf)) > 1]
    return StripSlack(
        parts=tuple(piece.part for piece in pieces),
        size=size,
        along=_left(room, rows, 1 - first, kerf),
        rows=min((_left(size, some, first, kerf) for some in stacked), default=None),
    )


def stick_slack(stick: Stick) -> Ticks:
    """Return what a stick has left after its pieces and the cuts between them [tick]."""
    taken = sum(piece.length for piece in stick.pieces)
    return stick.length - taken - stick.kerf * max(0, len(stick.pieces) - 1)


def least_slack(sheets: Iterable[Sheet], sticks: Iterable[Stick]) -> Ticks | None:
    """Return the least slack of any sheet or stick [tick]; None where there is neither."""
    rooms = [sheet_slack(sheet).least for sheet in sheets]
    return min([*rooms, *(stick_slack(stick) for stick in sticks)], default=None)


def divide(pieces: Sequence[Piece], way: int, kerf: Ticks) -> list[list[Piece]]:
    """Divide pieces in one direction wherever a whole saw cut passes between them."""
    ordered = sorted(pieces, key=lambda piece: (_start(piece, way), _start(piece, 1 - way)))
    if not ordered:
        return []
    groups, end = [[ordered[0]]], _end(ordered[0], way)
    for piece in ordered[1:]:
        if _start(piece, way) - end >= kerf:
            groups.append([])
        groups[-1].append(piece)
        end = max(end, _end(piece, way))
    return groups


def extent(pieces: Sequence[Piece], way: int) -> Ticks:
    """Return how far pieces reach in one direction [tick]."""
    return max(_end(p, way) for p in pieces) - min(_start(p, way) for p in pieces)


def _left(room: Ticks, groups: Sequence[Sequence[Piece]], way: int, kerf: Ticks) -> Ticks:
    taken = sum(extent(group, way) for group in groups)
    return room - taken - kerf * max(0, len(groups) - 1)


def _start(piece: Piece, way: int) -> Ticks:
    return piece.x if way == ALONG else piece.y


def _end(piece: Piece, way: int) -> Ticks:
    return piece.x + piece.length if way == ALONG else piece.y + piece.width
