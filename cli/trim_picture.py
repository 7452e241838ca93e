"""A set of casing seen from the room, in text."""

from __future__ import annotations

from collections.abc import Sequence

from solver.trimming import TrimPiece

WIDEST, HIGHEST = 44, 22
"""Most columns and lines of a picture [-]."""
TALL = 2
"""A character is about so many times as high as it is wide [-]."""
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


def picture(pieces: Sequence[TrimPiece], *, plain: bool, hung: bool = False) -> list[str]:
    """Draw the pieces that have a place, each filled with a letter, and the list of letters.

    `plain` keeps to signs that any terminal has; of a hung case the list says what travels.
    Empty where no piece has a place.
    """
    drawn = [piece for piece in pieces if piece.x is not None and piece.y is not None]
    if not drawn:
        return []
    boxes = [_box(piece) for piece in drawn]
    left, low = min(b[0] for b in boxes), 0
    right, high = max(b[2] for b in boxes), max(b[3] for b in boxes)
    scale = max((right - left) / WIDEST, (high - low) / (HIGHEST * TALL))
    wide, tall = round((right - left) / scale), round((high - low) / (scale * TALL))
    grid = [[" "] * wide for _ in range(tall)]
    named = _letters(drawn)
    for piece, box in zip(drawn, boxes, strict=True):
        columns = _span(box[0] - left, box[2] - left, scale, wide)
        lines = _span(high - box[3], high - box[1], scale * TALL, tall)
        for line in lines:
            for column in columns:
                grid[line][column] = named[piece.name, piece.travels]
    floor = ("-" if plain else "─") * wide
    legend = [
        f"{letter} {name}{', travels with the case' if travels and hung else ''}"
        for (name, travels), letter in named.items()
    ]
    return ["".join(row).rstrip() for row in grid] + [f"{floor} floor", "", *legend]


def _box(piece: TrimPiece) -> tuple[int, int, int, int]:
    assert piece.x is not None
    assert piece.y is not None
    wide, high = piece.width, piece.length
    if piece.across:
        wide, high = high, wide
    return piece.x, piece.y, piece.x + wide, piece.y + high


def _span(start: int, end: int, scale: float, most: int) -> range:
    """The columns or lines that a piece takes, at least one."""
    first = min(round(start / scale), most - 1)
    return range(first, min(max(round(end / scale), first + 1), most))


def _letters(pieces: Sequence[TrimPiece]) -> dict[tuple[str, bool], str]:
    kinds = dict.fromkeys((piece.name, piece.travels) for piece in pieces)
    return dict(zip(kinds, LETTERS, strict=False))
