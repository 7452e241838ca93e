"""Rules on the pieces of each sheet and on matched sets, of an option and of a cut plan alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.guillotine import Rect, can_be_cut
from solver.checking.have import parts_on_hand
from solver.checking.views import OptionView, at_least, at_most, same
from solver.plan.plan import CutPlan
from solver.plan.stocked import MatchedSet, Part, Piece, Sheet
from solver.units import Ticks, Unit, to_mm

AXES = {"along": ("x", "length", "y", "width"), "across": ("y", "width", "x", "length")}
"""Where a row runs: place and size in its direction, then place and size across it."""


def of_option(view: OptionView) -> Iterator[Finding]:
    """Check the sets of an option against the cases that wish for them."""
    matched = {case.name for case in view.job.cases if case.matched}
    shelves: dict[str, list[str]] = {}
    there = parts_on_hand(view)
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


@dataclass(frozen=True)
class SheetView:
    """One sheet of an option or of a cut plan, with the parts that may lie on it."""

    sheet: Sheet
    parts: Mapping[str, Part]
    unit: Unit
    where: str

    @property
    def panel(self) -> Rect:
        """What is left of the sheet when its factory edges are trimmed [tick]."""
        s = self.sheet
        return s.edge_trim, s.edge_trim, s.length - s.edge_trim, s.width - s.edge_trim

    @cached_property
    def sound(self) -> bool:
        """True where every piece is inside the trimmed sheet and a kerf from the others."""
        return not list(outside(self)) and not list(kerf(self))

    def rects(self, margin: int = 0) -> list[Rect]:
        """The pieces as rectangles, each with the margin behind it and beside it [tick]."""
        return [rect(piece, margin) for piece in self.sheet.pieces]


def rect(piece: Piece, margin: int = 0) -> Rect:
    """A piece as a rectangle with its margin [tick]."""
    return (
        piece.x,
        piece.y,
        piece.x + piece.length + margin,
        piece.y + piece.width + margin,
    )


def cut_once(
    has: Counter[str],
    wanted: Set[str],
    where: str,
    codes: tuple[Code, Code, Code],
    unknown: tuple[str, str],
) -> Iterator[Finding]:
    """Whatever is wanted is cut exactly once, and nothing else is.

    Parameters
    ----------
    has
        How often each part is cut [-].
    codes
        Of a part that is missing, of one that nobody wants, of one cut more than once.
    unknown
        What a piece should be, and what it is where nobody wants it.
    """
    missing, stray, repeated = codes
    for ident in sorted(wanted - has.keys()):
        yield finding(missing, where, f"part {ident}", "cut once", "not cut")
    for ident, times in sorted(has.items()):
        if ident not in wanted:
            yield finding(stray, where, f"piece {ident}", *unknown)
        elif times > 1:
            yield finding(repeated, where, f"part {ident}", "cut once", f"cut {times} times")


def each_once(sheets: Sequence[Sheet], parts: Mapping[str, Part], where: str) -> Iterator[Finding]:
    """Every part is cut exactly once, and nothing else is."""
    has = Counter(piece.part for sheet in sheets for piece in sheet.pieces)
    codes = Code.CUT_PART_MISSING, Code.CUT_PART_UNKNOWN, Code.CUT_PART_REPEATED
    return cut_once(has, parts.keys(), where, codes, ("a part", "none listed"))


def _pairs(view: SheetView) -> Iterator[tuple[Piece, Part]]:
    for piece in view.sheet.pieces:
        if piece.part in view.parts:
            yield piece, view.parts[piece.part]


def material(view: SheetView) -> Iterator[Finding]:
    """A part is cut from a sheet of its own material."""
    for piece, part in _pairs(view):
        if part.material != view.sheet.material:
            yield finding(
                Code.CUT_MATERIAL,
                f"{view.where}, {piece.part}",
                "material of the sheet",
                part.material,
                view.sheet.material,
            )


def size(view: SheetView) -> Iterator[Finding]:
    """A piece is as large as its part, with length and width changed round where it is turned."""
    for piece, part in _pairs(view):
        needs = (part.width, part.length) if piece.turned else (part.length, part.width)
        if needs != (piece.length, piece.width):
            yield finding(
                Code.CUT_SIZE,
                f"{view.where}, {piece.part}",
                "length x width",
                f"{to_mm(needs[0])} x {to_mm(needs[1])} mm",
                f"{to_mm(piece.length)} x {to_mm(piece.width)} mm",
            )


def turned(view: SheetView) -> Iterator[Finding]:
    """A part lies with its grain along the sheet's."""
    for piece, part in _pairs(view):
        across = {"length": False, "width": True, "any": piece.turned}[part.grain]
        if piece.turned != across:
            yield finding(
                Code.CUT_TURNED,
                f"{view.where}, {piece.part}",
                f"direction (grain {part.grain})",
                "turned" if across else "as it is",
                "turned" if piece.turned else "as it is",
            )


def outside(view: SheetView) -> Iterator[Finding]:
    """No piece reaches into the edges that are trimmed off."""
    low_x, low_y, high_x, high_y = view.panel
    for piece in view.sheet.pieces:
        where, code = f"{view.where}, {piece.part}", Code.CUT_OUTSIDE
        yield from at_least(code, where, "x", low_x, piece.x, view.unit)
        yield from at_least(code, where, "y", low_y, piece.y, view.unit)
        yield from at_most(code, where, "far end", high_x, rect(piece)[2], view.unit)
        yield from at_most(code, where, "far edge", high_y, rect(piece)[3], view.unit)


def kerf(view: SheetView) -> Iterator[Finding]:
    """Between two pieces a whole saw cut passes, along or across."""
    for one, other in combinations(view.sheet.pieces, 2):
        a, b = rect(one), rect(other)
        apart = max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])
        yield from at_least(
            Code.CUT_KERF,
            f"{view.where}, {one.part}",
            f"room to {other.part}",
            view.sheet.kerf,
            apart,
            view.unit,
        )


def guillotine(view: SheetView) -> Iterator[Finding]:
    """Edge-to-edge cuts free every piece."""
    if view.sound and not can_be_cut(view.rects(), view.sheet.kerf):
        yield finding(
            Code.CUT_GUILLOTINE,
            view.where,
            "pattern",
            "free by edge-to-edge cuts",
            "one that such cuts run through",
        )


def margin(view: SheetView) -> Iterator[Finding]:
    """With the margin added to every strip and piece, all of it still fits and can be cut."""
    spaced = view.rects(view.sheet.margin)
    fits = all(r[2] <= view.panel[2] and r[3] <= view.panel[3] for r in spaced)
    cuttable = can_be_cut(spaced, view.sheet.kerf)
    if view.sound and can_be_cut(view.rects(), view.sheet.kerf) and not (fits and cuttable):
        yield finding(
            Code.CUT_MARGIN,
            view.where,
            "pattern with the margin added to each piece",
            f"inside the trimmed sheet and free by cuts, with {to_mm(view.sheet.margin)} mm",
            "too tight",
        )


RULES = (material, size, turned, outside, kerf, guillotine, margin)
"""All rules on one sheet's pieces."""
