"""The room that an option's sheets leave, and small changes that would save stock."""

from __future__ import annotations

from collections import defaultdict

from solver.carcass.decided import depths_of, settled_job
from solver.changes.lots import Lot, lot_of
from solver.changes.saving_changes import AdviceScope, advise
from solver.cutting.slack import least_slack, stick_with_slack, with_slack
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.plan.stocked import Part
from solver.sizing.purchase import Buyer

WORK_SHARE, TIME_SHARE = 0.05, 0.1
"""Share of the work for each changed list, and of the time for all of them [-]."""


def with_room(option: Option) -> Option:
    """Return the option with the slack of its sheets and sticks stated."""
    return option.model_copy(
        update={
            "sheets": tuple(with_slack(sheet) for sheet in option.sheets),
            "mouldings": tuple(stick_with_slack(stick) for stick in option.mouldings),
            "least_slack": least_slack(option.sheets, option.mouldings),
        }
    )


def with_advice(job: Job, option: Option, limits: Limits) -> Option:
    """Return an option with the small changes that would save stock.

    Only what leaves the cases as they are: blade, edge trim, the grain of backs, all sides
    of a case or its back in two pieces. Lengths of shelves follow from the sizes of the cases.
    """
    if not option.sheets or limits.over or job.have:
        return option
    parts = {part.id: part for part in option.parts}
    asked = AdviceScope(
        parts,
        job.unit,
        job.shop.margin,
        resize=False,
        turn=_is_back,
        split=_may_be_joined,
        alike=True,
    )
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    share = Limits(limits.seed, limits.work * WORK_SHARE, seconds, limits.stopper)
    found = advise(lots_of(job, option, limits), asked, share)
    return option.model_copy(update={"advice": found.advice, "advice_note": found.note})


def _is_back(part: Part) -> bool:
    return part.name == "back"


def _may_be_joined(part: Part) -> bool:
    return part.name in ("side", "back")


def lots_of(job: Job, option: Option, limits: Limits) -> list[Lot]:
    """Return what is cut for an option, by material, then by moulding."""
    by_material: dict[str, list[Part]] = defaultdict(list)
    for part in option.parts:
        by_material[part.material].append(part)
    buyer = Buyer(settled_job(job, option), limits)
    sheets = [
        lot_of(
            material,
            buyer.problem(material, parts),
            [sheet for sheet in option.sheets if sheet.material == material],
        )
        for material, parts in by_material.items()
    ]
    sticks = [
        lot_of(
            problem.sticks[0].stock,
            problem,
            [stick for stick in option.mouldings if stick.stock == problem.sticks[0].stock],
        )
        for problem in buyer.stick_problems(option.shelf_counts, depths_of(option))
    ]
    return [*sheets, *sticks]
