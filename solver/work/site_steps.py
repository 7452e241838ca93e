"""Steps on site of one case of any kind: hung, built-in, on a wall, standing."""

from __future__ import annotations

from collections.abc import Iterator

from solver.plan.work import Predecessor, StepCaution
from solver.units import TICKS_PER_INCH, TICKS_PER_MM
from solver.work.finishing_steps import grouped
from solver.work.hanging_steps import carry_draft, hang_drafts, opening_drafts, wall_trim
from solver.work.step_draft import CABLES, LEAD_PAINT, TIPPING, Draft, called_for
from solver.work.step_facts import CaseFacts


def site_drafts(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    """Yield the steps of one case on site."""
    yield _protect(facts, cautions)
    kind = facts.case.kind
    if kind == "hung":
        if facts.is_first_in_doorway:
            yield from opening_drafts(facts, cautions)
        yield from hang_drafts(facts, cautions)
    elif kind == "wall":
        yield from _wall(facts, cautions)
    else:
        yield from _stand(facts, cautions)
    yield _load(facts, cautions)


def _protect(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Draft:
    disturbs = facts.case.kind != "standing"
    old = called_for(cautions, "lead-paint", "asbestos") if disturbs else ()
    lead = (LEAD_PAINT,) if disturbs and "lead-paint" in cautions else ()
    return Draft(
        facts.key("protect"),
        "Protect floors and the way in",
        "site",
        facts.name,
        ("floor, way in and door edges covered; room cleared where the case swings or stands",)
        if facts.case.kind == "hung"
        else ("floor, way in and door edges covered; room cleared",),
        ("dust sheets", "board"),
        (*old, *lead),
        takes=(("protection", 0), ("lead-safe work", 0)),
        shared=True,
        after=(Predecessor(step="delivery"),),
    )


def _wall(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    yield Draft(
        facts.key("studs"),
        "Find the studs",
        "site",
        facts.name,
        (f"studs marked over {facts.say(facts.planned.outside.width)} of wall, two at least",),
        ("stud finder", "thin nail"),
        (CABLES,),
        takes=(("finding studs", 0),),
        after=(facts.after("protect"),),
    )
    yield Draft(
        facts.key("cleat"),
        "Level cleat on the wall",
        "site",
        facts.name,
        (
            f"level line: bottom end of the case {facts.say(facts.case.above_floor)} above the "
            f"floor, its top {facts.say(facts.case.above_floor + facts.planned.outside.height)}",
            "two screws in each stud; the cleat a little short, so that the case can be slid",
        ),
        ("level", "drill", "driver"),
        (CABLES,),
        takes=(("wall cleat", 0),),
        after=(facts.after("studs"),),
    )
    yield carry_draft(facts, cautions, (facts.after("cleat"),))
    yield Draft(
        facts.key("fix"),
        "Hang it on the cleat, level it and screw it home",
        "site",
        facts.name,
        ("screws through the back strip into every stud after it hangs level",),
        ("level", "driver"),
        (TIPPING, *called_for(cautions, "projects")),
        takes=(("levelling", 0), ("fixing to the wall", 0)),
        after=(facts.after("carry"),),
        in_one_go=True,
    )


def _stand(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    built_in = facts.case.kind == "built-in"
    before = (Predecessor(step=f"opening {facts.first_in_doorway}"),) if built_in else ()
    if built_in and facts.is_first_in_doorway:
        base = facts.word("baseboard")
        yield Draft(
            facts.key("opening"),
            "Prepare the alcove",
            "site",
            facts.name,
            (
                f"{base} inside it off and kept; level base of strips, highest point of the floor "
                "first; studs marked",
            ),
            ("flat bar", "level", f"{facts.word('shim')}s"),
            (CABLES,),
            takes=(("preparing the opening", 0), ("patching", 0), ("disposal", 0)),
            shared=True,
            after=(facts.after("protect"),),
        )
    yield carry_draft(facts, cautions, before)
    yield Draft(
        facts.key("fix"),
        "Level it and fix it to the wall",
        "site",
        facts.name,
        (
            f"level both ways on {facts.word('shim')}s",
            "two fixings at least near the top, into studs",
        ),
        ("level", f"{facts.word('shim')}s", "driver"),
        (TIPPING, CABLES, *called_for(cautions, "children", "earthquakes")),
        takes=(("levelling", 0), ("fixing to the wall", 0)),
        after=(facts.after("carry"),),
    )
    if built_in:
        yield Draft(
            facts.key("scribe"),
            "Scribe the strips to the walls",
            "site",
            facts.name,
            tuple(_scribe(facts)),
            ("compasses", "plane", "jigsaw"),
            takes=(("scribing", 0),),
            after=(facts.after("fix"),),
        )
    if facts.trimmed(travels=False):
        yield wall_trim(facts, "scribe" if built_in else "fix", "once the case stands")


def _scribe(facts: CaseFacts) -> Iterator[str]:
    doorway = facts.doorway
    if doorway is not None:
        gaps = [width - facts.planned.outside.width for width in doorway.widths]
        yield (
            f"both sides together: {facts.say(max(gaps))} at the widest, {facts.say(min(gaps))} at "
            "the narrowest"
        )
    if facts.scribes:
        yield grouped(facts, facts.scribes)
    yield "strip held plumb, gap scribed at its widest, cut back a little behind the line"


def _load(facts: CaseFacts, cautions: dict[str, StepCaution]) -> Draft:
    last = {"hung": "catches", "built-in": "scribe", "wall": "fix", "standing": "fix"}
    step = last[facts.case.kind]
    if facts.case.kind != "hung" and facts.trimmed(travels=False):
        step = "wall trim"
    return Draft(
        facts.key("load"),
        "Load it, and check again",
        "site",
        facts.name,
        tuple(_load_lines(facts)),
        ("level", "rule"),
        called_for(cautions, "top-heavy", "swinging"),
        takes=(("shelves in", 0), ("loading", 0)),
        after=(facts.after(step),),
    )


def _load_lines(facts: CaseFacts) -> Iterator[str]:
    if facts.loose:
        yield f"{len(facts.loose)} loose shelves onto their pins"
    yield f"bottom shelf first, then the top one: {facts.mass(facts.sheet.contents)} in all"
    droop, foot = facts.figure("droop"), facts.figure("foot")
    if facts.case.kind == "hung":
        if droop is not None and foot is not None:
            least = TICKS_PER_INCH // 32 if facts.unit == "in" else TICKS_PER_MM
            sag = f"under {facts.say(least)}" if droop < least else facts.say(droop)
            yield (
                f"gap at the latch foot again: a droop of {sag} is reckoned with, "
                f"{facts.say(foot)} stay"
            )
        yield "reveal even again by card or packing behind a leaf"
    else:
        yield "plumb and level again, loaded"
