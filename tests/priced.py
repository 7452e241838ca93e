"""Plans of small jobs of every kind of case, for price, buy list and order of work."""

from __future__ import annotations

from functools import cache

from solver.outcome import Limits
from solver.plan.plan import Option, Plan
from solver.planning.plan_job import plan_job
from tests.doorways import placed_job
from tests.sample_plans import good_plan
from tests.trims import EVERY, PLAIN, trim_job

KINDS = (*EVERY, "two bays", "lit, two clear coats", "pair in a doorway")
"""Names of the plans."""


@cache
def plan_of_kind(name: str) -> Plan:
    """Return the plan of that name; "two bays" is made by hand, with lips, a toe and dadoes."""
    if name == "two bays":
        return good_plan()
    if name == "pair in a doorway":
        half = {"width": "20", "height": "79", "depth": "7", "above_floor": "3/4"}
        cases = [{**half, "name": "left"}, {**half, "name": "right"}]
        job = placed_job({"cases": cases}, widths=["42"])
        return plan_job(job, Limits(seconds=20), near=False)
    if name == "lit, two clear coats":
        lit = {"light": {"where": "shelves", "watts": 6}}
        job = trim_job("hung", PLAIN, case=lit, finish={"kind": "clear", "coats": 2})
        return plan_job(job, Limits(seconds=20), near=False)
    return plan_job(trim_job(*EVERY[name]), Limits(seconds=20), near=False)


def option_of_kind(name: str) -> Option:
    """Return its recommended option."""
    return plan_of_kind(name).options[0]
