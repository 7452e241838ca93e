"""The buy list: what the plan takes, less what is on hand, in whole packs, with prices."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from decimal import Decimal

from solver.bought import BuyLine, BuyList
from solver.buying.hardware import hardware_lines
from solver.buying.stock import sheet_lines, stick_lines
from solver.errors import InputError
from solver.job import Job
from solver.plan import Option
from solver.price_list import PriceList


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
    if known.currency not in (None, job.head.currency):
        msg = (
            f"the price list is in {known.currency} and the job in {job.head.currency}; "
            "give a list in the job's currency, or change [job] currency"
        )
        raise InputError(msg)
    wanted = (
        *sheet_lines(option, job.unit),
        *stick_lines(option, job.unit),
        *hardware_lines(job, option),
    )
    lines = tuple(_priced(line, known) for line in wanted)
    total = sum((line.amount for line in lines if line.amount is not None), Decimal(0))
    return BuyList(
        option=option.name,
        currency=job.head.currency,
        lines=lines,
        total=total,
        near=tuple(_near([line.named for line in lines if line.missing], known)),
        note=known.note,
    )


def _near(missing: list[str], known: PriceList) -> Iterator[str]:
    """Yield names of the list that are like something without a price."""
    names = [one.item for one in known.prices]
    for what in missing:
        for name in difflib.get_close_matches(what, names, n=1, cutoff=0.7):
            yield f"the price list has {name!r}; is {what!r} meant"


def _priced(line: BuyLine, known: PriceList) -> BuyLine:
    """Take off what is on hand, count packs anew, and put the price in."""
    listed = known.of(line.key, line.named, line.what)
    stock = line.place in ("sheets", "mouldings")
    each, by, pack, there = line.each, line.priced_by, line.pack, line.on_hand
    if listed is not None:
        if each is None and listed.price is not None:
            each, by = listed.price, "price list"
        if not stock:
            pack = listed.pack or pack
            there = min(line.need, listed.on_hand)
    packs = -(-(line.need - there) // pack)
    amount = each * packs if each is not None else (Decimal("0.00") if not packs else None)
    return line.model_copy(
        update={
            "each": each,
            "priced_by": by,
            "pack": pack,
            "on_hand": there,
            "packs": packs,
            "amount": amount,
        }
    )
