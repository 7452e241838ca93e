"""For each rule on the sag of shelves, a change that breaks it in the good plan, and only it.

The good plan itself tells nothing of strength, as plans of before; each change first adds it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from solver.checking.findings import Code
from solver.plan.plan import Plan
from solver.planning.assemble import sag_notes
from solver.strength.shelves_of_plan import strength_of
from tests.edits import both, in_job, in_option, more, put
from tests.mutations_cutting import Change


def with_strength(plan: Plan) -> Plan:
    """The plan with the sag of its shelves, worked out from its job."""
    found = strength_of(plan.job, plan.options[0].cases)
    return put(plan, "options.0.strength", found)


def _loaded_at_display(plan: Plan) -> Plan:
    """The bowls weigh 3 kg each, and the job holds its shelves to the display limits."""
    site = plan.job.ground.model_copy(update={"sag": "display"})
    plan = both(in_job("items.1.weight", 3000), in_job("site", site))(plan)
    for c, case in enumerate(plan.options[0].cases):
        for b, bay in enumerate(case.bays):
            for o, opening in enumerate(bay.openings):
                items = tuple(
                    thing.model_copy(update={"mass": 3000}) if thing.item == "bowl" else thing
                    for thing in opening.items
                )
                new = {"items": items, "load": sum(thing.mass for thing in items)}
                path = f"cases.{c}.bays.{b}.openings.{o}"
                plan = in_option(path, opening.model_copy(update=new))(plan)
    return with_strength(plan)


def _noted(plan: Plan) -> Plan:
    """Every shelf over the limit held is named in the option's notes."""
    found = plan.options[0].strength
    assert found is not None
    notes = (*plan.options[0].notes, *sag_notes(found))
    return in_option("notes", notes)(plan)


def _then(path: str, value: Any) -> Change:
    return both(with_strength, in_option(f"strength.{path}", value))


def _best_not_worst(plan: Plan) -> Plan:
    plan = with_strength(plan)
    found = plan.options[0].strength
    assert found is not None
    shares = [one.sag_first / one.span for one in found.shelves]
    return in_option("strength.worst", shares.index(min(shares)))(plan)


def _one_twice(plan: Plan) -> Plan:
    """The first shelf listed once more at the end; the worst stays the worst."""
    add: Callable[[Any], Any] = lambda shelves: (*shelves, shelves[0])  # noqa: E731
    return in_option("strength.shelves", add)(with_strength(plan))


STRENGTH: dict[Code, Change] = {
    Code.STRENGTH_LISTED: _one_twice,
    Code.STRENGTH_HELD: _then("held", "none"),
    Code.STRENGTH_SPAN: _then("shelves.0.load", more(1)),
    Code.STRENGTH_SAG: _then("shelves.0.sag_standard", more(1)),
    Code.STRENGTH_RATIO: _then("shelves.0.ratio", more(1)),
    Code.STRENGTH_ALLOWED: _then("shelves.0.allowed_industry", more(-1)),
    Code.STRENGTH_LOADS: _then("shelves.0.display_load", more(1)),
    Code.STRENGTH_LONGEST: _then("shelves.0.longest", more(1)),
    Code.STRENGTH_LOAD: both(_loaded_at_display, _noted),
    Code.STRENGTH_NOTED: _loaded_at_display,
    Code.STRENGTH_OVER: _then("shelves.0.over", ("display-first",)),
    Code.STRENGTH_WORST: _best_not_worst,
}
