"""The part of :mod:`tests.mutations` about the look; and the look kept true by the others."""

from __future__ import annotations

from typing import Any

from solver.checking.findings import Code
from solver.checking.look_scores import MEASURES, places_parted, steps_mean, steps_range
from solver.checking.structure import view
from solver.checking.views import OptionView
from solver.job.holds import Hold
from solver.plan.plan import LeftOut, Option, Plan, Scores, ShortBy, Stage
from tests.edits import both, in_job, in_option
from tests.mutations_cutting import Change

STAGES = (
    *("fit", "price", "size", "asked", "empty", "mirrored", "headings", "together", "alone"),
    *("rises", "to-fit", "void", "roomy", "beside", "air", "sight", "heavy", "composition"),
)
"""Stages of the good plan, in their order."""


def stage(name: str) -> str:
    """Path of a stage of the good plan."""
    return f"stages.{STAGES.index(name)}"


def at_value(name: str, value: float) -> Change:
    """A stage that is proven to have another value."""
    where = stage(name)
    return both(in_option(f"{where}.value", value), in_option(f"{where}.bound", value))


def _without(name: str) -> Change:
    def change(old: tuple[Stage, ...]) -> tuple[Stage, ...]:
        return tuple(one for one in old if one.name != name)

    return in_option("stages", change)


def _steady_or_even(plan: Plan) -> Plan:
    """Even spacing instead of a steady fall, though the steps are 1 and 0 mm."""
    plan = in_job("look.rhythm", "steady")(plan)
    differences = 2.0 * 1  # 290, 289, 289 mm
    plan = in_option(f"{stage('to-fit')}.name", "even")(plan)
    return in_option(f"{stage('to-fit')}.value", differences)(plan)


def _unsaid(plan: Plan) -> Plan:
    """A second jug that is left out, of which the stage of fit says only how large it is."""
    left = (LeftOut(item="jug", count=1, short_by=ShortBy()),)
    changes = (
        in_job("items.5.count", 2),
        in_option("left_out", left),
        in_option("tags", ()),
        in_option("why", "no room"),
        at_value("fit", 100.0 * 150),
    )
    return both(*changes)(plan)


def left_out_said(name: str) -> Change:
    """Say in the stage of fit what is left out."""
    return in_option(f"{stage('fit')}.note", f"left out: {name}")


LOOK: dict[Code, Change] = {
    Code.LOOK_LISTED: _without("void"),
    Code.LOOK_EVEN: _steady_or_even,
    Code.LOOK_VALUE: in_option(f"{stage('air')}.value", 162.0 + 1 / 320),
    Code.LOOK_SAID: _unsaid,
    # Carriage clock, then books: their order is the other way round.
    Code.ROWS_SERIES: both(in_job("items.4.order", 2), in_job("items.6.order", 1)),
    Code.ROWS_APART: in_job("items.5.apart", ("mantel clock",)),
    Code.HELD_PLACE: in_job(
        "holds", (Hold.model_validate({"item": "jug", "opening": 1, "place": 1}),)
    ),
    Code.HELD_EMPTY: in_job(
        "holds",
        (Hold.model_validate({"case": "hall", "bay": 2, "opening": 0, "empty": True}),),
    ),
    Code.SCORES_PARTED: in_option("scores.places_parted", 2),
    Code.SCORES_STEPS: in_option("scores.steps_mean", lambda old: old + 1),
    Code.SCORES_OUTLINE: in_option("scores.outline_missed", lambda old: old + 0.1),
}


def keeping_look(change: Change) -> Change:
    """Bring the figures of the look up to date after a change that is about another rule."""
    return both(change, up_to_date)


def up_to_date(plan: Plan) -> Plan:
    """The plan with stages and scores of the look as its layout has them."""
    options = tuple(_option(plan, option) for option in plan.options)
    return plan.model_copy(update={"options": options})


def _option(plan: Plan, option: Option) -> Option:
    seen = view(plan, option)
    if not seen.whole or option.scores is None:
        return option
    stages = tuple(_stage(seen, one) for one in option.stages)
    return option.model_copy(update={"stages": stages, "scores": _scores(seen, option.scores)})


def _stage(seen: OptionView, one: Stage) -> Stage:
    measure = MEASURES.get(one.name)
    if measure is None:
        return one
    value = float(measure(seen))
    update: dict[str, Any] = {"value": value}
    if one.proven and one.value == one.bound:
        update["bound"] = value
    return one.model_copy(update=update)


def _scores(seen: OptionView, scores: Scores) -> Scores:
    figures = {
        "places_parted": places_parted(seen),
        "steps_range": steps_range(seen),
        "steps_mean": steps_mean(seen),
    }
    return scores.model_copy(update=figures)
