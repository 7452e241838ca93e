"""Steps on site of a case that hangs in a doorway, and those that other kinds of case share."""

from __future__ import annotations

from collections.abc import Iterator

from solver.plan.work import Predecessor, StepCaution
from solver.work.finishing_steps import grouped
from solver.work.step_draft import CABLES, Draft, called_for
from solver.work.step_facts import CaseFacts


def opening_drafts(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    """Yield the steps that take the old door out and make the opening ready."""
    doorway, casing = facts.doorway, facts.word("casing")
    old = f"{casing}: {doorway.casing}" if doorway is not None and doorway.casing else ""
    yield Draft(
        facts.key("old door"),
        f"Old door, stop and {casing} out",
        "site",
        facts.name,
        (
            "pins out from the bottom up, door down; stop and its nails out; what goes back is "
            "numbered and kept",
            *((old,) if old else ()),
        ),
        ("screwdriver", "flat bar", "knife for the paint line", "pliers"),
        called_for(cautions, "panel", "shut-off"),
        takes=(("old door out", 0), ("disposal", 0)),
        shared=True,
        after=(facts.after("protect"),),
    )
    yield Draft(
        facts.key("opening"),
        "Prepare the opening",
        "site",
        facts.name,
        tuple(_jamb(facts)),
        ("level", f"{facts.word('shim')}s", "long screws", "chisel"),
        (CABLES,),
        takes=(("preparing the opening", 0), ("patching", 0)),
        shared=True,
        after=(facts.after("old door"),),
    )


def _jamb(facts: CaseFacts) -> Iterator[str]:
    places = ", ".join(facts.say(one.from_head) for one in facts.sheet.hinges)
    yield (
        f"hinge jamb plumb and solid: {facts.word('shim')} behind each hinge, leaves at {places} "
        "from the head"
    )
    doorway = facts.doorway
    if doorway is not None and doorway.hinge_lean is not None:
        yield "lean of the hinge jamb as surveyed is taken out first"
    gap = doorway.clear_width - facts.planned.outside.width if doorway else 0
    if gap > 0:
        yield f"the case leaves {facts.say(gap)} of the least width, both sides together"


def hang_drafts(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    """Yield the steps from carrying it in to the catches."""
    weight = facts.mass(facts.sheet.empty)
    yield carry_draft(facts, cautions, (Predecessor(step=f"opening {facts.first_in_doorway}"),))
    yield Draft(
        facts.key("hang"),
        "Hang it, supported at the floor gap",
        "site",
        facts.name,
        tuple(_hang_lines(facts)),
        ("blocks", "wedges", "lever", "driver", "level"),
        (
            StepCaution(
                text=f"{weight} empty: one lifts with a lever, one sets pins and screws; "
                "fingers out of the hinge side.",
                source="trade articles on hung cases; lifting: NIOSH equation, from memory",
            ),
            *called_for(cautions, "pinch", "lifting"),
        ),
        takes=(("hanging", 0),),
        after=(facts.after("carry"),),
        in_one_go=True,
    )
    yield Draft(
        facts.key("open-test"),
        "Open-test, empty",
        "site",
        facts.name,
        tuple(_test_lines(facts)),
        ("thin card", "feeler or rule"),
        called_for(cautions, "pinch"),
        takes=(("open-test", 0),),
        after=(facts.after("hang"),),
    )
    if facts.trimmed(travels=False):
        yield wall_trim(
            facts, "open-test", "only after it has opened fully with what travels on it"
        )
    last = "wall trim" if facts.trimmed(travels=False) else "open-test"
    yield Draft(
        facts.key("catches"),
        "Catches, limit stop and pull",
        "site",
        facts.name,
        ("catches top and bottom of the latch side, a limit stop, a bumper, the pull",),
        ("driver", "drill"),
        takes=(("catches and pull", 0),),
        after=(facts.after(last),),
    )


def _hang_lines(facts: CaseFacts) -> Iterator[str]:
    doorway = facts.doorway
    floor = facts.say(facts.case.above_floor)
    yield f"blocks and wedges in the doorway: bottom end {floor} above the floor"
    if doorway is not None:
        yield f"gaps: head {facts.say(doorway.head_gap)}, hinge side {facts.say(doorway.hinge_gap)}"
    count = len(facts.sheet.hinges)
    yield f"top hinge first, then the bottom one, then those between: {count} in all"
    yield "long screws through jamb and packing into the stud; wedges out only when all are in"


def _test_lines(facts: CaseFacts) -> Iterator[str]:
    swing = facts.planned.swing
    if swing is None:
        yield "slowly, as far as it goes; nothing may touch"
        return
    yield f"slowly to {swing.opens_to} degrees, nothing may touch; it must stay where it is left"
    yield (
        f"latch jamb: {facts.say(swing.latch_gap)} shut, tightest {facts.say(swing.tightest)} at "
        f"{swing.tightest_at:.0f} degrees"
    )
    yield f"clear way beside it: {facts.say(swing.passage_90)} at 90 degrees"


def carry_draft(
    facts: CaseFacts, cautions: dict[str, StepCaution], after: tuple[Predecessor, ...]
) -> Draft:
    """Carry the case in."""
    return Draft(
        facts.key("carry"),
        "Carry it in",
        "site",
        facts.name,
        (f"{facts.outside}, {facts.mass(facts.sheet.empty)} empty; loose shelves go by themselves",)
        if facts.loose
        else (f"{facts.outside}, {facts.mass(facts.sheet.empty)} empty",),
        ("straps", "blankets"),
        called_for(cautions, "lifting"),
        takes=(("carrying in", 0),),
        after=(facts.after("protect"), *after),
    )


def wall_trim(facts: CaseFacts, after: str, when: str) -> Draft:
    """Put on the trim that stays on the wall."""
    pieces = facts.trimmed(travels=False)
    return Draft(
        facts.key("wall trim"),
        "Trim that stays on the wall",
        "site",
        facts.name,
        (f"{when}: {grouped(facts, pieces)}",),
        ("mitre saw", "brad gun", "filler"),
        takes=(("trim on the wall", 0),),
        after=(facts.after(after), *((facts.after("flutes"),) if facts.fluted else ())),
        shared=True,
    )
