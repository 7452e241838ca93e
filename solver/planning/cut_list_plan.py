"""The plan of a list of parts: each material cut by itself, the order of the cuts, advice."""

from __future__ import annotations

import time
from collections.abc import Sequence
from decimal import Decimal

from solver.changes.change_models import Problem, lot_of
from solver.changes.saving_changes import AdviceScope, Advised, advise
from solver.cutting.cutting_answer import Answer, SheetAnswer, StickAnswer
from solver.cutting.cutting_problem import CuttingProblem
from solver.cutting.matched_sets import numbered, solve_matched
from solver.cutting.oversize import refuse_oversize
from solver.cutting.slack import least_slack, stick_with_slack, with_slack
from solver.errors import CannotBeDoneError
from solver.job.defaults import DEFAULTS
from solver.outcome import Limits, Status
from solver.plan.plan import Cost, CutPlan, Timing, money
from solver.plan.stocked import Part, Piece, Sheet, Stick
from solver.planning.cut_list import CutList, parts_of, sheet_problems, shop_of, stick_problems
from solver.rules_version import RULES
from solver.sequence.sequencing import sequence, sequence_sticks
from solver.sticks.solve_sticks import solve_sticks
from solver.units import Ticks, Unit

TIME_SHARE = 0.3
"""Share of the time limit that advice may take, where so much is left [-]."""

TIME_LEAST = 0.02
"""With less of the time limit left than this share, advice is not begun [-]."""

WORK_SHARE = 0.01
"""Share of the work that cutting one changed list may take [-]."""

NO_TIME = "no advice: the time limit was used up by the cutting; give more with --time-limit"


def solve(job: CutList, limits: Limits, *, advice: bool = False) -> CutPlan:
    """Cut everything, and find small changes that save stock where `advice` is wanted.

    Raises CannotBeDoneError where it cannot be cut.
    """
    started = time.monotonic()
    parts = parts_of(job)
    if job.mouldings:
        lots = stick_problems(job, parts)
        sticks = [solve_sticks(problem, limits) for problem in lots]
        plan = _stick_plan(job, parts, sticks, started)
        return _advised(job, plan, lots, sticks, limits, started) if advice else plan
    problems = sheet_problems(job, parts)
    _refuse_oversize(problems)
    shares = range(len(problems), 0, -1)
    matched = [solve_matched(p, _share(limits, n)) for p, n in zip(problems, shares, strict=True)]
    answers = [one.answer for one in matched]
    plan = _sheet_plan(job, parts, answers, started).model_copy(update={"sets": numbered(matched)})
    return _advised(job, plan, problems, answers, limits, started) if advice else plan


def _advised(
    job: CutList,
    plan: CutPlan,
    problems: Sequence[Problem],
    answers: Sequence[Answer],
    limits: Limits,
    started: float,
) -> CutPlan:
    """Return the plan with advice; the time that it took is part of the plan's."""
    found = advise_on(problems, answers, plan.parts, (job.margin, job.unit), limits)
    timing = Timing(seconds=round(time.monotonic() - started, 3))
    update = {"advice": found.advice, "advice_note": found.note, "timing": timing}
    return plan.model_copy(update=update)


def _refuse_oversize(problems: Sequence[CuttingProblem]) -> None:
    """Raise for all materials at once, before any is cut, what is too large for every sheet."""
    why = []
    for problem in problems:
        try:
            refuse_oversize(problem)
        except CannotBeDoneError as error:
            why.append(str(error))
    if why:
        raise CannotBeDoneError("\n".join(why))


def _share(limits: Limits, among: int) -> Limits:
    """Return the time left for one of so many materials that are still to be cut."""
    return Limits(limits.seed, limits.work, limits.seconds_left / among, limits.stopper)


def _sheet_plan(
    job: CutList, parts: tuple[Part, ...], answers: list[SheetAnswer], started: float
) -> CutPlan:
    across = {part.id for part in parts if part.grain == "width"}
    sheets = tuple(_lying_across(sheet, across) for answer in answers for sheet in answer.stock)
    ordered = sequence(sheets, shop_of(job), parts)
    cost = sum((answer.cost for answer in answers), money(0))
    return CutPlan(
        rules=RULES,
        unit=job.unit,
        status=_status([answer.status for answer in answers]),
        sheets=tuple(with_slack(sheet) for sheet in ordered.sheets),
        settings=ordered.settings,
        shop=shop_of(job),
        sheet_count=sum(answer.count for answer in answers),
        sheet_bound=sum(answer.count_bound for answer in answers),
        cost=_cost(job, cost, sum((a.cost_bound for a in answers), money(0)), sheets),
        parts=parts,
        least_slack=least_slack(ordered.sheets, ()),
        timing=Timing(seconds=round(time.monotonic() - started, 3)),
    )


def _stick_plan(
    job: CutList, parts: tuple[Part, ...], answers: list[StickAnswer], started: float
) -> CutPlan:
    ordered = sequence_sticks([stick for answer in answers for stick in answer.stock])
    sticks = tuple(stick_with_slack(stick) for stick in ordered)
    cost = sum((answer.cost for answer in answers), money(0))
    return CutPlan(
        rules=RULES,
        unit=job.unit,
        status=_status([answer.status for answer in answers]),
        mouldings=sticks,
        sheet_count=sum(answer.count for answer in answers),
        sheet_bound=sum(answer.count_bound for answer in answers),
        cost=_cost(job, cost, sum((a.cost_bound for a in answers), money(0)), sticks),
        parts=parts,
        least_slack=least_slack((), sticks),
        timing=Timing(seconds=round(time.monotonic() - started, 3)),
    )


def _status(statuses: list[Status]) -> Status:
    return Status.OPTIMAL if set(statuses) <= {Status.OPTIMAL} else Status.FEASIBLE


def _cost(
    job: CutList, cost: Decimal, bound: Decimal, stock: tuple[Sheet, ...] | tuple[Stick, ...]
) -> Cost:
    currency = next(d for d in DEFAULTS if d.key == "currency").value(job.unit)
    return Cost(
        currency=currency,
        sheets=money(0) if job.mouldings else cost,
        mouldings=cost if job.mouldings else money(0),
        stock_bound=bound,
        total=cost,
        complete=all(one.price is not None for one in stock if not one.on_hand),
    )


def _lying_across(sheet: Sheet, across: set[str]) -> Sheet:
    """Mark the pieces whose grain runs along their width as turned: they lie across."""
    pieces = tuple(
        Piece(**{**dict(piece), "turned": piece.turned or piece.part in across})
        for piece in sheet.pieces
    )
    return sheet.model_copy(update={"pieces": pieces})


def advise_on(
    problems: Sequence[Problem],
    answers: Sequence[Answer],
    parts: Sequence[Part],
    kept: tuple[Ticks, Unit],
    limits: Limits,
) -> Advised:
    """Find small changes of a cut list that save stock; `kept` is margin [tick] and unit."""
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    if seconds < limits.seconds * TIME_LEAST or limits.stopper.stopped:
        return Advised((), NO_TIME)
    lots = [
        lot_of(_material(problem), problem, answer.stock)
        for problem, answer in zip(problems, answers, strict=True)
    ]
    asked = AdviceScope({part.id: part for part in parts}, kept[1], kept[0], split=may_split)
    share = Limits(limits.seed, limits.work * WORK_SHARE, seconds, limits.stopper)
    return advise(lots, asked, share)


def _material(problem: Problem) -> str:
    if isinstance(problem, CuttingProblem):
        return problem.sheets[0].material
    return problem.sticks[0].stock


def may_split(part: Part) -> bool:
    """Whether a part may be joined of two: a shelf carries a load between its ends, so never."""
    return "shel" not in part.name.lower()
