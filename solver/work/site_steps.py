"""Steps of one case where it goes: hung, built-in, on a wall, standing."""

from __future__ import annotations

from collections.abc import Iterator

from solver.plan.work import After, Caution
from solver.units import TICKS_PER_INCH, TICKS_PER_MM
from solver.work.finishing_steps import grouped
from solver.work.hanging_steps import carry_draft, hang_drafts, opening_drafts, said_of, wall_trim
from solver.work.step_draft import FALL, LADDER, LEAD, Draft
from solver.work.step_facts import About


def site_drafts(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    """Yield the steps of one case on site."""
    yield _protect(about, said)
    kind = about.case.kind
    if kind == "hung":
        if about.is_first_in_doorway:
            yield from opening_drafts(about, said)
        yield from hang_drafts(about, said)
    elif kind == "wall":
        yield from _wall(about, said)
    else:
        yield from _stand(about, said)
    yield _load(about, said)


def _protect(about: About, said: dict[str, Caution]) -> Draft:
    disturbs = about.case.kind != "standing"
    old = said_of(said, "lead-paint", "asbestos") if disturbs else ()
    lead = (LEAD,) if disturbs and "lead-paint" in said else ()
    return Draft(
        about.key("protect"),
        "Protect floors and the way in",
        "site",
        about.name,
        ("floor, way in and door edges covered; room cleared where the case swings or stands",)
        if about.case.kind == "hung"
        else ("floor, way in and door edges covered; room cleared",),
        ("dust sheets", "board"),
        (*old, *lead),
        takes=(("protection", 0), ("lead-safe work", 0)),
        shared=True,
        after=(After(step="delivery"),),
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
    yield carry_draft(about, said, (about.after("cleat"),))
    yield Draft(
        about.key("fix"),
        "Hang it on the cleat, level it and screw it home",
        "site",
        about.name,
        ("screws through the back strip into every stud after it hangs level",),
        ("level", "driver"),
        (FALL, *said_of(said, "projects")),
        takes=(("levelling", 0), ("fixing to the wall", 0)),
        after=(about.after("carry"),),
        in_one_go=True,
    )


def _stand(about: About, said: dict[str, Caution]) -> Iterator[Draft]:
    built_in = about.case.kind == "built-in"
    before = (After(step=f"opening {about.first_in_doorway}"),) if built_in else ()
    if built_in and about.is_first_in_doorway:
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
    yield carry_draft(about, said, before)
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
        (FALL, LADDER, *said_of(said, "children", "earthquakes")),
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
    if about.trimmed(travels=False):
        yield wall_trim(about, "scribe" if built_in else "fix", "once the case stands")


def _scribe(about: About) -> Iterator[str]:
    doorway = about.doorway
    if doorway is not None:
        gaps = [width - about.planned.outside.width for width in doorway.widths]
        yield (
            f"both sides together: {about.say(max(gaps))} at the widest, {about.say(min(gaps))} at "
            "the narrowest"
        )
    if about.scribes:
        yield grouped(about, about.scribes)
    yield "strip held plumb, gap scribed at its widest, cut back a little behind the line"


def _load(about: About, said: dict[str, Caution]) -> Draft:
    last = {"hung": "catches", "built-in": "scribe", "wall": "fix", "standing": "fix"}
    step = last[about.case.kind]
    if about.case.kind != "hung" and about.trimmed(travels=False):
        step = "wall trim"
    return Draft(
        about.key("load"),
        "Load it, and check again",
        "site",
        about.name,
        tuple(_load_lines(about)),
        ("level", "rule"),
        said_of(said, "top-heavy", "swinging"),
        takes=(("shelves in", 0), ("loading", 0)),
        after=(about.after(step),),
    )


def _load_lines(about: About) -> Iterator[str]:
    if about.loose:
        yield f"{len(about.loose)} loose shelves onto their pins"
    yield f"bottom shelf first, then the top one: {about.mass(about.sheet.contents)} in all"
    droop, foot = about.figure("droop"), about.figure("foot")
    if about.case.kind == "hung":
        if droop is not None and foot is not None:
            least = TICKS_PER_INCH // 32 if about.unit == "in" else TICKS_PER_MM
            sag = f"under {about.say(least)}" if droop < least else about.say(droop)
            yield (
                f"gap at the latch foot again: a droop of {sag} is reckoned with, "
                f"{about.say(foot)} stay"
            )
        yield "reveal even again by card or packing behind a leaf"
    else:
        yield "plumb and level again, loaded"
