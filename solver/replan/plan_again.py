"""Planning again from the last plan: what was not touched moves as little as possible.

Shelf counts, sizes and, where the parts are the same, sheets and cuts are those of the last
plan; only shelf positions and what stands where are decided again. That is why the answer
comes at once: no sheet is cut anew for a shelf that moves.
"""

from __future__ import annotations

import time

from solver.edition import RULES
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.minimal_change import lay_out
from solver.outcome import Limits, Status, program_version
from solver.plan.plan import Option, Plan, Timing
from solver.planning.band_parts import with_band
from solver.planning.held_conflicts import collision
from solver.planning.shortfall import left_out
from solver.planning.starting_option import Start, start_from
from solver.replan.comparison import comparison
from solver.replan.restated import finished
from solver.sizing.on_hand_outcome import around, with_kept


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
    job, kept = around(job)
    start = start_from(job, last, option)
    return as_plan(start, with_kept(again(start, limits), kept), started)


def as_plan(start: Start, new: Option, started: float | None = None) -> Plan:
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


def again(start: Start, limits: Limits) -> Option:
    """Lay out what is started from anew, moving as little as possible; with its stock."""
    answer = lay_out(start.problem, limits)
    if not answer.marks_known or any(answer.left.values()):
        return _cannot(start, answer, limits)
    return with_band(start.job, finished(start, answer, limits), limits)


def _cannot(start: Start, answer: LayoutAnswer, limits: Limits) -> Option:
    """What is held cannot be: say what it collides with; nothing else is decided anew."""
    found = collision(start.settled, start.problem, limits)
    status = Status.INFEASIBLE if _sure(answer) else Status.UNKNOWN
    why = found.text if found else _left(start, answer)
    return Option.without_layout(
        start.old.name, start.old.shelf_counts, status, why, collision=found
    )


def _sure(answer: LayoutAnswer) -> bool:
    """Whether it is proven that not everything can have a place."""
    return answer.status is Status.INFEASIBLE or answer.stages["fit"].bound > 0


def _left(start: Start, answer: LayoutAnswer) -> str:
    """Why it does not work where nothing held is to blame."""
    if answer.status is Status.UNKNOWN and not answer.marks_known:
        return "nothing was found by the limit; give more time with --time-limit"
    if not answer.marks_known:
        return "no shelf positions keep every opening at its least clear height"
    left = left_out(start.problem, answer)
    named = ", ".join(f"{one.count} x {one.item}" for one in left)
    if not _sure(answer):
        return f"no place was found for {named} by the limit; plan the job anew"
    return f"with these shelf counts and sizes no place is left for {named}; plan the job anew"
