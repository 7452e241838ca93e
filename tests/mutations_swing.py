"""For each rule on the swing of hung cases, a change that breaks it in the good plan, and only it.

The good plan's case is on a wall; each change first hangs it in a doorway that it fits.
"""

from __future__ import annotations

from typing import Any

from solver.checking.findings import Code
from solver.doorway.swing_answer import planned_swing
from solver.job.assumed import explicit_defaults
from solver.job.doorway import Doorway
from solver.plan.plan import Plan
from tests.edits import both, in_job, in_option, more, put
from tests.mutations_cutting import Change
from tests.two_bays_job import DEPTH, WIDTH, mm

# A case of 1254 x 218 with a = c = 3: sqrt(1257^2 + 218^2) + 3 = 1278.8, so 1290 is enough.
OPENING = 1290
DOORWAY: dict[str, Any] = {
    **explicit_defaults("doorway", "mm"),
    "name": "wide doorway",
    "widths": [OPENING],
    "heights": [2000],
    "jamb_depth": 120,
    "swing": "out",
    "hinge_side": "left",
}


def hung(plan: Plan, doorway: dict[str, Any] = DOORWAY) -> Plan:
    """The plan with its case hung in the doorway, and its swing worked out."""
    door = Doorway.model_validate(doorway, context={"unit": "mm"})
    plan = both(
        in_job("doorways", (door,)),
        in_job("cases.0.doorway", door.name),
        in_job("cases.0.kind", "hung"),
        in_option("cases.0.kind", "hung"),
    )(plan)
    swing = planned_swing(plan.job, case := _settled(plan), {case.name: mm(DEPTH)})
    return put(plan, "options.0.cases.0.swing", swing)


def _settled(plan: Plan) -> Any:
    return plan.job.cases[0].model_copy(update={"width": mm(WIDTH)})


def _then(path: str, value: Any) -> Change:
    return both(hung, in_option(f"cases.0.swing.{path}", value))


SWING: dict[Code, Change] = {
    Code.SWING_PRESENT: both(hung, in_option("cases.0.swing", None), in_option(
        "notes", ("case 'hall' hangs in no doorway of the job",)
    )),
    Code.SWING_GAP: _then("latch_gap_needed", more(-1)),
    Code.SWING_GAP_AT_REST: _then("latch_gap", more(1)),
    Code.SWING_SWINGS: _then("binds_at", 12.5),
    Code.SWING_NOTED: _then("swings", False),
    Code.SWING_ORDERED: _then("hinge_gap", more(1)),
    Code.SWING_SIZES: _then("widest", more(1)),
    Code.SWING_ROOM: _then("tightest", more(1)),
    Code.SWING_PASSAGE: _then("passage_90", more(2)),
}  # fmt: skip

MORE: dict[str, tuple[Code, Change]] = {
    "it opens less far": (Code.SWING_ORDERED, _then("opens_to", more(-10))),
    "a smaller radius": (Code.SWING_SIZES, _then("radius", more(-1))),
    "narrower than could be": (Code.SWING_SIZES, _then("widest", more(-1))),
    "deeper than could be": (Code.SWING_SIZES, _then("deepest", more(1))),
    "less deep than could be": (Code.SWING_SIZES, _then("deepest", more(-1))),
    "no width would do": (Code.SWING_SIZES, _then("widest", None)),
    "no depth would do": (Code.SWING_SIZES, _then("deepest", None)),
    "less room": (Code.SWING_ROOM, _then("tightest", more(-1))),
    "a wider way": (Code.SWING_PASSAGE, _then("passage_full", more(400))),
    "a narrower way": (Code.SWING_PASSAGE, _then("passage_full", more(-400))),
}
"""Further changes, by what they change: the code that must be found, and no other."""
