"""Rules on what an option or a cut plan claims to have proven."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal, InvalidOperation

from solver.checking.findings import Code, Finding, finding
from solver.checking.structure import option_where
from solver.checking.views import same
from solver.job.case import Case, SizeRange
from solver.outcome import Status
from solver.plan.built import CasePlan
from solver.plan.plan import CutPlan, Option, Plan, Stage
from solver.plan.stage_units import AFTER_RHYTHM, STAGE_UNITS
from solver.units import TICKS_PER_MM, Ticks

PROVABLE = tuple(
    name
    for name in STAGE_UNITS
    if name not in AFTER_RHYTHM and name not in ("marks moved", "things moved")
)
"""Stages that `optimal` speaks of."""
NEEDED = ("fit", "price")
"""Stages that no optimal option goes without; what the look calls for is told in
:mod:`solver.checking.look_stages`."""


def figure(value: float | str | None) -> Decimal | None:
    """A stage's figure as a number; None where there is none."""
    try:
        number = Decimal("NaN") if value is None else Decimal(str(value))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def _where(option: Option, stage: Stage) -> str:
    return f"{option_where(option)}, stage {stage.name!r}"


def stages(_: Plan, option: Option) -> Iterator[Finding]:
    """Every stage is one of the order of wishes, each once, in its own unit."""
    has = [(stage.name, stage.unit) for stage in option.stages]
    needs = [(name, unit) for name, unit in STAGE_UNITS.items() if (name, unit) in has]
    yield from same(Code.STATUS_STAGES, option_where(option), "stages and units", needs, has)


def optimal(_: Plan, option: Option) -> Iterator[Finding]:
    """What is called optimal lists fit and price, and has proven every stage up to the rhythm."""
    if option.status is not Status.OPTIMAL:
        return
    names = [stage.name for stage in option.stages]
    for name in NEEDED:
        if name not in names:
            yield finding(
                Code.STATUS_OPTIMAL, option_where(option), f"stage {name!r}", "listed", "missing"
            )
    for stage in option.stages:
        if stage.name in PROVABLE and not stage.proven:
            yield finding(
                Code.STATUS_OPTIMAL, _where(option, stage), "proof", "complete", "not complete"
            )


def proven(plan: Plan, option: Option) -> Iterator[Finding]:
    """A stage is proven only where its value meets its bound; a steady fall, within one mark."""
    for stage in option.stages:
        value, bound = figure(stage.value), figure(stage.bound)
        near = _step(plan) if stage.name in ("steady", "graduated") else Decimal(0)
        met = value is not None and bound is not None and 0 <= value - bound <= near
        if stage.proven and not met:
            yield finding(
                Code.STATUS_PROVEN,
                _where(option, stage),
                "value of a proven stage",
                f"{stage.bound}, or up to {near} more" if near else str(stage.bound),
                str(stage.value),
            )


def _step(plan: Plan) -> Decimal:
    """Largest step that marks of the job fall on [mm]."""
    pitches = [case.pin_pitch for case in plan.job.cases if case.fixing == "pins"]
    return Decimal(max(plan.job.head.marking_step, *pitches, 0)) / TICKS_PER_MM


def bound(_: Plan, option: Option) -> Iterator[Finding]:
    """No value is less than its bound; every stage asks for the least of something."""
    for stage in option.stages:
        value, limit = figure(stage.value), figure(stage.bound)
        if stage.proven or value is None or limit is None:
            continue
        if value < limit:
            yield finding(
                Code.STATUS_BOUND,
                _where(option, stage),
                "value",
                f"at least {stage.bound}",
                str(stage.value),
            )


def left_out(_: Plan, option: Option) -> Iterator[Finding]:
    """An option that leaves things out is not optimal."""
    if option.left_out and option.status is Status.OPTIMAL:
        yield finding(
            Code.STATUS_LEFT_OUT,
            option_where(option),
            "status of an option that leaves things out",
            "infeasible, feasible or unknown",
            "optimal",
        )


def why(_: Plan, option: Option) -> Iterator[Finding]:
    """An option that is infeasible or leaves things out says why."""
    if (option.left_out or option.status is Status.INFEASIBLE) and not (option.why or "").strip():
        yield finding(Code.STATUS_WHY, option_where(option), "reason", "given", "not given")


def layout(_: Plan, option: Option) -> Iterator[Finding]:
    """What is optimal or feasible has a layout; what has one that fits everything is one of them.

    A layout comes with parts, cost and scores, and these with a layout.
    """
    solved = option.status in (Status.OPTIMAL, Status.FEASIBLE)
    where = option_where(option)
    if solved and not option.cases:
        yield finding(Code.STATUS_LAYOUT, where, "layout", "given", "missing")
    if not solved and option.fits_all:
        yield finding(
            Code.STATUS_LAYOUT,
            where,
            "status of a layout that leaves nothing out",
            "optimal or feasible",
            option.status.value,
        )
    for name, given in (
        ("cost", option.cost is not None),
        ("scores", option.scores is not None),
        ("list of parts", bool(option.parts)),
    ):
        if given != bool(option.cases):
            needs = "given" if option.cases else "left off"
            yield finding(Code.STATUS_LAYOUT, where, name, needs, "given" if given else "missing")


def price(_: Plan, option: Option) -> Iterator[Finding]:
    """The price reached is the cost of sheets and mouldings, where all have prices."""
    if option.cost is None or not option.cost.complete:
        return
    stock = option.cost.sheets + option.cost.mouldings
    for stage in option.stages:
        if stage.name == "price" and stage.unit == "money" and figure(stage.value) != stock:
            yield finding(
                Code.STATUS_PRICE, _where(option, stage), "value", str(stock), str(stage.value)
            )


def fit(plan: Plan, option: Option) -> Iterator[Finding]:
    """The stage of what fits counts the visible area left out, each thing's in whole mm2."""
    areas = {item.name: -(-item.width * item.height // TICKS_PER_MM**2) for item in plan.job.items}
    needs = sum(left.count * areas.get(left.item, 0) for left in option.left_out)
    for stage in option.stages:
        value = figure(stage.value)
        if option.cases and stage.name == "fit" and value is not None and value != needs:
            yield finding(
                Code.STATUS_FIT, _where(option, stage), "value", str(needs), str(stage.value)
            )


def size(plan: Plan, option: Option) -> Iterator[Finding]:
    """The stage of sizes is how far the open sizes are from those wished, all together."""
    needs = Decimal(_away(plan, option)) / TICKS_PER_MM
    for stage in option.stages:
        value = figure(stage.value)
        if option.cases and stage.name == "size" and value is not None and value != needs:
            yield finding(
                Code.STATUS_SIZE, _where(option, stage), "value", f"{needs} mm", f"{value} mm"
            )


def _away(plan: Plan, option: Option) -> Ticks:
    """How far the open sizes are from those wished, all cases together [tick]."""
    planned = {case.name: case for case in option.cases}
    return sum(
        abs(has - wanted.wished)
        for case in plan.job.cases
        if case.name in planned and planned[case.name].bays
        for wanted, has in _sizes(plan, case, planned[case.name])
        if isinstance(wanted, SizeRange)
    )


def _sizes(
    plan: Plan, case: Case, planned: CasePlan
) -> Iterator[tuple[int | SizeRange | None, Ticks]]:
    """Each size of a case as ordered, and as planned in the same terms [tick]."""
    boards = 2 * plan.job.thickness(case.material) if case.sizes == "inside" else 0
    toe = case.raised_bottom if case.sizes == "inside" else 0
    with_back = case.sizes == "outside" and case.back != "none"
    back = plan.job.thickness(case.back) if with_back else 0
    yield case.width, planned.outside.width - boards
    yield case.height, planned.outside.height - boards - toe
    yield case.depth, planned.bays[0].inside.depth + back


OPTION_RULES = (stages, optimal, proven, bound, left_out, why, layout, fit, price, size)
"""All rules on one option's claims."""


def cut_status(plan: CutPlan) -> Iterator[Finding]:
    """A cut plan is optimal only where its cost meets its bound; one that has a layout is solved.

    Without prices it is the count that has to meet its bound, if all sheets are of one stock.
    """
    if plan.status not in (Status.OPTIMAL, Status.FEASIBLE):
        yield finding(
            Code.STATUS_LAYOUT, "cut plan", "status", "optimal or feasible", plan.status.value
        )
    stock = plan.cost.sheets + plan.cost.mouldings
    alike = len({piece.stock for piece in (plan.sheets or plan.mouldings or ())}) <= 1
    if plan.cost.complete:
        met = plan.cost.stock_bound == stock
    else:
        met = plan.sheet_bound == plan.sheet_count or not alike
    if plan.status is Status.OPTIMAL and not met:
        yield finding(
            Code.STATUS_OPTIMAL,
            "cut plan",
            "bounds of an optimal plan (cost, count)",
            f"{stock}, {plan.sheet_count}",
            f"{plan.cost.stock_bound}, {plan.sheet_bound}",
        )
