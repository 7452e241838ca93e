"""Steps on site of a case that hangs in a doorway.

Steps on site that several kinds of case have.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.plan.work import After, Caution
from solver.work.finishing_steps import grouped
from solver.work.step_draft import LADDER, Draft
from solver.work.step_facts import About


def opening_drafts(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    """Yield the steps that take the old door out and make the opening ready."""
    doorway, casing = about.doorway, about.word("casing")
    old = f"{casing}: {doorway.casing}" if doorway is not None and doorway.casing else ""
    yield Draft(
        about.key("old door"),
        f"Old door, stop and {casing} out",
        "site",
        about.name,
        (
            "pins out from the bottom up, door down; stop and its nails out; what goes back is "
            "numbered and kept",
            *((old,) if old else ()),
        ),
        ("screwdriver", "flat bar", "knife for the paint line", "pliers"),
        said_of(said, "panel", "shut-off"),
        takes=(("old door out", 0), ("disposal", 0)),
        shared=True,
        after=(about.after("protect"),),
    )
    yield Draft(
        about.key("opening"),
        "Prepare the opening",
        "site",
        about.name,
        tuple(_jamb(about)),
        ("level", f"{about.word('shim')}s", "long screws", "chisel"),
        (LADDER,),
        takes=(("preparing the opening", 0), ("patching", 0)),
        shared=True,
        after=(about.after("old door"),),
    )


def _jamb(about: About) -> Iterator[str]:
    places = ", ".join(about.say(one.from_head) for one in about.sheet.hinges)
    yield (
        f"hinge jamb plumb and solid: {about.word('shim')} behind each hinge, leaves at {places} "
        "from the head"
    )
    doorway = about.doorway
    if doorway is not None and doorway.hinge_lean is not None:
        yield "lean of the hinge jamb as surveyed is taken out first"
    gap = doorway.clear_width - about.planned.outside.width if doorway else 0
    if gap > 0:
        yield f"the case leaves {about.say(gap)} of the least width, both sides together"


def hang_drafts(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    """Yield the steps from carrying it in to the catches."""
    weight = about.mass(about.sheet.empty)
    yield carry_draft(about, said, (After(step=f"opening {about.first_in_doorway}"),))
    yield Draft(
        about.key("hang"),
        "Hang it, supported at the floor gap",
        "site",
        about.name,
        tuple(_hang_lines(about)),
        ("blocks", "wedges", "lever", "driver", "level"),
        (
            Caution(
                text=f"{weight} empty: one lifts with a lever, one sets pins and screws; "
                "fingers out of the hinge side.",
                source="trade articles on hung cases; lifting: NIOSH equation, from memory",
            ),
            *said_of(said, "pinch", "lifting"),
        ),
        takes=(("hanging", 0),),
        after=(about.after("carry"),),
        in_one_go=True,
    )
    yield Draft(
        about.key("open-test"),
        "Open-test, empty",
        "site",
        about.name,
        tuple(_test_lines(about)),
        ("thin card", "feeler or rule"),
        said_of(said, "pinch"),
        takes=(("open-test", 0),),
        after=(about.after("hang"),),
    )
    if about.trimmed(travels=False):
        yield wall_trim(
            about, "open-test", "only after it has opened fully with what travels on it"
        )
    last = "wall trim" if about.trimmed(travels=False) else "open-test"
    yield Draft(
        about.key("catches"),
        "Catches, limit stop and pull",
        "site",
        about.name,
        ("catches top and bottom of the latch side, a limit stop, a bumper, the pull",),
        ("driver", "drill"),
        takes=(("catches and pull", 0),),
        after=(about.after(last),),
    )


def _hang_lines(about: About) -> Iterator[str]:
    doorway = about.doorway
    floor = about.say(about.case.above_floor)
    yield f"blocks and wedges in the doorway: bottom end {floor} above the floor"
    if doorway is not None:
        yield f"gaps: head {about.say(doorway.head_gap)}, hinge side {about.say(doorway.hinge_gap)}"
    count = len(about.sheet.hinges)
    yield f"top hinge first, then the bottom one, then those between: {count} in all"
    yield "long screws through jamb and packing into the stud; wedges out only when all are in"


def _test_lines(about: About) -> Iterator[str]:
    swing = about.planned.swing
    if swing is None:
        yield "slowly, as far as it goes; nothing may touch"
        return
    yield f"slowly to {swing.opens_to} degrees, nothing may touch; it must stay where it is left"
    yield (
        f"latch jamb: {about.say(swing.latch_gap)} shut, tightest {about.say(swing.tightest)} at "
        f"{swing.tightest_at:.0f} degrees"
    )
    yield f"clear way beside it: {about.say(swing.passage_90)} at 90 degrees"


def carry_draft(about: About, said: dict[str, Caution], after: tuple[After, ...]) -> Draft:
    """Carry the case in."""
    return Draft(
        about.key("carry"),
        "Carry it in",
        "site",
        about.name,
        (f"{about.outside}, {about.mass(about.sheet.empty)} empty; loose shelves go by themselves",)
        if about.loose
        else (f"{about.outside}, {about.mass(about.sheet.empty)} empty",),
        ("straps", "blankets"),
        said_of(said, "lifting"),
        takes=(("carrying in", 0),),
        after=(about.after("protect"), *after),
    )


def wall_trim(about: About, after: str, when: str) -> Draft:
    """Put on the trim that stays on the wall."""
    pieces = about.trimmed(travels=False)
    return Draft(
        about.key("wall trim"),
        "Trim that stays on the wall",
        "site",
        about.name,
        (f"{when}: {grouped(about, pieces)}",),
        ("mitre saw", "brad gun", "filler"),
        takes=(("trim on the wall", 0),),
        after=(about.after(after), *((about.after("flutes"),) if about.fluted else ())),
        shared=True,
    )


def said_of(said: dict[str, Caution], *keys: str) -> tuple[Caution, ...]:
    """Return the cautions of these keys that the job calls for."""
    return tuple(said[key] for key in keys if key in said)
