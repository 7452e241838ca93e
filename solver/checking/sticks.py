"""Rules on the pieces of each stick of moulding and on its cuts, made one by one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from solver.checking.compare import at_least, at_most, same, same_length
from solver.checking.findings import Code, Finding, finding
from solver.checking.pieces import cut_once
from solver.plan.saw_cuts import StickCut
from solver.plan.stocked import Stick, StickPiece
from solver.units import Ticks, Unit, with_unit


def cuts(stick: Stick, where: str, unit: Unit) -> Iterator[Finding]:
    """Cut the stick in order: each cut frees the next piece, and at the end all are free."""
    if not stick.cuts:
        return
    left = sorted(stick.pieces, key=lambda piece: piece.start)
    at = 0
    for number, cut in enumerate(stick.cuts, start=1):
        place = f"{where}, cut {number}"
        yield from same(Code.STICK_CUT_NUMBER, place, "number", number, cut.number)
        end = "factory end" if at == 0 else "sawn end"
        yield from same(Code.STICK_CUT_END, place, "end at the stop", end, cut.measured_from)
        yield from _freed(cut, left.pop(0) if left else None, at, place, unit)
        at = cut.at + stick.kerf
    whole = len(left) == 1 and (left[0].start, left[0].length) == (at, stick.length - at)
    if left and not whole:
        names = ", ".join(piece.part for piece in left)
        yield finding(Code.STICK_CUT_FREED, where, "pieces cut off", "all", f"all but {names}")


def _freed(
    cut: StickCut, piece: StickPiece | None, at: int, place: str, unit: Unit
) -> Iterator[Finding]:
    """What comes off is the piece that lies there: its name, its place, the stop at its length."""
    if piece is None:
        yield finding(Code.STICK_CUT_FREED, place, "comes off", "a piece", "nothing that is wanted")
        return
    needs = _words(piece.part, piece.start, piece.start + piece.length, piece.length, unit)
    has = _words(cut.part, at, cut.at, cut.setting, unit)
    yield from same(Code.STICK_CUT_FREED, place, "comes off", needs, has)


def _words(part: str, start: int, end: int, setting: int, unit: Unit) -> str:
    spot = f"from {with_unit(start, unit)} to {with_unit(end, unit)}"
    return f"{part} {spot} ({start} to {end} ticks), stop at {setting} ticks"


def stops(sticks: Sequence[Stick], where: str, unit: Unit) -> Iterator[Finding]:
    """Each length has one setting of the stop, the longest first, whatever stick is cut."""
    made = [cut for stick in sticks for cut in stick.cuts]
    lengths = sorted({cut.setting for cut in made}, reverse=True)
    for cut in made:
        if not 1 <= cut.batch <= len(lengths):
            has = str(cut.batch)
            allowed = f"from 1 to {len(lengths)}"
            yield finding(Code.STICK_CUT_STOP, where, f"stop for {cut.part}", allowed, has)
        else:
            yield from same_length(
                Code.STICK_CUT_STOP,
                where,
                f"stop {cut.batch}, for {cut.part}",
                lengths[cut.batch - 1],
                cut.setting,
                unit,
            )


def each_once(
    sticks: Sequence[Stick], wanted: Mapping[str, Ticks], where: str
) -> Iterator[Finding]:
    """Every moulding part is cut exactly once, and nothing else is."""
    has = Counter(piece.part for stick in sticks for piece in stick.pieces)
    codes = Code.STICK_PART_MISSING, Code.STICK_PART_UNKNOWN, Code.STICK_PART_REPEATED
    return cut_once(has, wanted.keys(), where, codes, ("wanted", "not wanted"))


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
