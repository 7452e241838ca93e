"""The part of :mod:`tests.mutations` that is about slack; and slack kept true by the others."""

from __future__ import annotations

from solver.checking.findings import Code
from solver.cutting.slack import least_slack, stick_with_slack, with_slack
from solver.plan.plan import Option, Plan
from tests.edits import both, in_option, more
from tests.mutations_cutting import Change

SLACK: dict[Code, Change] = {
    Code.CUT_SLACK: in_option("sheets.0.slack.strips.3.along", more(1)),
    Code.STICK_SLACK: in_option("mouldings.0.slack", more(1)),
    Code.CUT_SLACK_LEAST: in_option("least_slack", more(-1)),
}


def keeping_slack(change: Change) -> Change:
    """Bring the slack up to date after a change of pieces, which is about another rule."""
    return both(change, slack_up_to_date)


def slack_up_to_date(plan: Plan) -> Plan:
    """The plan with the slack that its pieces leave."""
    return plan.model_copy(update={"options": tuple(_option(one) for one in plan.options)})


def _option(option: Option) -> Option:
    return option.model_copy(
        update={
            "sheets": tuple(with_slack(sheet) for sheet in option.sheets),
            "mouldings": tuple(stick_with_slack(stick) for stick in option.mouldings),
            "least_slack": least_slack(option.sheets, option.mouldings),
        }
    )
