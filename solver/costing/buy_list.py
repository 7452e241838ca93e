"""The buy list: what the plan takes, less what is on hand, in whole packs, with prices."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from decimal import Decimal

from solver.costing.hardware import hardware_list
from solver.costing.stock_to_buy import sheet_lines, stick_lines
from solver.job.job import Job
from solver.job.price_list import ListPrice, PriceList
from solver.plan.bought import BuyLine, BuyList, SheetUse
from solver.plan.plan import Option
from solver.trim.trim_pieces import with_waste
from solver.units import TICKS_PER_MM

SQUARE_METRE = (1000 * TICKS_PER_MM) ** 2
"""[square tick]"""
USUAL = Decimal("0.15")
"""Waste of cabinet shops on average, sheet and solid together: woodweb.com Woodshop Waste
Percentage [-]."""


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


def buy_list(job: Job, option: Option, prices: PriceList | None = None) -> BuyList:
    """Return everything to buy for an option.

    Sheets and sticks are those of the plan, so what is on hand there is taken off already;
    of the rest the price list says what is on hand. A price of the job counts before that of
    the list, since the plan was made with it.

    Raises
    ------
    InputError
        Where the price list is in another currency than the job.
    """
    known = prices or PriceList()
    known.refuse_other_currency(job.head.currency)
    stock = (*sheet_lines(option, job.unit), *stick_lines(option, job.unit))
    lines = (
        *(_stock_priced(line, known) for line in stock),
        *_hardware_priced(list(hardware_lines(job, option)), known),
    )
    total = sum((line.amount for line in lines if line.amount is not None), Decimal(0))
    return BuyList(
        option=option.name,
        currency=job.head.currency,
        lines=lines,
        total=total,
        uses=tuple(sheet_uses(option)),
        near=tuple(_near([line.named for line in lines if line.missing], known)),
        note=known.note,
    )


def _near(missing: list[str], known: PriceList) -> Iterator[str]:
    """Yield names of the list that are like something without a price."""
    names = [one.item for one in known.prices]
    for what in missing:
        for name in difflib.get_close_matches(what, names, n=1, cutoff=0.7):
            yield f"the price list has {name!r}; is {what!r} meant"


def _stock_priced(line: BuyLine, known: PriceList) -> BuyLine:
    """Put a price into a sheet or stick that the job gives none for."""
    listed = known.of(line.key, line.named, line.what)
    if line.each is None and listed is not None and listed.price is not None:
        line = line.model_copy(update={"each": listed.price, "priced_by": "price list"})
    return _summed(line)


def _hardware_priced(lines: list[BuyLine], known: PriceList) -> Iterator[BuyLine]:
    """Take off what is on hand, each piece of it once, and count packs and prices anew."""
    left: dict[str, int] = {}
    for line in lines:
        kind = line.key.removesuffix(f", {line.size}")
        listed = known.of(line.key, line.named, kind, line.what)
        if listed is None:
            yield _summed(line)
            continue
        there = min(line.need, left.get(listed.item, listed.on_hand))
        left[listed.item] = left.get(listed.item, listed.on_hand) - there
        yield _listed(line, listed, there)


def _listed(line: BuyLine, listed: ListPrice, there: int) -> BuyLine:
    pack = listed.pack or line.pack
    changed = {
        "pack": pack,
        "on_hand": there,
        "packs": -(-(line.need - there) // pack),
        "each": listed.price,
        "priced_by": None if listed.price is None else "price list",
    }
    return _summed(line.model_copy(update=changed))


def _summed(line: BuyLine) -> BuyLine:
    nothing = Decimal("0.00") if not line.packs else None
    amount = nothing if line.each is None else line.each * line.packs
    return line.model_copy(update={"amount": amount})
