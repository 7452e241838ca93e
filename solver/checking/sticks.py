"""Rules on the pieces of each stick of moulding, whichever command made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from solver.checking.compare import at_least, at_most, same, same_length
from solver.checking.findings import Code, Finding, finding
from solver.stocked import Stick
from solver.units import Ticks, Unit


def each_once(
    sticks: Sequence[Stick], wanted: Mapping[str, Ticks], where: str
) -> Iterator[Finding]:
    """Every moulding part is cut exactly once, and nothing else is."""
    has = Counter(piece.part for stick in sticks for piece in stick.pieces)
    for ident in sorted(wanted.keys() - has.keys()):
        yield finding(Code.STICK_PART_MISSING, where, f"part {ident}", "cut once", "not cut")
    for ident, times in sorted(has.items()):
        if ident not in wanted:
            yield finding(Code.STICK_PART_UNKNOWN, where, f"piece {ident}", "wanted", "not wanted")
        elif times > 1:
            yield finding(
                Code.STICK_PART_REPEATED, where, f"part {ident}", "cut once", f"cut {times} times"
            )


def pieces(stick: Stick, wanted: Mapping[str, Ticks], where: str, unit: Unit) -> Iterator[Finding]:
    """Pieces have their length, lie within the stick, and are a saw cut apart."""
    for piece in stick.pieces:
        place = f"{where}, {piece.part}"
        if piece.part in wanted:
            needs = wanted[piece.part]
            yield from same_length(Code.STICK_LENGTH, place, "length", needs, piece.length, unit)
        end = piece.start + piece.length
        yield from at_least(Code.STICK_OUTSIDE, place, "start", 0, piece.start, unit)
        yield from at_most(Code.STICK_OUTSIDE, place, "end", stick.length, end, unit)
    for one, other in pairwise(sorted(stick.pieces, key=lambda piece: piece.start)):
        room = other.start - one.start - one.length
        place = f"{where}, {one.part}"
        yield from at_least(
            Code.STICK_APART, place, f"room to {other.part}", stick.kerf, room, unit
        )


def moulding(stick: Stick, wanted: Mapping[str, str], where: str) -> Iterator[Finding]:
    """A lip is cut from the moulding ordered for its case; `wanted` names it by part."""
    for piece in stick.pieces:
        if piece.part in wanted:
            yield from same(
                Code.STICK_MOULDING,
                f"{where}, {piece.part}",
                "moulding",
                wanted[piece.part],
                stick.stock,
            )
