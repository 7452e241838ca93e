"""The part of :mod:`tests.mutations` about held decisions, bands of thickness and comparisons."""

from __future__ import annotations

from solver.checking.findings import Code
from solver.job.holds import Hold
from solver.job.materials import ThicknessBand
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.band_parts import with_band
from solver.replan.comparison import comparison
from tests.edits import both, in_job, in_option, more, put
from tests.mutations_cutting import Change
from tests.two_bays_job import MARK_1, T, mm


def _held(**hold: object) -> Change:
    return in_job("holds", (Hold.model_validate(hold),))


def _band(least: int) -> Change:
    """The boards may be as thin as `least` mm."""
    return in_job("sheets.0.band", ThicknessBand(least=mm(least), most=mm(T)))


def _stated(plan: Plan) -> Plan:
    """Say what holds over the band, as the planner does."""
    option = with_band(plan.job, plan.options[0], Limits(work=0.1))
    return plan.model_copy(update={"options": (option, *plan.options[1:])})


def over_band(least: int) -> Change:
    """The good plan for boards that are not measured yet."""
    return both(_band(least), _stated)


def compared(plan: Plan) -> Plan:
    """The good plan, compared with itself."""
    option = plan.options[0]
    found = comparison(plan, option, plan.job, option)
    return plan.model_copy(update={"comparison": found})


def _in_band(path: str, value: object) -> Change:
    return both(over_band(T - 1), in_option(f"band.{path}", value))


def _in_comparison(path: str, value: object) -> Change:
    return both(compared, lambda plan: put(plan, f"comparison.{path}", value))


HELD: dict[Code, Change] = {
    Code.HELD_MARK: _held(case="hall", bay=1, shelf=1, mark=mm(MARK_1 + 1)),
    Code.HELD_THINGS: _held(item="mantel clock", opening=2),
    Code.BAND_STATED: _band(T - 1),
    # outside sizes: the top opening, 289 mm of 320 allowed, gains both boards beside it
    Code.BAND_FITS: over_band(T - 16),
    Code.BAND_ENDS: _in_band("ends.0.headroom_least", more(1)),
    Code.BAND_PARTS: _in_band("parts", lambda parts: parts[1:]),
    Code.COMPARED_FIGURES: _in_comparison("after.sheets", more(1)),
    Code.COMPARED_MOVED: _in_comparison("marks_kept", more(1)),
}
