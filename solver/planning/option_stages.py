"""The stages of an option: what was reached, what is proven, and what it costs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.stage_search import Found
from solver.plan.plan import Cost, Stage
from solver.plan.stocked import Sheet, Stick
from solver.planning.option_scores import rounded
from solver.sizing.choose_sizes import Sized
from solver.units import Ticks, to_mm


def cost_of(job: Job, sized: Sized) -> Cost:
    """Return what sheets and mouldings cost, and at least cost at any sizes."""
    stock = sized.stock
    everything: tuple[Sheet | Stick, ...] = (*stock.sheets, *stock.sticks)
    bought = [one for one in everything if not one.on_hand]
    return Cost(
        currency=job.head.currency,
        sheets=stock.sheets_price,
        mouldings=stock.sticks_price,
        stock_bound=sized.bound,
        total=stock.price,
        complete=all(one.price is not None for one in bought),
    )


def stages_of(sized: Sized, answer: LayoutAnswer, rhythm: Ticks) -> tuple[Stage, ...]:
    """Return the order of wishes with what was reached and proven, as the plan states it."""
    found = answer.stages
    stages = [_counted("fit", _at_any_sizes(found["fit"], sized), "things"), _price(sized)]
    if sized.axes:
        stages.append(
            Stage(
                name="size",
                value=to_mm(sized.distance),
                bound=to_mm(sized.nearest),
                proven=sized.size_proven,
                unit="mm",
                note=_sizes_note(sized),
            )
        )
    stages.append(_length("rhythm", _bettered(found["rhythm"], rhythm)))
    if "headroom" in found:
        stages.append(_length("headroom", found["headroom"]))
    held = "with these shelf positions"
    for name, unit in (("places", "things"), ("low weight", "g m"), ("fill", "share")):
        if name in found:
            stages.append(_counted(name, found[name], unit, note=held))
    return tuple(stages)


def _at_any_sizes(fit: Found, sized: Sized) -> Found:
    """Bound the things left out by what the most of all open sizes let fit."""
    if not sized.axes:
        return fit
    return replace(fit, bound=min(fit.bound, Fraction(sized.left_bound)))


def _sizes_note(sized: Sized) -> str:
    kinds = list(dict.fromkeys(axis.what for axis in sized.axes))
    named = kinds[0] if len(kinds) == 1 else f"{', '.join(kinds[:-1])} and {kinds[-1]} together"
    return f"{named} away from the wished one{'s' if len(kinds) > 1 else ''}"


def _price(sized: Sized) -> Stage:
    return Stage(
        name="price",
        value=f"{sized.stock.price:.2f}",
        bound=f"{sized.bound:.2f}",
        unit="money",
        proven=sized.price_proven,
        note=_price_note(sized),
    )


def _price_note(sized: Sized) -> str | None:
    """Say what the bound holds for, and what is counted."""
    notes = []
    if sized.axes and sized.job.look.prefer == "look":
        found = "" if sized.look_proven else ", as far as was found"
        notes.append(f"of the sizes at which rhythm and headroom are as good as at any{found}")
    if not sized.stock.priced:
        notes.append("sheets without a price are counted by area")
    return "; ".join(notes) or None


def _bettered(found: Found, reached: Ticks) -> Found:
    """A stage whose value the finished plan has, or has bettered by chance, unproven as it was."""
    if found.value is not None and found.value <= reached:
        return found
    return replace(found, value=Fraction(reached), bound=min(found.bound, Fraction(reached)))


def _length(name: str, found: Found) -> Stage:
    """A stage counted in lengths; score fractions go to the nearest tick, bounds down."""
    value = None if found.value is None else to_mm(rounded(found.value))
    bound = value if found.proven else to_mm(int(found.bound))
    return Stage(name=name, value=value, bound=bound, proven=found.proven, unit="mm")


def _counted(name: str, found: Found, unit: str, note: str | None = None) -> Stage:
    return Stage(
        name=name,
        value=_plain(found.value),
        bound=_plain(found.bound),
        proven=found.proven,
        unit=unit,
        note=note,
    )


def _plain(value: Fraction | None) -> float | None:
    return None if value is None else round(float(value), 6)
