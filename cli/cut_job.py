"""From a list of parts and stock to a finished cut plan: problems, answers, one plan."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from cli.cut_advice import advise_on
from cli.cut_options import StockOption
from cli.parts_file import PartRow
from solver.advice.lots import Answer, Problem
from solver.cuts import Saw
from solver.cutting.matched import Matched, numbered, solve_matched
from solver.cutting.problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    FirstCut,
    Stages,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.refuse import refuse_oversize
from solver.cutting.solve import CuttingAnswer, StickAnswer, solve_sticks
from solver.defaults import DEFAULTS
from solver.edition import RULES
from solver.errors import CannotBeDoneError
from solver.filling import shop_defaults
from solver.job import Shop
from solver.outcome import Limits, Status
from solver.plan import Cost, CutPlan, Timing, money
from solver.sequence.sequence import sequence
from solver.sequence.sticks import sequence_sticks
from solver.slack import least_slack, stick_with_slack, with_slack
from solver.stocked import Allowance, MatchedSet, Part, Piece, Sheet, Stick
from solver.units import Ticks, Unit, format_length, with_unit

NO_MATERIAL = "sheet"
"""Material of parts that name none."""


@dataclass(frozen=True)
class CutJob:
    """All that `casewright cut` was asked to do; lengths in ticks [tick].

    Attributes
    ----------
    mitre
        Added to a piece of moulding for each mitred end [tick].
    saws
        Saws there are; empty: those of the defaults.
    """

    rows: list[PartRow]
    stock: list[StockOption]
    unit: Unit
    kerf: Ticks
    edge_trim: Ticks
    margin: Ticks
    mitre: Ticks
    turn: bool
    stages: Stages
    first: FirstCut
    mouldings: bool
    saws: tuple[Saw, ...] = ()
    trimming: bool = True


def parts_of(job: CutJob) -> tuple[Part, ...]:
    """Return the single pieces as the plan's parts."""
    return tuple(_part(job, row, name) for row in job.rows for name in row.names)


def _part(job: CutJob, row: PartRow, name: str) -> Part:
    extra = row.mitres * job.mitre
    return Part(
        id=name,
        name=row.part,
        case="",
        material=row.material or ("moulding" if job.mouldings else NO_MATERIAL),
        length=row.length + extra,
        width=row.width,
        thickness=row.thickness,
        grain=row.grain,
        allowances=(Allowance(what="mitre", length=extra),) if extra else (),
        set=row.set,
    )


def solve(job: CutJob, limits: Limits, *, advice: bool = False) -> CutPlan:
    """Cut everything, and find small changes that save stock where `advice` is wanted.

    Raises CannotBeDoneError where it cannot be cut.
    """
    started = time.monotonic()
    parts = parts_of(job)
    if job.mouldings:
        stick_problems = _stick_problems(job, parts)
        sticks = [_solve_sticks(problem, limits) for problem in stick_problems]
        plan = _stick_plan(job, parts, sticks, started)
        return _advised(job, plan, stick_problems, sticks, limits, started) if advice else plan
    problems = _problems(job, parts)
    _refuse_oversize(problems)
    shares = range(len(problems), 0, -1)
    found = [_solve_sheets(p, _share(limits, n)) for p, n in zip(problems, shares, strict=True)]
    answers = [one.answer for one in found]
    plan = _sheet_plan(job, parts, answers, started).model_copy(update={"sets": _sets(found)})
    return _advised(job, plan, problems, answers, limits, started) if advice else plan


def _advised(
    job: CutJob,
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


def _solve_sheets(problem: CuttingProblem, limits: Limits) -> Matched:
    return solve_matched(problem, limits)


def _sets(found: Sequence[Matched]) -> tuple[MatchedSet, ...]:
    return numbered(found)


def _solve_sticks(problem: StickProblem, limits: Limits) -> StickAnswer:
    return solve_sticks(problem, limits)


def _groups(parts: tuple[Part, ...]) -> dict[tuple[str, Ticks], list[Part]]:
    """Parts by material and thickness: each is bought for itself."""
    groups: dict[tuple[str, Ticks], list[Part]] = {}
    for part in parts:
        groups.setdefault((part.material, part.thickness), []).append(part)
    return groups


def _problems(job: CutJob, parts: tuple[Part, ...]) -> list[CuttingProblem]:
    problems = []
    for (material, thickness), some in _groups(parts).items():
        label = _label(job, material, thickness)
        problems.append(
            CuttingProblem(
                parts=tuple(
                    CutPart(p.id, p.width, p.length, may_turn=False, set=p.set)
                    if p.grain == "width"
                    else CutPart(p.id, p.length, p.width, job.turn and p.grain == "any", p.set)
                    for p in some
                ),
                sheets=tuple(
                    CutSheet(
                        f"{label}{_size(s, job.unit)}",
                        material,
                        s.length,
                        s.width,
                        s.price,
                        limit=s.limit,
                    )
                    for s in job.stock
                ),
                kerf=job.kerf,
                edge_trim=job.edge_trim,
                margin=job.margin,
                stages=job.stages,
                trimming=job.trimming,
                first_cut=job.first,
                unit=job.unit,
            )
        )
    return problems


def _stick_problems(job: CutJob, parts: tuple[Part, ...]) -> list[StickProblem]:
    return [
        StickProblem(
            pieces=tuple(StickPart(p.id, p.length) for p in some),
            sticks=tuple(
                StickStock(
                    f"{_label(job, material, thickness)}{with_unit(s.length, job.unit)}",
                    s.length,
                    s.price,
                    limit=s.limit,
                )
                for s in job.stock
            ),
            kerf=job.kerf,
            unit=job.unit,
            margin=job.margin,
        )
        for (material, thickness), some in _groups(parts).items()
    ]


def _label(job: CutJob, material: str, thickness: Ticks) -> str:
    """Name what is bought, as far as the list names it: `oak ply 18 mm, `."""
    words = [] if material in (NO_MATERIAL, "moulding") else [material]
    words += [with_unit(thickness, job.unit)] if thickness else []
    return " ".join(words) + ", " if words else ""


def _size(stock: StockOption, unit: Unit) -> str:
    return f"{format_length(stock.length, unit)} x {with_unit(stock.width, unit)}"


def _sheet_plan(
    job: CutJob, parts: tuple[Part, ...], answers: list[CuttingAnswer], started: float
) -> CutPlan:
    across = {part.id for part in parts if part.grain == "width"}
    sheets = tuple(_lying_across(sheet, across) for answer in answers for sheet in answer.sheets)
    ordered = sequence(sheets, shop_of(job), parts)
    cost = sum((answer.cost for answer in answers), money(0))
    return CutPlan(
        rules=RULES,
        unit=job.unit,
        status=_status([answer.status for answer in answers]),
        sheets=tuple(with_slack(sheet) for sheet in ordered.sheets),
        settings=ordered.settings,
        shop=shop_of(job),
        sheet_count=sum(answer.sheet_count for answer in answers),
        sheet_bound=sum(answer.sheet_bound for answer in answers),
        cost=_cost(job, cost, sum((a.cost_bound for a in answers), money(0)), sheets),
        parts=parts,
        least_slack=least_slack(ordered.sheets, ()),
        timing=Timing(seconds=round(time.monotonic() - started, 3)),
    )


def shop_of(job: CutJob) -> Shop:
    """Return the shop that the cuts are meant for: that of the defaults, with the saws named."""
    return Shop.model_validate(
        {
            **shop_defaults(job.unit),
            **({"saws": job.saws} if job.saws else {}),
            "kerf": job.kerf,
            "edge_trim": job.edge_trim,
            "margin": job.margin,
            "stages": job.stages,
            "trimming": job.trimming,
            "first_cut": job.first,
        }
    )


def _stick_plan(
    job: CutJob, parts: tuple[Part, ...], answers: list[StickAnswer], started: float
) -> CutPlan:
    ordered = sequence_sticks([stick for answer in answers for stick in answer.sticks])
    sticks = tuple(stick_with_slack(stick) for stick in ordered)
    cost = sum((answer.cost for answer in answers), money(0))
    return CutPlan(
        rules=RULES,
        unit=job.unit,
        status=_status([answer.status for answer in answers]),
        mouldings=sticks,
        sheet_count=sum(answer.stick_count for answer in answers),
        sheet_bound=sum(answer.stick_bound for answer in answers),
        cost=_cost(job, cost, sum((a.cost_bound for a in answers), money(0)), sticks),
        parts=parts,
        least_slack=least_slack((), sticks),
        timing=Timing(seconds=round(time.monotonic() - started, 3)),
    )


def _status(statuses: list[Status]) -> Status:
    return Status.OPTIMAL if set(statuses) <= {Status.OPTIMAL} else Status.FEASIBLE


def _cost(
    job: CutJob, cost: Decimal, bound: Decimal, stock: tuple[Sheet, ...] | tuple[Stick, ...]
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
