"""Sheets and sticks of a plan as lines of the buy list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.plan.bought import BuyLine
from solver.plan.plan import Option
from solver.plan.stocked import Sheet, Stick
from solver.units import Unit, with_unit

SHARE = "share of the batch"
"""What a job pays of the sheets and mouldings that it buys together with others."""


def sheet_lines(option: Option, unit: Unit) -> Iterator[BuyLine]:
    """Yield a line for each size of sheet; for a job of a batch its share of all its stock."""
    if option.shared is not None and option.cost is not None:
        sheets, sticks = option.pieces
        yield BuyLine(
            key=SHARE,
            what="share of the batch, its sheets and mouldings",
            place="sheets",
            counted="each",
            need=1,
            packs=1,
            why=("bought together with other jobs",),
            of=(*sheets, *sticks),
            each=option.cost.total if option.cost.complete else None,
            priced_by="job" if option.cost.complete else None,
        )
    for name in dict.fromkeys(sheet.stock for sheet in option.sheets):
        alike = [sheet for sheet in option.sheets if sheet.stock == name]
        size = f"{with_unit(alike[0].length, unit)} x {with_unit(alike[0].width, unit)}"
        pieces = [piece.part for sheet in alike for piece in sheet.pieces]
        yield _line(f"sheet {name}", name, size, alike, pieces)


def stick_lines(option: Option, unit: Unit) -> Iterator[BuyLine]:
    """Yield a line for each length of each moulding."""
    sizes = dict.fromkeys((stick.stock, stick.length) for stick in option.mouldings)
    for name, length in sizes:
        alike = [one for one in option.mouldings if (one.stock, one.length) == (name, length)]
        size = with_unit(length, unit)
        pieces = [piece.part for stick in alike for piece in stick.pieces]
        yield _line(f"{name}, {size}", name, size, alike, pieces)


def _line(
    key: str, name: str, size: str, alike: Sequence[Sheet] | Sequence[Stick], pieces: list[str]
) -> BuyLine:
    is_sheet = isinstance(alike[0], Sheet)
    there = sum(one.on_hand for one in alike)
    return BuyLine(
        key=key,
        what=name,
        size=size,
        place="sheets" if is_sheet else "mouldings",
        counted="sheet" if is_sheet else "stick",
        need=len(alike),
        on_hand=there,
        packs=len(alike) - there,
        why=uses(pieces),
        of=tuple(pieces),
        each=next((one.price for one in alike if not one.on_hand), None),
        priced_by="job" if any(one.price is not None for one in alike) else None,
    )


def uses(pieces: Sequence[str]) -> tuple[str, ...]:
    """Say which parts come out of it, alike ones counted: `spice case: 2 sides, back`."""
    cases: dict[str, dict[str, int]] = {}
    for piece in pieces:
        case, _, rest = piece.rpartition("/")
        kinds = cases.setdefault(case, {})
        kind = _kind(rest)
        kinds[kind] = kinds.get(kind, 0) + 1
    return tuple(
        f"{case}: " * bool(case) + ", ".join(_counted(kind, n) for kind, n in kinds.items())
        for case, kinds in cases.items()
    )


_TRIM = {
    "leg": "casing leg",
    "head": "head casing",
    "plinth": "plinth block",
    "block": "corner block",
    "base": "baseboard piece",
    "scribe": "scribe strip",
    "band": "edge band",
}
"""Trim by the second word of its id."""


def _kind(name: str) -> str:
    """Return shelf of bay-2-shelf-3, side of side-left, casing leg of casing-leg-left."""
    if name.startswith("trim-"):
        return _TRIM.get(name.split("-")[1], "trim")
    if name.startswith("lip-"):
        return "lip"
    words = [word for word in name.split("-") if not word.isdigit()]
    drop = {"bay", "left", "right"}
    return " ".join(word for word in words if word not in drop) or name


def _counted(kind: str, count: int) -> str:
    if count == 1:
        return kind
    plural = f"{kind[:-1]}ves" if kind.endswith("f") else f"{kind}s"
    return f"{count} {plural}"
