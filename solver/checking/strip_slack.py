"""Rules on slack, and on sticks of moulding: their pieces, and their cuts made one by one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import TypeAlias

from solver.checking.findings import Code, Finding, finding
from solver.checking.guillotine import Rect, X, Y, divide
from solver.checking.pieces import SheetView, cut_once, rect
from solver.checking.views import at_least, at_most, same, same_length
from solver.plan.saw_cuts import StickCut
from solver.plan.stocked import Sheet, Stick, StickPiece
from solver.units import Ticks, Unit, to_mm, with_unit

Strip: TypeAlias = tuple[frozenset[str], Ticks, Ticks, Ticks | None]
"""Parts, size across, room along, least room of its rows."""


def sheet(view: SheetView) -> Iterator[Finding]:
    """The slack stated for a sheet is what gaps and kerfs leave beside and along its strips."""
    slack = view.sheet.slack
    if slack is None or not view.sheet.pieces:
        return
    axis = Y if view.sheet.first_cut == "rip" else X
    groups = divide(view.rects(), axis, view.sheet.kerf)
    across = _free(view, groups, axis)
    yield from same_length(
        Code.CUT_SLACK, view.where, "slack beside the strips", across, slack.across, view.unit
    )
    needs = [_strip(view, group, axis) for group in groups]
    has = [(frozenset(s.parts), s.size, s.along, s.rows) for s in slack.strips]
    for number, (one, other) in enumerate(zip(needs, has, strict=False), start=1):
        if one != other:
            yield finding(
                Code.CUT_SLACK, f"{view.where}, strip {number}", "slack", _text(one), _text(other)
            )
    if len(needs) != len(has):
        yield finding(
            Code.CUT_SLACK, view.where, "strips with slack", str(len(needs)), str(len(has))
        )
    least = min(across, *(strip[2] for strip in needs))
    yield from same_length(Code.CUT_SLACK, view.where, "least slack", least, slack.least, view.unit)


def _text(strip: Strip) -> str:
    """A strip in exact figures, with what it holds."""
    parts, *rooms = strip
    figures = ", ".join("none" if room is None else f"{to_mm(room)} mm" for room in rooms)
    return f"{figures} ({', '.join(sorted(parts))})"


def _strip(view: SheetView, group: Sequence[Rect], axis: int) -> Strip:
    kerf = view.sheet.kerf
    rows = divide(group, 1 - axis, kerf)
    low, high = _span(group, axis)
    shared = [divide(row, axis, kerf) for row in rows]
    rooms = [_gaps(some, axis, (low, high), kerf) for some in shared if len(some) > 1]
    named = frozenset(piece.part for piece in view.sheet.pieces if rect(piece) in group)
    return named, high - low, _free(view, rows, 1 - axis), min(rooms, default=None)


def _free(view: SheetView, groups: Sequence[Sequence[Rect]], axis: int) -> Ticks:
    """What the trimmed sheet has left in one direction beside groups of pieces [tick]."""
    panel = view.panel
    return _gaps(groups, axis, (panel[axis], panel[axis + 2]), view.sheet.kerf)


def _gaps(
    groups: Sequence[Sequence[Rect]], axis: int, between: tuple[Ticks, Ticks], kerf: Ticks
) -> Ticks:
    """Add up the gaps before, between and after groups, those between less a kerf [tick]."""
    at, free = between[0], 0
    for number, group in enumerate(groups):
        low, high = _span(group, axis)
        free += low - at - (kerf if number else 0)
        at = high
    return free + between[1] - at


def _span(group: Sequence[Rect], axis: int) -> tuple[Ticks, Ticks]:
    return min(r[axis] for r in group), max(r[axis + 2] for r in group)


def stick(one: Stick, where: str, unit: Unit) -> Iterator[Finding]:
    """The slack stated for a stick is what its pieces and the cuts between them leave."""
    if one.slack is not None:
        yield from same_length(Code.STICK_SLACK, where, "slack", stick_free(one), one.slack, unit)


def stick_margin(one: Stick, margin: Ticks, where: str, unit: Unit) -> Iterator[Finding]:
    """The margin [tick] is left of a stick for each of its pieces."""
    needs, has = margin * len(one.pieces), stick_free(one)
    yield from at_least(Code.STICK_MARGIN, where, "left for the margins", needs, has, unit)


def stick_free(one: Stick) -> Ticks:
    """Return what the pieces of a stick and the cuts between them leave [tick]."""
    cuts = one.kerf * (len(one.pieces) - 1) if one.pieces else 0
    return one.length - cuts - sum(piece.length for piece in one.pieces)


def least(
    sheets: Sequence[Sheet],
    sticks: Sequence[Stick],
    stated: Ticks | None,
    where: str,
    unit: Unit,
) -> Iterator[Finding]:
    """The least slack of a plan is that of its tightest sheet or stick."""
    rooms = [one.slack.least for one in sheets if one.slack is not None]
    rooms += [one.slack for one in sticks if one.slack is not None]
    if stated is None:
        return
    if len(rooms) < len(sheets) + len(sticks) or not rooms:
        yield finding(
            Code.CUT_SLACK_LEAST, where, "slack", "stated for every sheet and stick", "missing"
        )
        return
    yield from same_length(
        Code.CUT_SLACK_LEAST, where, "least slack of all", min(rooms), stated, unit
    )


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
    cuts = [cut for stick in sticks for cut in stick.cuts]
    lengths = sorted({cut.setting for cut in cuts}, reverse=True)
    for cut in cuts:
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
