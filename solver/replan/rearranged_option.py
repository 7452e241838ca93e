"""An option of the last plan with its things and shelves in new places.

Parts, sheets and cuts stay as they were where the parts and the stock are the same; else the
sheets are cut anew.
"""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.stage_search import Found
from solver.outcome import Limits
from solver.plan.plan import Option, Stage
from solver.plan.stocked import Part
from solver.planning.assemble import LaidOut, stocked_option, with_layout
from solver.planning.starting_option import StartingOption
from solver.sizing.purchase import Buyer, sheet_parts
from solver.units import TICKS_PER_MM, Ticks, to_mm

MOVED = (("marks moved", "mm"), ("things moved", "things"))
"""Stages of what moves, with what they count."""


def restated_option(start: StartingOption, answer: LayoutAnswer, limits: Limits) -> Option:
    """Return the option that is started from with a new layout, cut anew only where it must be."""
    parts = sheet_parts(start.settled, start.old.shelf_counts, start.depths)
    option = start.old
    if parts != option.parts or not _same_stock(start.last.job, start.job):
        option = _cut_anew(start, parts, limits)
    laid = LaidOut(start.job, start.settled, start.depths, start.problem, answer)
    return with_layout(option, laid, partial(_stages, option, answer))


def _same_stock(before: Job, job: Job) -> bool:
    return (before.sheets, before.mouldings, before.shop, before.cases, before.have) == (
        job.sheets,
        job.mouldings,
        job.shop,
        job.cases,
        job.have,
    )


def _cut_anew(start: StartingOption, parts: tuple[Part, ...], limits: Limits) -> Option:
    """Return the old option with sheets and mouldings for the parts as they are now."""
    counts = start.old.shelf_counts
    stock = Buyer(start.job, limits).stock(counts, start.depths, start.settled)
    bound = min(stock.bound, stock.price)
    price = Stage(
        name="price",
        value=f"{stock.price:.2f}",
        bound=f"{bound:.2f}",
        unit="money",
        proven=stock.proven,
        note="at these sizes",
    )
    sheet_bound = min(stock.sheet_bound, stock.sheet_count)
    option = stocked_option(start.job, counts, parts, stock, bound=bound, sheet_bound=sheet_bound)
    return option.model_copy(update={"name": start.old.name, "stages": (price,)})


def _stages(option: Option, answer: LayoutAnswer, rhythm: Ticks) -> tuple[Stage, ...]:
    """The order of wishes: what was bought stands as it was, then what moved, then the look."""
    found = answer.stages
    stages = [_figure("fit", found["fit"], "things")]
    stages += [stage for stage in option.stages if stage.name in ("price", "size")]
    for name, unit in MOVED:
        if name in found:
            stages.append(_figure(name, found[name], unit, "from the plan before"))
    held = "with no more moved than that"
    stages.append(_length("rhythm", found["rhythm"], rhythm, held))
    if "headroom" in found:
        stages.append(_figure("headroom", found["headroom"], "mm", held))
    for name, unit in (("places", "things"), ("low weight", "g m")):
        if name in found:
            stages.append(_figure(name, found[name], unit, held))
    return tuple(stages)


def _length(name: str, found: Found, reached: Ticks, note: str) -> Stage:
    """The rhythm: its score to the nearest tick as the finished plan has it, bounds down."""
    value = to_mm(reached)
    bound = value if found.proven else min(value, to_mm(int(found.bound)))
    return Stage(name=name, value=value, bound=bound, proven=found.proven, unit="mm", note=note)


def _figure(name: str, found: Found, unit: str, note: str | None = None) -> Stage:
    value, bound = found.value, found.bound
    if unit == "mm":
        value = None if value is None else Fraction(value, TICKS_PER_MM)
        bound = Fraction(bound, TICKS_PER_MM)
    return Stage(
        name=name,
        value=None if value is None else round(float(value), 6),
        bound=round(float(bound), 6),
        proven=found.proven,
        unit=unit,
        note=note,
    )
