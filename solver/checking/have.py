"""Rules on pieces on hand: what is used exists, is large enough, and is used once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import permutations

from solver.checking.findings import Code, Finding, finding
from solver.checking.trim import moulded
from solver.checking.views import OptionView, same
from solver.job.have import SIZE_TOLERANCE, Have, shelf_of, stock_name
from solver.plan.on_hand import UsedPiece, is_moulding, material_of, size_of
from solver.plan.stocked import Part, Sheet, Stick
from solver.units import Ticks, Unit, with_unit

Size = tuple[Ticks, Ticks]
HOW: Mapping[str, tuple[str, ...]] = {
    "cut": ("as it is", "cut down"),
    "short": ("as it is",),
    "spoiled": ("as it is",),
    "offcut": ("as it is",),
    "sheet": ("as it is",),
    "fixed": ("fixed",),
}
"""How what is there may serve for a part, by what it is."""


@dataclass(frozen=True)
class PieceOnHand:
    """A piece on hand as stock: its material and size, whether it is clean, how many."""

    material: str
    size: Size
    clean: bool
    count: int


def used(view: OptionView) -> tuple[UsedPiece, ...]:
    """What the option uses as parts."""
    return view.option.have.used if view.option.have else ()


def parts_on_hand(view: OptionView) -> set[str]:
    """Ids of the parts that are there, so that no sheet or stick carries them."""
    return {one.part for one in used(view)}


def pieces_on_hand(view: OptionView) -> dict[str, PieceOnHand]:
    """Pieces on hand, and rests of those that are cut down, by their names as stock."""
    pieces: dict[str, PieceOnHand] = {}
    for number, have in enumerate(view.job.have, start=1):
        size = size_of(view.job, have)
        if size is not None and have.what != "fixed":
            material = material_of(view.job, have)
            name = stock_name(have, number)
            pieces[name] = PieceOnHand(material, size, have.is_clean, have.count)
    return pieces


def _rests(view: OptionView) -> Counter[tuple[str, Size]]:
    """Rests of pieces that are cut down, by name and size."""
    return Counter(
        (f"rest of {stock_name(view.job.have[one.have - 1], one.have)}", (r.length, r.width))
        for one in used(view)
        if 0 < one.have <= len(view.job.have)
        for r in one.rests
    )


def is_there(view: OptionView, sheet: Sheet) -> bool:
    """Whether a sheet of the plan is a piece on hand."""
    names = {*pieces_on_hand(view), *(name for name, _ in _rests(view))}
    return sheet.on_hand and sheet.stock in names


def outcome(view: OptionView) -> Iterator[Finding]:
    """An option says what came of the pieces on hand exactly where the job lists some."""
    needs, has = bool(view.job.have), view.option.have is not None
    yield from same(Code.HAVE_OUTCOME, view.where, "use of what is there told", needs, has)


def _known(view: OptionView) -> Iterator[tuple[str, UsedPiece, Have]]:
    for one in used(view):
        if 0 < one.have <= len(view.job.have):
            yield f"{view.where}, part {one.part}", one, view.job.have[one.have - 1]


def exists(view: OptionView) -> Iterator[Finding]:
    """What is used is listed, and may be used so."""
    for one in used(view):
        if not 0 < one.have <= len(view.job.have):
            most = f"from 1 to {len(view.job.have)}"
            yield finding(Code.HAVE_UNKNOWN, view.where, "number of [[have]]", most, f"{one.have}")
    for where, one, have in _known(view):
        if one.how not in HOW[have.what]:
            needs = " or ".join(HOW[have.what])
            yield finding(Code.HAVE_UNKNOWN, where, f"use of {have.what}", needs, one.how)


def numbers(view: OptionView) -> Iterator[Finding]:
    """No piece is used twice, and those not used are told as left."""
    if view.option.have is None:
        return
    taken = Counter(one.have for one in used(view))
    names = Counter(sheet.stock for sheet in view.option.sheets if sheet.on_hand)
    left = {one.have: one.count for one in view.option.have.left}
    for number, have in enumerate(view.job.have, start=1):
        if is_moulding(view.job, material_of(view.job, have)):
            continue
        gone = have.what == "spoiled" and size_of(view.job, have) is None
        has = taken[number] + names[stock_name(have, number)] + left.get(number, 0)
        needs = 0 if gone else have.count
        where = f"{view.where}, have {number}"
        yield from same(Code.HAVE_COUNT, where, "pieces used and left", needs, has)
    rests = Counter((s.stock, (s.length, s.width)) for s in view.option.sheets if s.on_hand)
    known = _rests(view)
    for key, number in rests.items():
        if key[0].startswith("rest of ") and number > known[key]:
            yield finding(
                Code.HAVE_COUNT, f"{view.where}, {key[0]}", "number", f"{known[key]}", f"{number}"
            )


def once(view: OptionView) -> Iterator[Finding]:
    """A part that a piece serves for is a part of the job, of its material, and served once."""
    parts = {part.id: part.material for part in view.option.parts}
    parts |= {i: name for case in view.cases for i, (name, _) in moulded(case).items()}
    times = Counter(one.part for one in used(view))
    for where, one, have in _known(view):
        needs, has = parts.get(one.part), material_of(view.job, have)
        yield from same(Code.HAVE_PART, where, "material", needs, has)
    for ident, number in times.items():
        if number > 1:
            yield finding(Code.HAVE_PART, f"{view.where}, part {ident}", "pieces", "1", f"{number}")


def sizes(view: OptionView) -> Iterator[Finding]:
    """A part that is used as it is has its size, one that is cut down is at least as large.

    One that was not measured serves for the part, or the kind of part, that it is.
    """
    parts = {part.id: part for part in view.option.parts}
    lengths = {i: length for case in view.cases for i, (_, length) in moulded(case).items()}
    for where, one, have in _known(view):
        part = parts.get(one.part)
        size, needs = size_of(view.job, have), _needs(part, lengths.get(one.part))
        if needs is None:
            continue
        if size is None:
            kind = have.part_case, have.part_kind
            of_kind = part is not None and have.what == "cut" and kind == (part.case, part.name)
            of_kind = of_kind or (part is None and one.part.startswith(f"{have.name}-"))
            if have.name != one.part and not of_kind:
                yield finding(Code.HAVE_SIZE, where, "part not measured", str(have.name), one.part)
            continue
        yield from _large_enough(where, one, _laid(size, part), needs, view.unit)


def _needs(part: Part | None, lip: Ticks | None) -> Size | None:
    if part is not None:
        return part.length, part.width
    return None if lip is None else (lip, 0)


def _laid(size: Size, part: Part | None) -> Size:
    """A piece without grain the way round in which it serves."""
    if part is None:
        return size[0], 0
    return (max(size), min(size)) if part.grain == "any" else size


def _large_enough(
    where: str, one: UsedPiece, size: Size, needs: Size, unit: Unit
) -> Iterator[Finding]:
    under = [n - s for s, n in zip(size, needs, strict=True)]
    over = [s - n for s, n in zip(size, needs, strict=True)]
    if max(under) > SIZE_TOLERANCE or (one.how != "cut down" and max(over) > SIZE_TOLERANCE):
        texts = [" x ".join(with_unit(side, unit) for side in pair) for pair in (needs, size)]
        least = "at least " if one.how == "cut down" else ""
        yield finding(Code.HAVE_SIZE, where, "size", f"{least}{texts[0]}", texts[1])


def rests(view: OptionView) -> Iterator[Finding]:
    """What is left of a piece that is cut down is what a crosscut and a rip leave of it."""
    parts = {part.id: part for part in view.option.parts}
    for where, one, have in _known(view):
        size, part = size_of(view.job, have), parts.get(one.part)
        if not one.rests or size is None or part is None:
            continue
        has = [(rest.length, rest.width) for rest in one.rests]
        if not any(set(has) <= set(way) for way in _ways(_laid(size, part), part, view)):
            yield finding(
                Code.HAVE_REST, where, "rests", "those of a crosscut and a rip", f"{has} ticks"
            )


def _ways(size: Size, part: Part, view: OptionView) -> Iterator[tuple[Size, Size]]:
    kerf, needs = view.job.shop.kerf, (part.length, part.width)
    for first, second in permutations((0, 1)):
        whole, rest = list(size), list(size)
        whole[first] = size[first] - needs[first] - kerf
        rest[first], rest[second] = needs[first], size[second] - needs[second] - kerf
        yield (whole[0], whole[1]), (rest[0], rest[1])


def stock(view: OptionView) -> Iterator[Finding]:
    """A piece that is cut has the size and material that it has, and its trim where not clean."""
    known, left, shop = pieces_on_hand(view), _rests(view), view.job.shop
    for number, sheet in enumerate(view.option.sheets, start=1):
        if not is_there(view, sheet):
            continue
        where = f"{view.where}, sheet {number} ({sheet.stock})"
        size, piece = (sheet.length, sheet.width), known.get(sheet.stock)
        if piece is not None:
            needs: object = (piece.material, piece.size)
        else:
            needs = (sheet.material, size if (sheet.stock, size) in left else "one of its rests")
        yield from same(
            Code.HAVE_STOCK, where, "material and size [tick]", needs, (sheet.material, size)
        )
        trim = shop.edge_trim if piece is not None and not piece.clean else 0
        cut = sheet.kerf, sheet.edge_trim, sheet.margin
        what = "kerf, edge trim and margin [tick]"
        yield from same(Code.HAVE_STOCK, where, what, (shop.kerf, trim, shop.margin), cut)


def marks(view: OptionView) -> Iterator[Finding]:
    """A shelf that is fixed keeps its mark."""
    for have in view.job.have:
        shelf = shelf_of(have)
        if have.mark is None or shelf is None:
            continue
        for bay in view.bays:
            if bay.case.case.name != have.part_case or bay.bay.number != (shelf[0] or 1):
                continue
            for one in bay.bay.shelves:
                if one.index == shelf[1]:
                    where = f"{bay.where}, shelf {one.index}"
                    yield from same(Code.HAVE_MARK, where, "mark [tick]", have.mark, one.underside)


def again(view: OptionView) -> Iterator[Finding]:
    """Parts that were spoiled or found short, and are not there otherwise, are cut again."""
    if view.option.have is None:
        return
    ids = {part.id for part in view.option.parts}
    ids |= {ident for case in view.cases for ident in moulded(case)}
    lost = {have.name for have in view.job.have if have.what in ("short", "spoiled")}
    needs = sorted(name for name in lost if name in ids - parts_on_hand(view))
    has = sorted(view.option.have.again)
    yield from same(Code.HAVE_AGAIN, view.where, "parts cut again", needs, has)


def stick_lengths(view: OptionView) -> Counter[tuple[str, Ticks]]:
    """How many pieces of which moulding and length are there."""
    pieces: Counter[tuple[str, Ticks]] = Counter()
    for number, have in enumerate(view.job.have, start=1):
        material, size = material_of(view.job, have), size_of(view.job, have)
        if size is not None and is_moulding(view.job, material):
            taken = sum(one.have == number for one in used(view))
            pieces[material, size[0]] += max(0, have.count - taken)
    return pieces


def is_stick_there(view: OptionView, stick: Stick) -> bool:
    """Whether a stick of the plan may be a piece on hand."""
    return stick.on_hand and stick_lengths(view)[stick.stock, stick.length] > 0


RULES = (outcome, exists, numbers, once, sizes, rests, stock, marks, again)
"""All rules on what is there."""
