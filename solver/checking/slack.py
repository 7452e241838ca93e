"""Rules on the slack that a plan states: restated from where the pieces lie."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

from solver.checking.compare import at_least, same_length
from solver.checking.findings import Code, Finding, finding
from solver.checking.guillotine import Rect, X, Y, divide
from solver.checking.pieces import SheetView, rect
from solver.plan.stocked import Sheet, Stick
from solver.units import Ticks, Unit, to_mm

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
