"""Steps of one case where it goes: hung, built-in, on a wall, standing."""

from __future__ import annotations

from collections.abc import Iterator

from solver.labour.forgotten import may_be_lead
from solver.steps.about import About
from solver.steps.cautions import FALL, LADDER, LEAD
from solver.steps.draft import Draft
from solver.work import After, Caution


def site_drafts(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    """Yield the steps of one case on site."""
    yield _protect(about, said)
    kind = about.case.kind
    if kind == "hung":
        yield from _opening(about, said)
        yield from _hang(about, said)
    elif kind == "wall":
        yield from _wall(about, said)
    else:
        yield from _stand(about, said)
    yield _load(about, said)


def _protect(about: About, said: dict[str, Caution]) -> Draft:
    disturbs = about.case.kind != "standing" and may_be_lead(about.job)
    lead = (LEAD,) if disturbs else ()
    asbestos = (said["asbestos"],) if "asbestos" in said and disturbs else ()
    return Draft(
        about.key("protect"),
        "Protect floors and the way in",
        "site",
        about.name,
        ("floor, way in and door edges covered; room cleared where the case swings or stands",)
        if about.case.kind == "hung"
        else ("floor, way in and door edges covered; room cleared",),
        ("dust sheets", "board"),
        (*lead, *asbestos),
        takes=(("protection", 0), ("lead-safe work", 0)),
        shared=True,
        after=(After(step="delivery"),),
    )


def _opening(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
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
        _said(said, "panel", "shut-off"),
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


def _hang(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    weight = about.mass(about.sheet.empty)
    yield _carry(about, said, (about.after("opening"),))
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
            *_said(said, "pinch", "lifting"),
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
        _said(said, "pinch"),
        takes=(("open-test", 0),),
        after=(about.after("hang"),),
    )
    yield Draft(
        about.key("catches"),
        "Wall trim, catches, stop and pull",
        "site",
        about.name,
        (
            f"only after it has opened fully with what travels on it: {about.word('casing')} that "
            "stays on the wall",
            "catches top and bottom of the latch side, a limit stop, a bumper, the pull",
        ),
        ("mitre saw", "brad gun", "driver"),
        takes=(("catches and pull", 0),),
        after=(about.after("open-test"),),
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


def _carry(about: About, said: dict[str, Caution], after: tuple[After, ...]) -> Draft:
    return Draft(
        about.key("carry"),
        "Carry it in",
        "site",
        about.name,
        (f"{about.outside}, {about.mass(about.sheet.empty)} empty; loose shelves go by themselves",)
        if about.loose
        else (f"{about.outside}, {about.mass(about.sheet.empty)} empty",),
        ("straps", "blankets"),
        _said(said, "lifting"),
        takes=(("carrying in", 0),),
        after=(about.after("protect"), *after),
    )


def _wall(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    yield Draft(
        about.key("studs"),
        "Find the studs",
        "site",
        about.name,
        (f"studs marked over {about.say(about.planned.outside.width)} of wall, two at least",),
        ("stud finder", "thin nail"),
        (LADDER,),
        takes=(("finding studs", 0),),
        after=(about.after("protect"),),
    )
    yield Draft(
        about.key("cleat"),
        "Level cleat on the wall",
        "site",
        about.name,
        (
            f"level line: bottom end of the case {about.say(about.case.above_floor)} above the "
            f"floor, its top {about.say(about.case.above_floor + about.planned.outside.height)}",
            "two screws in each stud; the cleat a little short, so that the case can be slid",
        ),
        ("level", "drill", "driver"),
        (LADDER,),
        takes=(("wall cleat", 0),),
        after=(about.after("studs"),),
    )
    yield _carry(about, said, (about.after("cleat"),))
    yield Draft(
        about.key("fix"),
        "Hang it on the cleat, level it and screw it home",
        "site",
        about.name,
        ("screws through the back strip into every stud after it hangs level",),
        ("level", "driver"),
        (FALL, *_said(said, "projects")),
        takes=(("levelling", 0), ("fixing to the wall", 0)),
        after=(about.after("carry"),),
        in_one_go=True,
    )


def _stand(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    built_in = about.case.kind == "built-in"
    before: tuple[After, ...] = ()
    if built_in:
        base = about.word("baseboard")
        yield Draft(
            about.key("opening"),
            "Prepare the alcove",
            "site",
            about.name,
            (
                f"{base} inside it off and kept; level base of strips, highest point of the floor "
                "first; studs marked",
            ),
            ("flat bar", "level", f"{about.word('shim')}s"),
            (LADDER,),
            takes=(("preparing the opening", 0), ("patching", 0), ("disposal", 0)),
            shared=True,
            after=(about.after("protect"),),
        )
        before = (about.after("opening"),)
    yield _carry(about, said, before)
    yield Draft(
        about.key("fix"),
        "Level it and fix it to the wall",
        "site",
        about.name,
        (
            f"level both ways on {about.word('shim')}s",
            "two fixings at least near the top, into studs",
        ),
        ("level", f"{about.word('shim')}s", "driver"),
        (FALL, LADDER, *_said(said, "children", "earthquakes")),
        takes=(("levelling", 0), ("fixing to the wall", 0)),
        after=(about.after("carry"),),
    )
    if built_in:
        yield Draft(
            about.key("scribe"),
            "Scribe the strips to the walls",
            "site",
            about.name,
            tuple(_scribe(about)),
            ("compasses", "plane", "jigsaw"),
            takes=(("scribing", 0),),
            after=(about.after("fix"),),
        )


def _scribe(about: About) -> Iterator[str]:
    doorway = about.doorway
    if doorway is not None:
        gaps = [width - about.planned.outside.width for width in doorway.widths]
        yield (
            f"both sides together: {about.say(max(gaps))} at the widest, {about.say(min(gaps))} at "
            "the narrowest"
        )
    yield "strip held plumb, gap scribed at its widest, cut back a little behind the line"


def _load(about: About, said: dict[str, Caution]) -> Draft:
    last = {"hung": "catches", "built-in": "scribe", "wall": "fix", "standing": "fix"}
    return Draft(
        about.key("load"),
        "Load it, and check again",
        "site",
        about.name,
        tuple(_load_lines(about)),
        ("level", "rule"),
        _said(said, "top-heavy", "swinging"),
        takes=(("shelves in", 0), ("loading", 0)),
        after=(about.after(last[about.case.kind]),),
    )


def _load_lines(about: About) -> Iterator[str]:
    if about.loose:
        yield f"{len(about.loose)} loose shelves onto their pins"
    yield f"bottom shelf first, then the top one: {about.mass(about.sheet.contents)} in all"
    droop, foot = about.figure("droop"), about.figure("foot")
    if about.case.kind == "hung":
        if droop is not None and foot is not None:
            yield (
                f"gap at the latch foot again: a droop of {about.say(droop)} is reckoned with, "
                f"{about.say(foot)} stay"
            )
        yield "reveal even again by card or packing behind a leaf"
    else:
        yield "plumb and level again, loaded"


def _said(said: dict[str, Caution], *keys: str) -> tuple[Caution, ...]:
    return tuple(said[key] for key in keys if key in said)
