"""The change order: what differs from the signed revision, with its price."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from solver.costing.estimate import estimate
from solver.job.job import Job
from solver.job.price_terms import PriceList
from solver.plan.plan import Option, Plan
from solver.plan.signed import ChangeOrder, CutStock, JobChange, Signed
from solver.plan.stocked import Part, Sheet, Stick
from solver.quantities import mass_keys
from solver.replan.comparison import comparison
from solver.units import TICKS_PER_MM, Unit, format_mass, with_unit

IGNORED = ("have",)
"""Tables of the job whose changes are not changes of the order: what is on hand already."""
MASSES = mass_keys(Job)
"""Keys that hold grams [g]."""
Kind = tuple[str, int, int, int]
"""Material, length, width and thickness [tick]: parts of one kind can replace one another."""
TAX = "tax"
"""Name of the tax where an estimate misses it; a price counts as complete without it."""


def change_order(
    signed: Signed, plan: Plan, option: Option, prices: PriceList | None = None
) -> ChangeOrder:
    """Return what differs between a signed revision and an option of the new plan.

    The new price is that of what the new plan still buys and makes, plus the stock that is cut
    already. Where the job says what is cut (:mod:`solver.job.have`), the new plan does not buy it
    again; where it does not say so, all of that stock is lost. One price list prices all.
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
        asked=(*job_changes(signed.plan.job, plan.job), *_sizes(old, option, plan)),
        built=comparison(signed.plan, old, plan.job, option),
        cut=cut,
        before=before,
        now=now,
        spent=spent,
        difference=now + spent - before,
        complete=all(not set(one.missing) - {TAX} for one in (old_price, new_price)),
    )


def job_changes(before: Job, after: Job) -> tuple[JobChange, ...]:
    """Return every field of the job that differs, in the order of the job file."""
    old, new = _plain_data(before), _plain_data(after)
    return tuple(
        JobChange(
            where=where,
            what=what,
            before=_in_words(was, after.unit),
            after=_in_words(now, after.unit),
        )
        for table in dict.fromkeys((*new, *old))
        if table not in IGNORED
        for where, what, was, now in _table(table, old.get(table), new.get(table))
    )


def _plain_data(job: Job) -> dict[str, Any]:
    """Return the job as plain data, lengths and masses tagged to tell them from counts."""
    ticks = job.model_dump(mode="python", by_alias=True)
    shown = job.model_dump(mode="json", by_alias=True)
    tagged: dict[str, Any] = _tagged("", ticks, shown)
    return tagged


def _tagged(key: str, ticks: Any, shown: Any) -> Any:
    """Return `ticks` with lengths, which JSON has in millimetres, and masses tagged as such."""
    if isinstance(shown, dict):
        return {name: _tagged(name, ticks[name], shown[name]) for name in shown}
    if isinstance(shown, list):
        return [_tagged(key, a, b) for a, b in zip(ticks, shown, strict=True)]
    if key in MASSES and isinstance(ticks, int):
        return ("mass", ticks)
    length = type(ticks) is int and isinstance(shown, int | float) and ticks != shown
    return ("length", ticks) if length and round(shown * TICKS_PER_MM) == ticks else shown


def _table(table: str, was: Any, now: Any) -> Iterator[tuple[str, str, Any, Any]]:
    """Yield what differs in one table, or in each entry of a list of tables by its name."""
    if not _named(was) and not _named(now):
        yield from ((table, what, a, b) for what, a, b in _fields("", was, now))
        return
    old, new = ({one["name"]: one for one in some or ()} for some in (was, now))
    for name in dict.fromkeys((*old, *new)):
        where = f"{table} {name!r}"
        if name not in new or name not in old:
            yield where, "", old.get(name), new.get(name)
            continue
        yield from ((where, what, a, b) for what, a, b in _fields("", old[name], new[name]))


def _named(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, dict) and "name" in one for one in value)


def _fields(path: str, was: Any, now: Any) -> Iterator[tuple[str, Any, Any]]:
    if was == now:
        return
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*was, *now)):
            deeper = f"{path}, {key}" if path else key
            yield from _fields(deeper.replace("_", " "), was.get(key), now.get(key))
        return
    yield path, was, now


def _in_words(value: Any, unit: Unit) -> str:
    """Return a value in words; nothing for None."""
    if value is None:
        return ""
    if isinstance(value, tuple) and value[0] == "length":
        return with_unit(value[1], unit)
    if isinstance(value, tuple):
        return format_mass(value[1], unit)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_in_words(one, unit) for one in value) or "none"
    if isinstance(value, dict):
        return _entry_in_words(value, unit)
    return str(value)


def _entry_in_words(value: Mapping[str, Any], unit: Unit) -> str:
    """Return a whole entry in words: its sizes first, and how many where that is said."""
    keys = ("width", "height", "depth") if "height" in value else ("length", "width")
    sizes = [_in_words(value[key], unit) for key in keys if value.get(key) is not None]
    count = value.get("count")
    times = f"{count} of " if isinstance(count, int) and sizes else ""
    if sizes and not any(isinstance(value[key], dict) for key in keys if key in value):
        return times + " x ".join(sizes)
    return ", ".join(f"{k.replace('_', ' ')} {_in_words(v, unit)}" for k, v in value.items() if v)


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
        yield _still_serves(old.sheets[number - 1], number, kinds, wanted)
    lengths = Counter(
        (stick.stock, piece.length, 0, 0) for stick in option.mouldings for piece in stick.pieces
    )
    for number in signed.cut_sticks:
        stick = old.mouldings[number - 1]
        pieces = {piece.part: (stick.stock, piece.length, 0, 0) for piece in stick.pieces}
        yield _still_serves(stick, number, pieces, lengths)


def _kind(part: Part) -> Kind:
    return part.material, part.length, part.width, part.thickness


def _still_serves(
    stock: Sheet | Stick, number: int, kinds: dict[str, Kind], wanted: Counter[Kind]
) -> CutStock:
    """Say which parts of a sheet or stick still serve; each part that is wanted is taken once."""
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
