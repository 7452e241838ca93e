"""The change order: what differs from the signed revision, with its price."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.changing.asked import asked_otherwise
from solver.estimate.price import estimate
from solver.plan import Option, Plan
from solver.planning.compare import comparison
from solver.price_list import PriceList
from solver.signed import ChangeOrder, CutStock, JobChange, Signed
from solver.stocked import Part, Sheet, Stick
from solver.units import with_unit

Kind = tuple[str, int, int, int]
"""Material, length, width and thickness [tick]: parts of one kind serve for one another."""
TAX = "tax"
"""How an estimate names a tax that is not given; a price without it is complete but for that."""


def change_order(
    signed: Signed, plan: Plan, option: Option, prices: PriceList | None = None
) -> ChangeOrder:
    """Return what differs between a signed revision and an option of a plan of now.

    The new price is that of what the plan of now still buys and makes, with the stock that is
    cut already on top, and its work: where the job says what is cut (:mod:`solver.have`), the
    plan of now does not buy it again; where it does not, all of that stock is lost. All is
    priced by the same price list.
    """
    old = signed.built
    cut = tuple(_cut_stock(signed, option))
    old_price = estimate(signed.plan.job, old, prices)
    new_price = estimate(plan.job, option, prices)
    before, now = old_price.total, new_price.total
    spent = before - estimate(signed.plan.job, _uncut(signed), prices).total
    return ChangeOrder(
        revision=signed.revision,
        date=signed.date,
        asked=(*asked_otherwise(signed.plan.job, plan.job), *_sizes(old, option, plan)),
        built=comparison(signed.plan, old, plan.job, option),
        cut=cut,
        before=before,
        now=now,
        spent=spent,
        difference=now + spent - before,
        complete=all(not set(one.missing) - {TAX} for one in (old_price, new_price)),
    )


def _uncut(signed: Signed) -> Option:
    """Return the option that was signed without the stock of it that is cut by now."""
    old = signed.built
    sheets = [s for n, s in enumerate(old.sheets, start=1) if n not in signed.cut_sheets]
    sticks = [s for n, s in enumerate(old.mouldings, start=1) if n not in signed.cut_sticks]
    return old.model_copy(update={"sheets": tuple(sheets), "mouldings": tuple(sticks)})


def _sizes(old: Option, option: Option, plan: Plan) -> Iterator[JobChange]:
    """Yield outside sizes that came out otherwise, where the job leaves them open."""
    before = {case.name: case.outside for case in old.cases}
    for case in option.cases:
        was = before.get(case.name)
        for name in ("width", "height", "depth"):
            now = getattr(case.outside, name)
            if was is not None and getattr(was, name) != now:
                yield JobChange(
                    where=f"case {case.name!r}",
                    what=f"outside {name}, as built",
                    before=with_unit(getattr(was, name), plan.unit),
                    after=with_unit(now, plan.unit),
                )


def _cut_stock(signed: Signed, option: Option) -> Iterator[CutStock]:
    """Yield the sheets and sticks that are cut, with which of their parts still serve."""
    old = signed.built
    kinds = {part.id: _kind(part) for part in old.parts}
    wanted = Counter(_kind(part) for part in option.parts)
    for number in signed.cut_sheets:
        yield _judged(old.sheets[number - 1], number, kinds, wanted)
    lengths = Counter(
        (stick.stock, piece.length, 0, 0) for stick in option.mouldings for piece in stick.pieces
    )
    for number in signed.cut_sticks:
        stick = old.mouldings[number - 1]
        pieces = {piece.part: (stick.stock, piece.length, 0, 0) for piece in stick.pieces}
        yield _judged(stick, number, pieces, lengths)


def _kind(part: Part) -> Kind:
    return part.material, part.length, part.width, part.thickness


def _judged(
    stock: Sheet | Stick, number: int, kinds: dict[str, Kind], wanted: Counter[Kind]
) -> CutStock:
    """Say which parts of a sheet or stick serve; each that is wanted is served once."""
    serve, lost = [], []
    for piece in stock.pieces:
        kind = kinds[piece.part]
        if wanted[kind] > 0:
            wanted[kind] -= 1
            serve.append(piece.part)
        else:
            lost.append(piece.part)
    return CutStock(
        stock=stock.stock,
        number=number,
        price=None if stock.on_hand else stock.price,
        serve=tuple(serve),
        lost=tuple(lost),
    )
