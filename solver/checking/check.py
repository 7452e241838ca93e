"""Runs every rule on a plan and collects all findings; an empty answer is a good plan.

None of the rules raises on a bad plan.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from solver.checking import (
    advice,
    arrangement,
    band,
    cuts,
    hanging,
    have,
    heights_lines,
    held,
    housings,
    items,
    look_stages,
    parts,
    pieces,
    rows,
    sag,
    sawing,
    saws,
    scores,
    shelf_load,
    sizes,
    status,
    stock_cost,
    strip_slack,
    structure,
    swing,
    swing_figures,
    trim,
    whole,
)
from solver.checking.findings import Code, Finding
from solver.checking.pieces import SheetView
from solver.checking.views import OptionView, same
from solver.job.job import Shop
from solver.plan.plan import Cost, CutPlan, Option, Plan
from solver.plan.saw_cuts import SawSetting
from solver.plan.stocked import Part, SharedStock, Sheet, Stick
from solver.units import Ticks, Unit

STRUCTURE_RULES = (
    structure.cases,
    structure.case_as_ordered,
    structure.bays,
    structure.openings,
    structure.shelf_count,
    structure.shelf_count_shown,
)
CASE_RULES = (
    sizes.outside_width,
    sizes.outside_height,
    sizes.width_step,
    sizes.height_step,
    sizes.outside_depth,
    sizes.depth,
    sizes.depth_step,
    sizes.inside_depth,
    sizes.inside_height,
    sizes.bay_sum,
    sizes.bay_equal,
    sizes.bay_x,
    housings.opposite,
    swing.present,
    swing.swings,
)
BAY_RULES = (
    heights_lines.floor_lowest,
    heights_lines.heights_sum,
    heights_lines.shelf_thickness,
    heights_lines.shelf_top,
    heights_lines.shelf_depth,
    heights_lines.mark,
    heights_lines.first_hole,
)
OPENING_RULES = (
    heights_lines.floor_on_shelf,
    heights_lines.opening_height,
    heights_lines.clear_least,
    heights_lines.clear_most,
    heights_lines.lip_above,
    heights_lines.lip_below,
    items.size,
    items.lying,
    items.end_margin,
    items.front_margin,
    items.lip,
    items.back,
    items.mass,
    shelf_load.load,
    shelf_load.load_shown,
    shelf_load.load_limit,
    items.fill,
    arrangement.gap,
    arrangement.overlap,
    arrangement.on,
    arrangement.floating,
    arrangement.stack,
    arrangement.rows,
    arrangement.row_order,
    arrangement.riser,
    arrangement.headroom,
    arrangement.headroom_shown,
    arrangement.spare,
)
OPTION_RULES = (
    sizes.open_sizes,
    *heights_lines.RULES,
    items.unknown,
    items.count,
    items.left_out,
    items.number,
    arrangement.group,
    *rows.RULES,
    parts.listed,
    parts.name,
    parts.material,
    parts.sizes,
    parts.thickness,
    parts.grain,
    parts.allowance,
    parts.shelf_part,
    *stock_cost.RULES,
    *sag.RULES,
    advice.mends,
    *hanging.RULES,
    *have.RULES,
    swing.gaps,
    swing.noted,
    *swing_figures.RULES,
)


_CLAIMS = (*STRUCTURE_RULES, *status.OPTION_RULES, *advice.OPTION_RULES)
"""Rules on an option that need no layout."""


def check(plan: Plan) -> tuple[Finding, ...]:
    """Check a plan from itself alone: every rule, all findings, in the order of the rules.

    Parameters
    ----------
    plan
        The plan with the job as understood [-].

    Returns
    -------
    tuple of Finding
        Empty where the plan is good [-].
    """
    rules = (*whole.RULES, *held.PLAN_RULES, advice.near)
    findings = [finding for rule in rules for finding in rule(plan)]
    for option in plan.options:
        findings += check_option(plan, option)
    return tuple(findings)


def check_option(plan: Plan, option: Option) -> tuple[Finding, ...]:
    """Check one option of a plan: empty where it is good."""
    findings = [f for rule in _CLAIMS for f in rule(plan, option)]
    view = structure.view(plan, option)
    if option.cases:
        findings += _layout(view)
        findings += [f for rule in OPTION_RULES for f in rule(view)]
        if view.whole and not option.left_out:
            findings += [f for rule in held.OPTION_RULES for f in rule(view)]
        if view.whole:
            findings += [f for rule in band.RULES for f in rule(view)]
        findings += _own_stock(view) if option.shared is None else _of_batch(view, option.shared)
        findings += _scored(view)
    return tuple(findings)


def _own_stock(view: OptionView) -> Iterator[Finding]:
    yield from pieces.of_option(view)
    yield from _sheets(view)
    yield from _sticks(view)
    yield from _figures(view)


def _of_batch(view: OptionView, shared_stock: SharedStock) -> Iterator[Finding]:
    for rule in whole.SHARED_RULES:
        yield from rule(view, shared_stock)
    if view.option.cost is not None:
        yield from _currency(view, view.option.cost)


def _layout(view: OptionView) -> Iterator[Finding]:
    for case in view.cases:
        for case_rule in CASE_RULES:
            yield from case_rule(case)
    for bay in view.bays:
        for bay_rule in BAY_RULES:
            yield from bay_rule(bay)
    for opening in view.openings:
        for opening_rule in OPENING_RULES:
            yield from opening_rule(opening)


def _sheets(view: OptionView) -> Iterator[Finding]:
    option, there = view.option, have.parts_on_hand(view)
    listed = {part.id: part for part in option.parts}
    wanted = {ident: part for ident, part in listed.items() if ident not in there}
    yield from pieces.each_once(option.sheets, wanted, view.where)
    yield from of_sheets(option.sheets, listed, view.job.shop, view.where, view.unit)
    yield from of_settings(option.settings, option.sheets, view.where)


def _sticks(view: OptionView) -> Iterator[Finding]:
    option, there = view.option, have.parts_on_hand(view)
    needs = {ident: one for case in view.cases for ident, one in trim.moulded(case).items()}
    lengths = {ident: length for ident, (_, length) in needs.items() if ident not in there}
    names = {ident: name for ident, (name, _) in needs.items()}
    if view.whole:
        yield from strip_slack.each_once(option.mouldings, lengths, view.where)
    margin = view.job.shop.margin
    yield from of_sticks(option.mouldings, lengths, view.where, view.unit, (names, margin))


def of_sheets(
    sheets: Sequence[Sheet],
    parts: Mapping[str, Part],
    shop: Shop | None,
    where: str,
    unit: Unit,
    *,
    patterns: bool = True,
) -> Iterator[Finding]:
    """Check sheets as their pieces lie, and as they are sawn.

    `parts` are all that may lie on them; without `patterns` the first cut and the stages that the
    shop asks for are left aside.
    """
    for number, sheet in enumerate(sheets, start=1):
        view = SheetView(sheet, parts, unit, stock_cost.sheet_where(where, number, sheet))
        for rule in (*pieces.RULES, *cuts.RULES, strip_slack.sheet):
            yield from rule(view)
        sawn = sawing.SawView(view, shop)
        for saw_rule in (*sawing.RULES, *saws.RULES):
            yield from saw_rule(sawn)
        if patterns and shop is not None:
            for shop_rule in cuts.SHOP_RULES:
                yield from shop_rule(view, shop)


def of_settings(
    rows: Sequence[SawSetting], sheets: Sequence[Sheet], where: str
) -> Iterator[Finding]:
    """Check the settings of the saws against the cuts of the sheets."""
    yield from saws.settings(rows, sheets, where)
    yield from saws.settings_order(rows, where)
    yield from saws.stands(rows, where)


def of_sticks(
    sticks: Sequence[Stick],
    lengths: Mapping[str, Ticks],
    where: str,
    unit: Unit,
    ordered: tuple[Mapping[str, str], Ticks] | None = None,
) -> Iterator[Finding]:
    """Check sticks as they are cut.

    `lengths` are those of all pieces, by part id. `ordered` is the moulding of each piece and the
    margin to be kept, where both are known.
    """
    for number, stick in enumerate(sticks, start=1):
        place = stock_cost.sheet_where(where, number, stick)
        yield from strip_slack.pieces(stick, lengths, place, unit)
        if ordered is not None:
            yield from strip_slack.moulding(stick, ordered[0], place)
        yield from strip_slack.stick(stick, place, unit)
        if ordered is not None:
            yield from strip_slack.stick_margin(stick, ordered[1], place, unit)
        yield from strip_slack.cuts(stick, place, unit)
    yield from strip_slack.stops(sticks, where, unit)


def _figures(view: OptionView) -> Iterator[Finding]:
    option = view.option
    yield from strip_slack.least(
        option.sheets, option.mouldings, option.least_slack, view.where, view.unit
    )
    if option.cost is not None:
        yield from _currency(view, option.cost)
        yield from of_purchase(
            stock_cost.Bought(
                view.where,
                option.sheets,
                option.mouldings,
                option.sheet_count,
                option.sheet_bound,
                option.cost,
            )
        )


def _currency(view: OptionView, has: Cost) -> Iterator[Finding]:
    needs = view.job.head.currency
    yield from same(Code.COST_CURRENCY, view.where, "currency", needs, has.currency)


def _scored(view: OptionView) -> Iterator[Finding]:
    if not view.whole:
        return
    for stage_rule in look_stages.RULES:
        yield from stage_rule(view)
    if view.option.scores is not None:
        for rule in scores.RULES:
            yield from rule(view, view.option.scores)


def of_purchase(bought: stock_cost.Bought) -> Iterator[Finding]:
    """Check counts and prices against the sheets and sticks."""
    for rule in stock_cost.COST_RULES:
        yield from rule(bought)


def check_cut(cut_plan: CutPlan) -> tuple[Finding, ...]:
    """Check the answer of `casewright cut` from itself alone: empty where it is good."""
    return tuple(_cut_rules(cut_plan))


def _cut_rules(plan: CutPlan) -> Iterator[Finding]:
    parts_of = {part.id: part for part in plan.parts}
    where, sheets, sticks = "cut plan", plan.sheets or (), plan.mouldings or ()
    if plan.mouldings is None:
        yield from pieces.each_once(sheets, parts_of, where)
    else:
        lengths = {part.id: part.length for part in plan.parts}
        yield from strip_slack.each_once(sticks, lengths, where)
        yield from of_sticks(sticks, lengths, where, plan.unit)
    yield from of_sheets(sheets, parts_of, plan.shop, where, plan.unit, patterns=False)
    yield from of_settings(plan.settings, sheets, where)
    yield from strip_slack.least(sheets, sticks, plan.least_slack, where, plan.unit)
    yield from pieces.of_cut(plan, where)
    yield from status.cut_status(plan)
    yield from of_purchase(
        stock_cost.Bought(where, sheets, sticks, plan.sheet_count, plan.sheet_bound, plan.cost)
    )
