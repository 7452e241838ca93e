"""The stages and scores of an option: what was reached of each wish, what is proven, what it costs.

Scores of the look are computed from the finished openings, not taken from the model.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import floor
from statistics import median_low

from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.stage_search import Found
from solver.plan.built import Bay, CasePlan, SharedLines
from solver.plan.plan import Cost, Scores, Stage
from solver.plan.stage_units import STAGE_UNITS
from solver.plan.stocked import Part, Sheet, Stick
from solver.planning.asked_for import missed
from solver.planning.look_figures import (
    line_groups,
    outline_missed,
    places_parted,
    room_over,
    scored_steps,
)
from solver.sizing.choose_sizes import ChosenSizes
from solver.sizing.purchase import StockAnswer
from solver.units import Ticks, to_mm


def bays(cases: Sequence[CasePlan]) -> Iterator[Bay]:
    """All bays."""
    return (bay for case in cases for bay in case.bays)


def scores(
    job: Job,
    cases: Sequence[CasePlan],
    lines: Sequence[SharedLines],
    parts: Sequence[Part],
    sheets: Sequence[Sheet],
) -> Scores:
    """Score one option; `lines` says which bays share shelf lines."""
    openings = [opening for bay in bays(cases) for opening in bay.openings]
    rooms = [room for room in map(room_over, openings) if room is not None]
    steps = scored_steps(line_groups(job, cases, lines))
    every = [step for some in steps for step in some]
    return Scores(
        places_parted=places_parted(job, cases),
        steps_range=sum(max(some) - min(some) for some in steps) if steps else None,
        steps_mean=rounded(Fraction(sum(every), len(every))) if every else None,
        outline_missed=outline_missed(cases),
        headroom_least=min((i.headroom for o in openings for i in o.items), default=None),
        headroom_typical=median_low(rooms) if rooms else None,
        headroom_spread=max(rooms) - min(rooms) if rooms else 0,
        wishes_missed=sum(one.count for one in missed(job, cases)),
        fill_least=min(o.fill for o in openings),
        fill_most=max(o.fill for o in openings),
        board_used=_used(parts, sheets),
    )


def rounded(score: Fraction) -> Ticks:
    """Round half up to a whole tick [tick]."""
    return floor(score + Fraction(1, 2))


def _used(parts: Sequence[Part], sheets: Sequence[Sheet]) -> float:
    area = sum(sheet.length * sheet.width for sheet in sheets)
    return round(sum(part.length * part.width for part in parts) / area, 6) if area else 0.0


def cost_of(job: Job, stock: StockAnswer, bound: Decimal) -> Cost:
    """Return what sheets and mouldings cost; no stock that is compared costs less than `bound`."""
    everything: tuple[Sheet | Stick, ...] = (*stock.sheets, *stock.sticks)
    bought = [one for one in everything if not one.on_hand]
    return Cost(
        currency=job.head.currency,
        sheets=stock.sheets_price,
        mouldings=stock.sticks_price,
        stock_bound=bound,
        total=stock.price,
        complete=all(one.price is not None for one in bought),
    )


def stages_of(
    sized: ChosenSizes, answer: LayoutAnswer, cases: Sequence[CasePlan]
) -> tuple[Stage, ...]:
    """Return the order of wishes with what was reached and proven, as the plan states it."""
    found = answer.stages
    stages = [stage_of("fit", _at_any_sizes(found["fit"], sized)), _price(sized)]
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
    later = (name for name in STAGE_UNITS if name in found and name != "fit")
    stages += [stage_of(name, found[name]) for name in later]
    return (*stages, composition(cases))


def composition(cases: Sequence[CasePlan]) -> Stage:
    """The stage of the rows: outline without mirror image, which is not proven."""
    value = outline_missed(cases)
    return Stage(name="composition", value=value, bound=None, proven=False, unit="%")


HELD_MARKS = ("sight", "heavy")
"""Stages whose bounds hold for the marks that were found."""


def stage_of(name: str, found: Found) -> Stage:
    """Return a stage of a layout; lengths in mm."""
    unit = STAGE_UNITS[name]
    value, bound = (
        None if one is None else to_mm(int(one)) if unit == "mm" else int(one)
        for one in (found.value, found.bound)
    )
    note = "with these shelf positions" if name in HELD_MARKS and bound is not None else None
    return Stage(name=name, value=value, bound=bound, proven=found.proven, unit=unit, note=note)


def _at_any_sizes(fit: Found, sized: ChosenSizes) -> Found:
    """Bound what is left out by what the most of all open sizes let fit."""
    if not sized.axes or fit.bound is None:
        return fit
    return replace(fit, bound=min(fit.bound, Fraction(sum(sized.left_bound))))


def _sizes_note(sized: ChosenSizes) -> str:
    kinds = list(dict.fromkeys(axis.what for axis in sized.axes))
    named = kinds[0] if len(kinds) == 1 else f"{', '.join(kinds[:-1])} and {kinds[-1]} together"
    return f"{named} away from the wished one{'s' if len(kinds) > 1 else ''}"


def _price(sized: ChosenSizes) -> Stage:
    return Stage(
        name="price",
        value=f"{sized.stock.price:.2f}",
        bound=f"{sized.bound:.2f}",
        unit="money",
        proven=sized.price_proven,
        note=_price_note(sized),
    )


def _price_note(sized: ChosenSizes) -> str | None:
    """Say what the bound holds for, and what is counted."""
    notes = []
    if sized.axes and sized.job.look.prefer == "look":
        found = "" if sized.look_proven else ", as far as was found"
        notes.append(f"of the sizes at which it looks as good as at any{found}")
    if not sized.stock.priced:
        notes.append("sheets without a price are counted by area")
    return "; ".join(notes) or None
