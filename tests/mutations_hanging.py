"""For each rule on hanging sheets and mends, a change that breaks it in the good plan, and only it.

The good plan carries no sheets, as plans of before; each change first adds them.
"""

from __future__ import annotations

from typing import Any

from solver.checking.findings import Code
from solver.plan.plan import Plan
from solver.strength.hang_sheet import with_hanging
from tests.edits import both, in_job, in_option, more, put
from tests.mutations_cutting import Change
from tests.mutations_strength import with_strength
from tests.mutations_swing import hung


def with_sheets(plan: Plan) -> Plan:
    """The plan with the hanging sheets of its cases, worked out from its job."""
    return put(plan, "options.0", with_hanging(plan.job, plan.options[0]))


def hung_with_sheets(plan: Plan) -> Plan:
    """The plan with its case hung in a doorway, swing and sheets worked out."""
    return with_sheets(hung(plan))


def sagging(plan: Plan) -> Plan:
    """The plan with bowls of lead: one shelf over the display limits, with what mends it."""
    heavy = in_job("items.1.weight", 3_000)(plan)
    for at, opening in enumerate(heavy.options[0].cases[0].bays[0].openings):
        items = tuple(
            thing.model_copy(update={"mass": 3_000}) if thing.item == "bowl" else thing
            for thing in opening.items
        )
        new = {"items": items, "load": sum(thing.mass for thing in items)}
        path = f"options.0.cases.0.bays.0.openings.{at}"
        heavy = put(heavy, path, opening.model_copy(update=new))
    return with_strength(heavy)


def _sheet(path: str, value: Any, *, made: Change = with_sheets) -> Change:
    return both(made, in_option(f"hanging.cases.0.{path}", value))


def _figure(key: str, field: str, value: Any, *, made: Change = with_sheets) -> Change:
    """A change of one figure, named by its key."""

    def change(plan: Plan) -> Plan:
        plan = made(plan)
        hanging = plan.options[0].hanging
        assert hanging is not None
        at = next(i for i, one in enumerate(hanging.cases[0].figures) if one.key == key)
        return in_option(f"hanging.cases.0.figures.{at}.{field}", value)(plan)

    return change


def mend(what: str, field: str, value: Any) -> Change:
    """A change of one mend of the first shelf that has it."""

    def change(plan: Plan) -> Plan:
        plan = sagging(plan)
        strength = plan.options[0].strength
        assert strength is not None
        shelf, at = next(
            (s, m)
            for s, one in enumerate(strength.shelves)
            for m, found in enumerate(one.mends)
            if found.what == what
        )
        return in_option(f"strength.shelves.{shelf}.mends.{at}.{field}", value)(plan)

    return change


HANGING: dict[Code, Change] = {
    Code.HANG_LISTED: _sheet("kind", "standing"),
    Code.HANG_MASS: _sheet("empty", more(2)),
    Code.HANG_HINGES: _sheet("hinges.1.from_head", more(1), made=hung_with_sheets),
    Code.HANG_FIGURE: _figure("wall-out", "value", more(0.1)),
    Code.HANG_VERDICT: _figure("wall-out", "ok", False),
    Code.HANG_JOINTS: _sheet("joints.0.ends", more(1)),
    Code.HANG_CAUTION: both(with_sheets, in_option("hanging.cautions", ())),
    Code.STRENGTH_MENDS: mend("less load", "mass", more(1)),
}

MORE: dict[str, tuple[Code, Change]] = {
    **{
        f"{key} of a hung case": (
            Code.HANG_FIGURE,
            _figure(key, "value", lambda value: value * 1.001, made=hung_with_sheets),
        )
        for key in (
            *("pull-empty", "pull-loaded", "pull-full", "screw-out", "screw-down", "rating"),
            *("abuse", "droop", "foot", "back", "fastener", "joint", "joint-dado"),
        )
    },
    **{
        f"{key} on a wall": (Code.HANG_FIGURE, _figure(key, "value", lambda value: value * 1.001))
        for key in ("studs", "wall-out", "wall-down")
    },
    "a gram more of contents": (Code.HANG_MASS, _sheet("contents", more(1))),
    "more screws in a leaf": (
        Code.HANG_HINGES,
        _sheet("hinge.screws_per_leaf", more(1), made=hung_with_sheets),
    ),
    "another screw": (Code.HANG_JOINTS, _sheet("joints.3.fastener", "#8 x 1 in screw")),
    "the back fastened wider": (Code.HANG_JOINTS, _sheet("back.spacing", more(1))),
    "more round the back": (Code.HANG_JOINTS, _sheet("back.around", more(1))),
    "more across the back": (Code.HANG_JOINTS, _sheet("back.across", more(1))),
    "screws lower on the wall": (Code.HANG_JOINTS, _sheet("wall.from_top", more(1))),
    "a lip and a load": (Code.STRENGTH_MENDS, mend("lip", "mass", 1000)),
    "a load and a length": (Code.STRENGTH_MENDS, mend("less load", "length", 320)),
    "contents": (Code.HANG_MASS, _sheet("contents", more(-2))),
    "centre of gravity": (Code.HANG_MASS, _sheet("centre", lambda at: (at[0], at[1] + 2, at[2]))),
    "assumed weights": (Code.HANG_MASS, _sheet("assumed", ())),
    "a hinge too few": (
        Code.HANG_HINGES,
        _sheet("hinge.count", more(-1), made=hung_with_sheets),
    ),
    "a smaller leaf": (Code.HANG_HINGES, _sheet("hinge.leaf", more(-1), made=hung_with_sheets)),
    "fewer screws": (Code.HANG_HINGES, _sheet("hinge.screws", more(-1), made=hung_with_sheets)),
    "hinges on a wall": (
        Code.HANG_HINGES,
        lambda plan: put(
            with_sheets(plan),
            "options.0.hanging.cases.0.hinge",
            hung_with_sheets(plan).options[0].hanging.cases[0].hinge,  # type: ignore[union-attr]
        ),
    ),
    "no fastening of the back": (Code.HANG_JOINTS, _sheet("back", None)),
    "a stud too many": (Code.HANG_JOINTS, _sheet("wall.studs", more(1))),
    "no fixing to the wall": (Code.HANG_JOINTS, _sheet("wall", None)),
    "a lip that does not move": (Code.HANG_FIGURE, _figure("lip-moves", "value", 0.0)),
    "fewer fasteners round the back": (Code.HANG_JOINTS, _sheet("back.around", more(-1))),
    "fewer fasteners across the back": (Code.HANG_JOINTS, _sheet("back.across", 0)),
    "a lip too low": (Code.STRENGTH_MENDS, mend("lip", "length", more(-2 * 320))),
    "a lip higher than need be": (Code.STRENGTH_MENDS, mend("lip", "length", more(2 * 320))),
    "a board too thin": (Code.STRENGTH_MENDS, mend("thickness", "length", more(-320))),
    "a board thicker than need be": (Code.STRENGTH_MENDS, mend("thickness", "length", more(320))),
    "a board off its step": (Code.STRENGTH_MENDS, mend("thickness", "length", more(1))),
    "an upright short of half": (Code.STRENGTH_MENDS, mend("upright", "length", more(-1))),
    "an upright too far": (Code.STRENGTH_MENDS, mend("upright", "length", more(320))),
}
"""Further changes, by what they change: the code that must be found, and no other."""
