"""An option of the last plan with its things and shelves in new places.

Parts, sheets and cuts stay as they were where the parts and the stock are the same; else the
sheets are cut anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.outcome import Limits
from solver.plan.built import CasePlan
from solver.plan.plan import Option, Stage
from solver.plan.stage_units import STAGE_UNITS
from solver.plan.stocked import Part
from solver.planning.assemble import LaidOut, stocked_option, with_layout
from solver.planning.option_stages import composition, stage_of
from solver.planning.starting_option import StartingOption
from solver.sizing.purchase import Buyer, sheet_parts

MOVED = ("marks moved", "things moved")
"""Stages of what moves."""


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


def _stages(option: Option, answer: LayoutAnswer, cases: Sequence[CasePlan]) -> tuple[Stage, ...]:
    """The order of wishes: what was bought stands as it was, then what moved, then the look."""
    found = answer.stages
    bought = [stage for stage in option.stages if stage.name in ("price", "size")]
    rest = [_noted(stage_of(name, found[name])) for name in STAGE_UNITS if name in found]
    return (rest[0], *bought, *rest[1:], composition(cases))


def _noted(stage: Stage) -> Stage:
    """A stage with what its bound holds for."""
    if stage.name == "fit":
        return stage
    note = "from the plan before" if stage.name in MOVED else "with no more moved than that"
    return stage.model_copy(update={"note": note})
