"""What holds the trim, and blocks that come from no moulding."""

from __future__ import annotations

from collections.abc import Iterator

from solver.hardware import kinds
from solver.hardware.needs import Held, Need
from solver.hardware_list import Use
from solver.trimming import TrimPiece
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

NAILS_APART: dict[Unit, Ticks] = {"in": 16 * TICKS_PER_INCH, "mm": 400 * TICKS_PER_MM}
"""Pairs of nails along casing and baseboard: common practice, no source [tick]."""
BRADS_APART: dict[Unit, Ticks] = {"in": 12 * TICKS_PER_INCH, "mm": 300 * TICKS_PER_MM}
"""Brads along scribe strips: common practice, no source [tick]."""
NAIL_SIZE: dict[Unit, str] = {"in": "2 in", "mm": "50 mm"}
BRAD_SIZE: dict[Unit, str] = {"in": "1-1/4 in", "mm": "30 mm"}
SCREW_SIZE: dict[Unit, str] = {"in": "#8 x 1-1/4 in", "mm": "4 x 30 mm"}
"""From inside the case through its edge strip into the back of the casing."""
BLOCK_NAILS = 4
"""To each plinth and corner block [-]."""


def trim_fasteners(held: Held) -> Iterator[Need]:
    """Yield nails, brads and screws of the trim, piece by piece."""
    for piece in held.trim.pieces:
        need = _fastener(held, piece)
        if need is not None:
            yield need


def _fastener(held: Held, piece: TrimPiece) -> Need | None:
    called = "old casing" if piece.got == "there" else f"{piece.name}s"
    unit, use = held.unit, Use(held.case.name, called)
    if piece.name in ("shelf lip", "edge band") or piece.got == "sheet":
        return None
    if piece.name == "scribe strip":
        count = piece.length // BRADS_APART[unit] + 1
        return Need(kinds.BRAD, BRAD_SIZE[unit], count, use, _apart(BRADS_APART[unit], unit))
    if held.case.kind == "hung" and piece.travels:
        count = max(3, piece.length // BRADS_APART[unit] + 1)
        how = _apart(BRADS_APART[unit], unit)
        return Need(kinds.TRIM_SCREW, SCREW_SIZE[unit], count, use, how)
    if piece.name.endswith("block"):
        return Need(kinds.NAIL, NAIL_SIZE[unit], BLOCK_NAILS, use, f"{BLOCK_NAILS} to a block")
    count = 2 * (piece.length // NAILS_APART[unit] + 1)
    how = f"two every {with_unit(NAILS_APART[unit], unit)}"
    return Need(kinds.NAIL, NAIL_SIZE[unit], count, use, how)


def _apart(step: Ticks, unit: Unit) -> str:
    return f"one every {with_unit(step, unit)}"


def blocks(held: Held) -> Iterator[Need]:
    """Yield plinths and corner blocks that are bought or made as blocks."""
    for piece in held.trim.pieces:
        if piece.got != "block":
            continue
        kind = kinds.PLINTH if piece.name.startswith("plinth") else kinds.BLOCK
        sides = (piece.width, piece.length, piece.thickness)
        size = " x ".join(with_unit(side, held.unit).split(" ")[0] for side in sides)
        yield Need(kind, f"{size} {held.unit}", 1, Use(held.case.name, "casing"), "one a leg")
