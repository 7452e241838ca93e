"""Matched sets: every wish is answered, and a granted one lies as the plan says.

In a plan the wish is the case's, for its shelves; in a cut plan the list of parts names sets.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.checking.have import done
from solver.checking.views import OptionView
from solver.plan import CutPlan
from solver.stocked import MatchedSet, Part, Piece, Sheet
from solver.units import Ticks, to_mm

AXES = {"along": ("x", "length", "y", "width"), "across": ("y", "width", "x", "length")}
"""Where a row runs: place and size in its direction, then place and size across it."""


def of_option(view: OptionView) -> Iterator[Finding]:
    """Check the sets of an option against the cases that wish for them."""
    matched = {case.name for case in view.job.cases if case.matched}
    shelves: dict[str, list[str]] = {}
    there = done(view)
    for part in view.option.parts:
        if part.id not in there and part.case in matched and part.name == "shelf":
            shelves.setdefault(f"{part.case}: shelves", []).append(part.id)
        yield from same(Code.SETS_LISTED, view.where, f"set of {part.id}", None, part.set)
    option = view.option
    yield from _answered(shelves.items(), option.sets, view.where)
    yield from _granted(option.sets, option.sheets, option.parts, view.where)


def of_cut(plan: CutPlan, where: str) -> Iterator[Finding]:
    """Check the sets of a cut plan against the parts that name them, material by material."""
    wished: dict[tuple[str, str, Ticks], list[str]] = {}
    for part in plan.parts:
        if part.set is not None:
            key = part.set, part.material, part.thickness
            wished.setdefault(key, []).append(part.id)
    yield from _answered([(key[0], ids) for key, ids in wished.items()], plan.sets, where)
    yield from _granted(plan.sets, plan.sheets or (), plan.parts, where)


def _answered(
    wished: Iterable[tuple[str, list[str]]], sets: Sequence[MatchedSet], where: str
) -> Iterator[Finding]:
    """Every wish is listed once, with its parts in their order, and nothing else is."""
    needs = sorted((name, tuple(ids)) for name, ids in wished)
    has = sorted((one.name, one.parts) for one in sets)
    yield from same(Code.SETS_LISTED, where, "matched sets", _text(needs), _text(has))


def _text(sets: Sequence[tuple[str, tuple[str, ...]]]) -> str:
    return "; ".join(f"{name} of {', '.join(parts)}" for name, parts in sets) or "none"


def _granted(
    sets: Sequence[MatchedSet], sheets: Sequence[Sheet], parts: Sequence[Part], where: str
) -> Iterator[Finding]:
    turning = {part.id for part in parts if part.grain == "any"}
    for one in sets:
        place = f"{where}, set {one.name}"
        if one.granted:
            lying = _on_sheet(one, sheets)
            if len(lying) < len(one.parts):
                missing = [part for part in one.parts if part not in lying]
                yield finding(
                    Code.SETS_SHEET,
                    place,
                    ", ".join(missing),
                    f"on sheet {one.sheet}",
                    "on another",
                )
            else:
                row = [lying[part] for part in one.parts]
                yield from _in_sequence(one, row, sheets[(one.sheet or 1) - 1], place)
                yield from _one_way(row, turning, place)


def _on_sheet(one: MatchedSet, sheets: Sequence[Sheet]) -> Mapping[str, Piece]:
    """Return those parts of a set that lie on the sheet that it names."""
    if one.sheet is None or not 1 <= one.sheet <= len(sheets):
        return {}
    pieces = {piece.part: piece for piece in sheets[one.sheet - 1].pieces}
    return {part: pieces[part] for part in one.parts if part in pieces}


def _in_sequence(
    one: MatchedSet, row: Sequence[Piece], sheet: Sheet, where: str
) -> Iterator[Finding]:
    """Each part follows the one before it with a cut between, in its row or in the next."""
    at, size, across, depth = AXES[one.laid or "along"]
    start = list(row[:1])
    for before, after in pairwise(row):
        gap = getattr(after, at) - getattr(before, at) - getattr(before, size)
        level = getattr(after, across) == getattr(before, across)
        if level and _a_cut(gap, sheet):
            start.append(after)
            continue
        deepest = max(getattr(piece, depth) for piece in start)
        beside = getattr(after, across) - getattr(before, across) - deepest
        if getattr(after, at) == getattr(start[0], at) and _a_cut(beside, sheet):
            start = [after]
            continue
        yield finding(
            Code.SETS_SEQUENCE,
            where,
            after.part,
            f"next to {before.part}, {one.laid} the sheet",
            f"at {to_mm(after.x)}, {to_mm(after.y)} mm",
        )


def _a_cut(gap: Ticks, sheet: Sheet) -> bool:
    """Whether a gap is a kerf, with no more than the margin beside it."""
    return sheet.kerf <= gap <= sheet.kerf + sheet.margin


def _one_way(row: Sequence[Piece], turning: set[str], where: str) -> Iterator[Finding]:
    """Parts without grain are turned all together, or none is; those with grain keep theirs."""
    turned = [piece.part for piece in row if piece.turned and piece.part in turning]
    if turned and len(turned) < len(row):
        yield finding(
            Code.SETS_SEQUENCE,
            where,
            f"direction of {', '.join(turned)}",
            "that of the others",
            "turned",
        )
