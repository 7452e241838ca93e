"""When not everything fits: the smallest single changes that would do, each found by solving."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from solver.job import Job
from solver.layout.problem import BayShape, LayoutProblem
from solver.layout.solve import everything_fits
from solver.outcome import Limits, Status
from solver.plan import Change
from solver.units import TICKS_PER_MM, Ticks, with_unit

MOST_ADDED = 600 * TICKS_PER_MM
"""Sizes are not asked to grow by more than this: beyond it, it is another case [tick]."""
WORK = 1.0
"""Deterministic work for each trial."""

Altered = Callable[[LayoutProblem, Ticks], LayoutProblem]


@dataclass(frozen=True)
class _Lever:
    """One thing that may be changed: how, and by how much at most."""

    what: str
    alter: Altered
    most: Ticks


def smallest_changes(job: Job, problem: LayoutProblem, limits: Limits) -> tuple[Change, ...]:
    """Return the least change of headroom, height, width and depth that lets everything fit.

    Each alone, in whole marking steps; a change is proven where one step less is proven not
    to do. Empty where no single change within reason helps.
    """
    found = []
    for lever in _levers(problem):
        step = job.head.marking_step
        least = _least(problem, lever, step, limits)
        if least is not None:
            steps, proven = least
            found.append(
                Change(
                    what=lever.what,
                    by=steps * step,
                    proven=proven,
                    text=_text(job, lever.what, steps * step),
                )
            )
    return tuple(found)


def _levers(problem: LayoutProblem) -> list[_Lever]:
    return [
        _Lever("headroom", _less_headroom, problem.wishes.headroom),
        _Lever("height", _higher, MOST_ADDED),
        _Lever("width", _wider, MOST_ADDED),
        _Lever("depth", _deeper, MOST_ADDED),
    ]


def _less_headroom(problem: LayoutProblem, by: Ticks) -> LayoutProblem:
    return replace(
        problem, wishes=replace(problem.wishes, headroom=max(0, problem.wishes.headroom - by))
    )


def _each_bay(problem: LayoutProblem, change: Callable[[BayShape], BayShape]) -> LayoutProblem:
    return replace(problem, bays=tuple(change(bay) for bay in problem.bays))


def _higher(problem: LayoutProblem, by: Ticks) -> LayoutProblem:
    return _each_bay(problem, lambda bay: replace(bay, inside=bay.inside + by))


def _wider(problem: LayoutProblem, by: Ticks) -> LayoutProblem:
    return _each_bay(problem, lambda bay: replace(bay, width=bay.width + by, run=bay.run + by))


def _deeper(problem: LayoutProblem, by: Ticks) -> LayoutProblem:
    return _each_bay(problem, lambda bay: replace(bay, deep=bay.deep + by))


def _least(
    problem: LayoutProblem, lever: _Lever, step: Ticks, limits: Limits
) -> tuple[int, bool] | None:
    """Fewest steps that do, by halving; whether one fewer is proven not to do."""

    def fits(steps: int) -> Status:
        return everything_fits(lever.alter(problem, steps * step), limits, work=WORK)

    high = lever.most // step
    if high < 1 or fits(high) is not Status.OPTIMAL:
        return None
    low, low_status = 0, Status.INFEASIBLE
    while high - low > 1:
        middle = (low + high) // 2
        status = fits(middle)
        if status is Status.OPTIMAL:
            high = middle
        else:
            low, low_status = middle, status
    return high, low_status is Status.INFEASIBLE


def _text(job: Job, what: str, by: Ticks) -> str:
    amount = with_unit(by, job.unit)
    if what == "headroom":
        left = max(0, job.look.headroom - by)
        return (
            f"headroom {with_unit(left, job.unit)} instead of "
            f"{with_unit(job.look.headroom, job.unit)}"
        )
    bays = sum(case.bay_count for case in job.cases)
    if what == "width" and bays > 1:
        return f"{amount} more width in each bay"
    each = " of each case" if len(job.cases) > 1 else ""
    return f"{amount} more {what}{each}"


def leave_out(left: Mapping[str, int]) -> Change:
    """The change that stage 1 found: which things to leave out."""
    named = ", ".join(f"{count} x {name}" for name, count in left.items())
    return Change(what="leave out", text=f"leave out {named}", proven=False)
