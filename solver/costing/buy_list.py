"""The buy list: sheets, sticks and hardware of a plan, less what is on hand, priced by the pack."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence
from decimal import Decimal

from solver.costing.hardware import hardware_list
from solver.costing.joint_hardware import SQUARE_METRE
from solver.job.job import Job
from solver.job.price_terms import ListPrice, PriceList
from solver.plan.bought import BuyLine, BuyList, SheetUse
from solver.plan.plan import Option
from solver.plan.stocked import Sheet, Stick
from solver.trim.trim_pieces import with_waste
from solver.units import Unit, with_unit

USUAL = Decimal("0.15")
"""Waste of cabinet shops on average, sheet and solid together: woodweb.com Woodshop Waste
Percentage [-]."""


def buy_list(job: Job, option: Option, prices: PriceList | None = None) -> BuyList:
    """Return everything to buy for an option.

    Sheets and sticks are those of the plan, which has taken off what is on hand of them; for the
    rest the price list says what is on hand. A price of the job goes before one of the list, since
    the plan was made with it.

    Raises
    ------
    InputError
        Where the price list is in another currency than the job.
    """
    price_list = prices or PriceList()
    price_list.refuse_other_currency(job.head.currency)
    stock = (*sheet_lines(option, job.unit), *stick_lines(option, job.unit))
    lines = (
        *(_stock_priced(line, price_list) for line in stock),
        *_hardware_priced(list(hardware_lines(job, option)), price_list),
    )
    total = sum((line.amount for line in lines if line.amount is not None), Decimal(0))
    return BuyList(
        option=option.name,
        currency=job.head.currency,
        lines=lines,
        total=total,
        uses=tuple(sheet_uses(option)),
        near=tuple(_similar_names([line.named for line in lines if line.missing], price_list)),
        note=price_list.note,
    )


def waste(need: Decimal, bought: Decimal) -> Decimal:
    """Share of what is bought that is not used [-]; both in one unit, `bought` above 0."""
    return 1 - need / bought


def sheet_uses(option: Option) -> Iterator[SheetUse]:
    """Yield, for each material, how much of its sheets is used."""
    for material in dict.fromkeys(sheet.material for sheet in option.sheets):
        sheets = [sheet for sheet in option.sheets if sheet.material == material]
        need = sum(piece.length * piece.width for sheet in sheets for piece in sheet.pieces)
        there = sum(sheet.length * sheet.width for sheet in sheets)
        each = Decimal(there) / len(sheets)
        yield SheetUse(
            material=material,
            sheets=len(sheets),
            need=_square_metres(need),
            area=_square_metres(there),
            waste=waste(Decimal(need), Decimal(there)).quantize(Decimal("0.01")),
            by_area=(Decimal(with_waste(need, USUAL)) / each).quantize(Decimal("0.1")),
        )


def _square_metres(ticks: int) -> Decimal:
    return (Decimal(ticks) / SQUARE_METRE).quantize(Decimal("0.01"))


def hardware_lines(job: Job, option: Option) -> Iterator[BuyLine]:
    """Yield a line for each kind and size, spares counted in."""
    for line in hardware_list(job, option):
        yield BuyLine(
            key=line.key,
            what=line.what,
            size=line.size,
            place=line.at,
            counted=line.counted,
            need=line.need + line.spare,
            spare=line.spare,
            pack=line.pack,
            packs=line.packs,
            why=tuple(use.text for use, _ in line.uses),
        )


def _similar_names(missing: list[str], price_list: PriceList) -> Iterator[str]:
    """Yield names of the price list that are close to something without a price."""
    names = [price.item for price in price_list.prices]
    for what in missing:
        for name in difflib.get_close_matches(what, names, n=1, cutoff=0.7):
            yield f"the price list has {name!r}; is {what!r} meant"


def _stock_priced(line: BuyLine, price_list: PriceList) -> BuyLine:
    """Put a price into a sheet or stick that the job gives none for."""
    listed = price_list.of(line.key, line.named, line.what)
    if line.each is None and listed is not None and listed.price is not None:
        line = line.model_copy(update={"each": listed.price, "priced_by": "price list"})
    return _with_amount(line)


def _hardware_priced(lines: list[BuyLine], price_list: PriceList) -> Iterator[BuyLine]:
    """Yield lines less what is on hand, counting each piece of it once, with packs and prices."""
    left: dict[str, int] = {}
    for line in lines:
        kind = line.key.removesuffix(f", {line.size}")
        listed = price_list.of(line.key, line.named, kind, line.what)
        if listed is None:
            yield _with_amount(line)
            continue
        there = min(line.need, left.get(listed.item, listed.on_hand))
        left[listed.item] = left.get(listed.item, listed.on_hand) - there
        yield _priced_by_list(line, listed, there)


def _priced_by_list(line: BuyLine, listed: ListPrice, there: int) -> BuyLine:
    pack = listed.pack or line.pack
    changed = {
        "pack": pack,
        "on_hand": there,
        "packs": -(-(line.need - there) // pack),
        "each": listed.price,
        "priced_by": None if listed.price is None else "price list",
    }
    return _with_amount(line.model_copy(update=changed))


def _with_amount(line: BuyLine) -> BuyLine:
    nothing = Decimal("0.00") if not line.packs else None
    amount = nothing if line.each is None else line.each * line.packs
    return line.model_copy(update={"amount": amount})


SHARE = "share of the batch"
"""Key of what a job pays for the sheets and mouldings that it buys together with others."""


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
        alike = [
            stick for stick in option.mouldings if (stick.stock, stick.length) == (name, length)
        ]
        size = with_unit(length, unit)
        pieces = [piece.part for stick in alike for piece in stick.pieces]
        yield _line(f"{name}, {size}", name, size, alike, pieces)


def _line(
    key: str, name: str, size: str, alike: Sequence[Sheet] | Sequence[Stick], pieces: list[str]
) -> BuyLine:
    is_sheet = isinstance(alike[0], Sheet)
    there = sum(item.on_hand for item in alike)
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
        each=next((item.price for item in alike if not item.on_hand), None),
        priced_by="job" if any(item.price is not None for item in alike) else None,
    )


def uses(pieces: Sequence[str]) -> tuple[str, ...]:
    """Say which parts come out of some stock, equal ones counted: `spice case: 2 sides, back`."""
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
