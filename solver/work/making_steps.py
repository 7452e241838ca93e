"""Steps of one case in the shop, from marking out to the last coat, in order."""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.pin_holes import PinHoles
from solver.costing.joint_hardware import drill_sizes_for
from solver.costing.labour_tasks import Lot, lots
from solver.plan.work import Predecessor
from solver.sequence.saw_choice import ranges
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit
from solver.work import step_facts
from solver.work.finishing_steps import (
    area_text,
    bands,
    before_glue,
    coat_drafts,
    flutes,
    light_draft,
    lips,
    travelling,
)
from solver.work.step_draft import GLUE_OPEN, Draft
from solver.work.step_facts import CaseFacts, box_done, last_glue

SQUARE_WITHIN: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 16, "mm": 2 * TICKS_PER_MM}
"""How far diagonals may differ: 1/16 in: sawmillcreek.org t-198769; 2 mm: common practice."""


def making_drafts(facts: CaseFacts) -> Iterator[Draft]:
    """Yield the steps of one case in the shop."""
    yield _mark(facts)
    yield _joints(facts)
    if facts.bands:
        yield bands(facts)
    yield _sand(facts)
    yield _dry_fit(facts)
    yield from coat_drafts(facts, before=True)
    yield from _glue(facts)
    if facts.ids("back"):
        yield _back(facts)
    if facts.lips:
        yield lips(facts)
    if facts.fluted:
        yield flutes(facts)
    if facts.trimmed(travels=True):
        yield travelling(facts)
    if facts.hinges:
        yield _hinges(facts)
    yield from coat_drafts(facts, before=False)
    if facts.trim.light is not None:
        yield light_draft(facts)


def _mark(facts: CaseFacts) -> Draft:
    sides = "sides laid edge to edge, bottom ends flush, marked as a pair with a triangle"
    does = [f"{sides}; all marks from the bottom end, square across both, X above the line"]
    t = facts.job.thickness(facts.case.material)
    low = facts.case.raised_bottom
    does.append(f"bottom: underside at {facts.say(low)}")
    does += _shelf_marks(facts)
    does.append(f"top: underside at {facts.say(facts.planned.outside.height - t)}")
    does += _upright_marks(facts)
    return Draft(
        facts.key("mark"),
        "Mark out the sides in pairs",
        "shop",
        facts.name,
        tuple(does),
        ("tape or story stick", "square", "knife"),
        takes=(("marking out", 0),),
        after=(Predecessor(step="sheets"),),
    )


def _shelf_marks(facts: CaseFacts) -> Iterator[str]:
    """Yield the undersides of the shelves, bays that are alike together."""
    alike: dict[tuple[Ticks, ...], list[int]] = {}
    for bay in facts.planned.bays:
        alike.setdefault(tuple(one.underside for one in bay.shelves), []).append(bay.number)
    for marks, bays in alike.items():
        where = f"bay{'s' if len(bays) > 1 else ''} {ranges(bays)}, "
        where = where if len(facts.planned.bays) > 1 else ""
        shown = ", ".join(f"{at} at {facts.say(mark)}" for at, mark in enumerate(marks, start=1))
        if shown:
            yield f"{where}shelves, undersides: {shown}"


def _upright_marks(facts: CaseFacts) -> Iterator[str]:
    """Yield where uprights stand, and how they are laid to be marked with the sides."""
    bays, t = facts.planned.bays, facts.job.thickness(facts.case.material)
    if len(bays) == 1:
        return
    end = t - facts.case.dado_depth
    lefts = ", ".join(facts.say(bay.x + bay.inside.width - end) for bay in bays[:-1])
    yield f"uprights on bottom and top: left faces at {lefts} from the left end of the board"
    foot = facts.case.raised_bottom + end
    yield f"uprights marked with the sides, their lower ends at {facts.say(foot)} on them"


def _joints(facts: CaseFacts) -> Draft:
    does = []
    case = facts.case
    if facts.housed:
        t = facts.job.thickness(case.material)
        does.append(
            f"{2 * len(facts.housed)} {facts.word('dado')}s, {facts.say(case.dado_depth)} deep, "
            f"{facts.say(t)} wide: fitted to a scrap of the sheet in hand first"
        )
    if facts.screwed:
        does.append(f"{2 * len(facts.screwed)} joints, screwed through the outer board")
    if facts.loose:
        does += [_pins(facts, bay) for bay in facts.pin_holes]
    does += _drilled(facts)
    return Draft(
        facts.key("joints"),
        "Joints and holes",
        "shop",
        facts.name,
        tuple(does),
        ("router or saw with a jig" if facts.housed else "drill", "drill with a stop"),
        takes=(("dado", 0), ("pilot holes", 0), ("pin holes", 0)),
        after=(facts.after("mark"),),
    )


def _pins(facts: CaseFacts, bay: PinHoles) -> str:
    last = bay.first + (bay.count - 1) * bay.pitch
    where = f"bay {bay.bay}: " if len(facts.pin_holes) > 1 else ""
    return (
        f"{where}{bay.columns} columns of {bay.count} holes {facts.say(bay.diameter)}, first "
        f"{facts.say(bay.first)} from the bottom end, pitch {facts.say(bay.pitch)}, last "
        f"{facts.say(last)}; {facts.say(bay.front)} and {facts.say(bay.rear)} from the front; "
        "one jig for all, always from the bottom end"
    )


def _drilled(facts: CaseFacts) -> list[str]:
    """Say which holes the screws of the joints want."""
    found = {}
    for joint in facts.sheet.joints:
        size = joint.fastener.removesuffix(" screw")
        holes = drill_sizes_for(size, facts.unit) if joint.fasteners else None
        if holes is not None:
            found[size] = (
                f"{size}: clearance {holes.clearance} {facts.unit} through the outer board, pilot "
                f"{holes.soft} {facts.unit}, {holes.hard} in hardwood"
            )
    return list(found.values())


def _sand(facts: CaseFacts) -> Draft:
    return Draft(
        facts.key("sand"),
        "Sand inside faces and shelves",
        "shop",
        facts.name,
        (f"120 then 150 or 180 grit, both faces, {area_text(facts)}; arrises eased",),
        ("sander", "block"),
        takes=(("sanding", 0),),
        shared=True,
        after=(facts.after("bands" if facts.bands else "joints"),),
    )


def _dry_fit(facts: CaseFacts) -> Draft:
    return Draft(
        facts.key("dry fit"),
        "Dry fit",
        "shop",
        facts.name,
        (
            f"{len(facts.jointed)} boards between the sides without glue: {facts.outside} outside",
            _diagonals(facts),
        ),
        ("clamps", "tape", "mallet"),
        takes=(("dry fit", 0), ("dry fit of a board", 0)),
        after=(facts.after("sand"),),
    )


def _diagonals(facts: CaseFacts) -> str:
    within = facts.say(SQUARE_WITHIN[facts.unit])
    return f"diagonals: {facts.say(facts.diagonal)}, both, alike within {within}"


def _glue(facts: CaseFacts) -> Iterator[Draft]:
    every = lots(facts)
    for number, lot in enumerate(every, start=1):
        before = (
            before_glue(facts)
            if number == 1
            else facts.after(f"glue {number - 1}", step_facts.CLAMP_TIME, "in clamps")
        )
        of = f" {number} of {len(every)}" if len(every) > 1 else ""
        yield Draft(
            facts.key(f"glue {number}"),
            f"Glue-up{of}",
            "shop",
            facts.name,
            tuple(_glue_lines(facts, lot)),
            ("glue", "brush", "clamps", "driver", "tape for the diagonals"),
            (GLUE_OPEN,),
            takes=(("glue-up", 1), *((("squaring", 0),) if number == 1 else ())),
            after=(before,),
            in_one_go=True,
        )


def _glue_lines(facts: CaseFacts, lot: Lot) -> Iterator[str]:
    names = ", ".join(part.rpartition("/")[2].replace("-", " ") for part in lot.boards)
    if lot.sides:
        yield f"between the sides, in this order: {names}: {lot.joints} joints"
        yield _diagonals(facts)
    else:
        yield f"slid in from the back: {names}: {lot.joints} joints"
    yield (
        f"spread and closed in about {step_facts.OPEN_TIME} min; "
        f"clamps stay {step_facts.CLAMP_TIME} min"
    )
    if lot.too_many:
        yield f"{lot.joints} joints at once: glue that stays open longer, or two people"


def _back(facts: CaseFacts) -> Draft:
    back = [part for part in facts.parts if part.name == "back"]
    sizes = "; ".join(f"{facts.say(one.length)} x {facts.say(one.width)}" for one in back)
    edge = facts.say(facts.case.back_inset // 2)
    return Draft(
        facts.key("back"),
        "Back on, before the box is moved",
        "shop",
        facts.name,
        (
            f"{sizes}, {edge} back from every outer edge",
            "glued and fastened all round and to every fixed shelf and upright, not to loose ones",
            _diagonals(facts),
        ),
        ("stapler or brad gun", "glue", "clamps"),
        takes=(("back", 0),),
        after=(facts.after(last_glue(facts), step_facts.CLAMP_TIME, "in clamps"),),
        in_one_go=True,
    )


def _hinges(facts: CaseFacts) -> Draft:
    places = "; ".join(
        f"{facts.say(one.from_top)} from the top{'' if one.old else ' (new)'}"
        for one in facts.sheet.hinges
    )
    return Draft(
        facts.key("hinges"),
        "Hinges onto the case",
        "shop",
        facts.name,
        (
            f"top of each leaf: {places}",
            "on a solid stile or backing strip, or through-bolted: no screws into ply edges",
        ),
        ("chisel", "router", "driver"),
        takes=(("hinge on the case", 0),),
        after=(box_done(facts),),
    )
