"""Planning again from the last plan, with the least change; also for a sheet as it was measured.

Shelf counts, sizes and, where the parts are the same, sheets and cuts are those of the last plan.
Only shelf positions and what stands where are decided again, so no sheet is cut anew for a shelf
that moves. :func:`remeasured_plan` does this with thicknesses taken with calipers, and issues
marks and parts again.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping

from solver.carcass.settled_job import settle
from solver.carcass.thickness_band import bands
from solver.errors import CannotBeDoneError, InputError
from solver.intake.load import load
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.minimal_change import lay_out
from solver.outcome import Limits, Status, program_version
from solver.plan.plan import Option, Plan, Timing
from solver.planning.band_parts import clear_heights, problem_at, with_band
from solver.planning.held_conflicts import collision
from solver.planning.shortfall import left_out
from solver.planning.starting_option import StartingOption, size_of, start_from
from solver.replan.comparison import comparison
from solver.replan.rearranged_option import restated_option
from solver.rules_version import RULES
from solver.sizing.on_hand_outcome import settled_by_on_hand, with_on_hand_holds
from solver.units import Ticks, caliper, with_unit


def plan_again(
    job: Job, last: Plan, limits: Limits | None = None, *, option: Option | None = None
) -> Plan:
    """Plan a job again from an option of its last plan.

    Parameters
    ----------
    job
        The job as it is now, with its holds.
    last
        The plan to start from.
    limits
        Limits of the searches.
    option
        The option of `last` to start from; left out, its first one that has a layout.

    Returns
    -------
    Plan
        With one option and the comparison with the one it starts from.

    Raises
    ------
    InputError
        Where the last plan is not one of this job.
    """
    started = time.perf_counter()
    limits = limits or Limits()
    job, kept = settled_by_on_hand(job)
    start = start_from(job, last, option)
    return plan_of_option(start, with_on_hand_holds(laid_out_again(start, limits), kept), started)


def plan_of_option(start: StartingOption, new: Option, started: float | None = None) -> Plan:
    """Put the option into a plan of its own, compared with the one started from.

    `started` is when the work began, by the clock of :func:`time.perf_counter` [s].
    """
    began = time.perf_counter() if started is None else started
    compared = comparison(start.last, start.old, start.job, new) if new.cases else None
    return Plan(
        version=program_version(),
        rules=RULES,
        unit=start.job.unit,
        job=start.job,
        job_hash=start.job.hash,
        options=(new,),
        comparison=compared,
        timing=Timing(seconds=round(time.perf_counter() - began, 3)),
    )


def laid_out_again(start: StartingOption, limits: Limits) -> Option:
    """Lay out what is started from anew, moving as little as possible; with its stock."""
    answer = lay_out(start.problem, limits)
    if not answer.marks_known or any(answer.left.values()):
        return _cannot(start, answer, limits)
    return with_band(start.job, restated_option(start, answer, limits), limits)


def _cannot(start: StartingOption, answer: LayoutAnswer, limits: Limits) -> Option:
    """What is held cannot be: say what it collides with; nothing else is decided anew."""
    found = collision(start.settled, start.problem, limits)
    status = Status.INFEASIBLE if _sure(answer) else Status.UNKNOWN
    why = found.text if found else _left(start, answer)
    return Option.without_layout(
        start.old.name, start.old.shelf_counts, status, why, collision=found
    )


def _sure(answer: LayoutAnswer) -> bool:
    """Whether it is proven that not everything can have a place."""
    fit = answer.stages.get("fit")
    return answer.status is Status.INFEASIBLE or (fit is not None and bool(fit.bound))


def _left(start: StartingOption, answer: LayoutAnswer) -> str:
    """Why it does not work where nothing held is to blame."""
    if answer.status is Status.UNKNOWN and not answer.marks_known:
        return "nothing was found by the limit; give more time with --time-limit"
    if not answer.marks_known:
        return "no shelf positions keep every opening at its least clear height"
    left = left_out(start.problem, answer, ())
    named = ", ".join(f"{one.count} x {one.item}" for one in left)
    if not _sure(answer):
        return f"no place was found for {named} by the limit; plan the job anew"
    return f"with these shelf counts and sizes no place is left for {named}; plan the job anew"


def remeasured_plan(
    job: Job,
    last: Plan,
    thickness: Mapping[str, Ticks],
    limits: Limits | None = None,
    *,
    option: Option | None = None,
) -> Plan:
    """Plan an option of the last plan for measured sheets, moving only what has to move.

    Undersides of shelves stay where they are as long as everything fits there, as it does for
    any thickness within the band; parts are cut anew to their true sizes.

    Parameters
    ----------
    job
        The job as it is now.
    last
        Its last plan.
    thickness
        Measured thickness of each material, by name [tick].
    limits
        Limits of the searches.
    option
        The option of `last`; left out, its first one that has a layout.

    Raises
    ------
    InputError
        Where a material is not in the job.
    CannotBeDoneError
        Where a thickness is out of its band; it says what then collides.
    """
    limits = limits or Limits()
    for name in thickness:
        if name not in {sheet.material for sheet in job.sheets}:
            known = ", ".join(sorted({repr(sheet.material) for sheet in job.sheets}))
            msg = f"{name!r} is no material of the job; allowed: {known}"
            raise InputError(msg, "--thickness")
    now = _revalidated(job.measured(thickness))
    outside = [_out_of_band(job, name, t) for name, t in thickness.items()]
    if any(outside):
        old = option or next((one for one in last.options if one.cases), None)
        raise CannotBeDoneError(_refused([text for text in outside if text], now, last, old))
    return plan_again(now, last, limits, option=option)


def _revalidated(job: Job) -> Job:
    """The job read anew, so that everything that depends on a thickness is checked again."""
    try:
        return load(job.model_dump(by_alias=True))
    except ValueError as error:
        msg = f"boards of that thickness do not go with the job: {error}"
        raise InputError(msg, "--thickness") from None


def _out_of_band(job: Job, name: str, thickness: Ticks) -> str | None:
    """What to say of a measured thickness that the plan was not made for; None where it was."""
    if name not in bands(job):
        return None
    least, most = bands(job)[name]
    if least <= thickness <= most:
        return None
    unit = job.unit
    return (
        f"{name} at {caliper(thickness, unit)} is out of the band planned for, "
        f"{caliper(least, unit)} to {caliper(most, unit)}"
    )


def _refused(outside: list[str], now: Job, last: Plan, old: Option | None) -> str:
    text = "; ".join(outside)
    found = [] if old is None else list(collisions(now, last, old))
    if found:
        return (
            f"{text}. With the shelves where they are: {'; '.join(found)}. Give a band that has it "
            "as thickness in the job file and plan anew, or send the sheet back"
        )
    return (
        f"{text}. Everything would still fit where it is: give a band that has it as thickness "
        "in the job file, plan with --from the last plan, and measure with --thickness again"
    )


def collisions(now: Job, last: Plan, old: Option) -> Iterator[str]:
    """What no longer fits with an option's marks and places and boards of other thickness."""
    sizes = {case.name: size_of(now, last.job, case) for case in old.cases}
    settled = settle(now, old.shelf_counts, sizes)
    problem = problem_at(settled, settled, old)
    heights, unit = clear_heights(problem, old), now.unit
    bays = [bay for case in old.cases for bay in case.bays]
    for b, (bay, shape) in enumerate(zip(bays, problem.bays, strict=True)):
        for opening in bay.openings:
            where, clear = f"opening {opening.index}", heights[b, opening.index]
            if len(bays) > 1:
                where = f"{now.cases[shape.case].name}/{bay.number} {where}"
            most = now.look.clear_most
            if most is not None and clear > most:
                yield f"{where} is {with_unit(clear - most, unit)} over the most clear height"
            needs = [(i.y + i.height + now.look.headroom - clear, i.item) for i in opening.items]
            short, item = max(needs, default=(0, ""))
            if short > 0:
                yield f"{where} lacks {with_unit(short, unit)} for {item} and its headroom"
            taken = sum(i.width for i in opening.items if i.row == 1 and i.on is None)
            if taken > shape.run:
                yield f"{where} lacks {with_unit(taken - shape.run, unit)} of width"
