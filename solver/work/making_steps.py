"""Steps of one case in the shop, from marking out to the last coat, in order."""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.pin_holes import PinHoles
from solver.costing.joint_hardware import holes_for
from solver.costing.works import Lot, lots
from solver.plan.work import After
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
from solver.work.step_draft import OPEN, Draft
from solver.work.step_facts import About, box_done, last_glue

SQUARE_WITHIN: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 16, "mm": 2 * TICKS_PER_MM}
"""How far diagonals may differ: 1/16 in: sawmillcreek.org t-198769; 2 mm: common practice."""


def making_drafts(about: About) -> Iterator[Draft]:
    """Yield the steps of one case in the shop."""
    yield _mark(about)
    yield _joints(about)
    if about.bands:
        yield bands(about)
    yield _sand(about)
    yield _dry_fit(about)
    yield from coat_drafts(about, before=True)
    yield from _glue(about)
    if about.ids("back"):
        yield _back(about)
    if about.lips:
        yield lips(about)
    if about.fluted:
        yield flutes(about)
    if about.trimmed(travels=True):
        yield travelling(about)
    if about.hinges:
        yield _hinges(about)
    yield from coat_drafts(about, before=False)
    if about.trim.light is not None:
        yield light_draft(about)


def _mark(about: About) -> Draft:
    sides = "sides laid edge to edge, bottom ends flush, marked as a pair with a triangle"
    does = [f"{sides}; all marks from the bottom end, square across both, X above the line"]
    t = about.job.thickness(about.case.material)
    low = about.case.raised_bottom
    does.append(f"bottom: underside at {about.say(low)}")
    does += _shelf_marks(about)
    does.append(f"top: underside at {about.say(about.planned.outside.height - t)}")
    does += _upright_marks(about)
    return Draft(
        about.key("mark"),
        "Mark out the sides in pairs",
        "shop",
        about.name,
        tuple(does),
        ("tape or story stick", "square", "knife"),
        takes=(("marking out", 0),),
        after=(After(step="sheets"),),
    )


def _shelf_marks(about: About) -> Iterator[str]:
    """Yield the undersides of the shelves, bays that are alike together."""
    alike: dict[tuple[Ticks, ...], list[int]] = {}
    for bay in about.planned.bays:
        alike.setdefault(tuple(one.underside for one in bay.shelves), []).append(bay.number)
    for marks, bays in alike.items():
        where = f"bay{'s' if len(bays) > 1 else ''} {ranges(bays)}, "
        where = where if len(about.planned.bays) > 1 else ""
        shown = ", ".join(f"{at} at {about.say(mark)}" for at, mark in enumerate(marks, start=1))
        if shown:
            yield f"{where}shelves, undersides: {shown}"


def _upright_marks(about: About) -> Iterator[str]:
    """Yield where uprights stand, and how they are laid to be marked with the sides."""
    bays, t = about.planned.bays, about.job.thickness(about.case.material)
    if len(bays) == 1:
        return
    end = t - about.case.dado_depth
    lefts = ", ".join(about.say(bay.x + bay.inside.width - end) for bay in bays[:-1])
    yield f"uprights on bottom and top: left faces at {lefts} from the left end of the board"
    foot = about.case.raised_bottom + end
    yield f"uprights marked with the sides, their lower ends at {about.say(foot)} on them"


def _joints(about: About) -> Draft:
    does = []
    case = about.case
    if about.housed:
        t = about.job.thickness(case.material)
        does.append(
            f"{2 * len(about.housed)} {about.word('dado')}s, {about.say(case.dado_depth)} deep, "
            f"{about.say(t)} wide: fitted to a scrap of the sheet in hand first"
        )
    if about.screwed:
        does.append(f"{2 * len(about.screwed)} joints, screwed through the outer board")
    if about.loose:
        does += [_pins(about, bay) for bay in about.pin_holes]
    does += _drilled(about)
    return Draft(
        about.key("joints"),
        "Joints and holes",
        "shop",
        about.name,
        tuple(does),
        ("router or saw with a jig" if about.housed else "drill", "drill with a stop"),
        takes=(("dado", 0), ("pilot holes", 0), ("pin holes", 0)),
        after=(about.after("mark"),),
    )


def _pins(about: About, bay: PinHoles) -> str:
    last = bay.first + (bay.count - 1) * bay.pitch
    where = f"bay {bay.bay}: " if len(about.pin_holes) > 1 else ""
    return (
        f"{where}{bay.columns} columns of {bay.count} holes {about.say(bay.diameter)}, first "
        f"{about.say(bay.first)} from the bottom end, pitch {about.say(bay.pitch)}, last "
        f"{about.say(last)}; {about.say(bay.front)} and {about.say(bay.rear)} from the front; "
        "one jig for all, always from the bottom end"
    )


def _drilled(about: About) -> list[str]:
    """Say which holes the screws of the joints want."""
    found = {}
    for joint in about.sheet.joints:
        size = joint.fastener.removesuffix(" screw")
        holes = holes_for(size, about.unit) if joint.fasteners else None
        if holes is not None:
            found[size] = (
                f"{size}: clearance {holes.clearance} {about.unit} through the outer board, pilot "
                f"{holes.soft} {about.unit}, {holes.hard} in hardwood"
            )
    return list(found.values())


def _sand(about: About) -> Draft:
    return Draft(
        about.key("sand"),
        "Sand inside faces and shelves",
        "shop",
        about.name,
        (f"120 then 150 or 180 grit, both faces, {area_text(about)}; arrises eased",),
        ("sander", "block"),
        takes=(("sanding", 0),),
        shared=True,
        after=(about.after("bands" if about.bands else "joints"),),
    )


def _dry_fit(about: About) -> Draft:
    return Draft(
        about.key("dry fit"),
        "Dry fit",
        "shop",
        about.name,
        (
            f"{len(about.jointed)} boards between the sides without glue: {about.outside} outside",
            _diagonals(about),
        ),
        ("clamps", "tape", "mallet"),
        takes=(("dry fit", 0), ("dry fit of a board", 0)),
        after=(about.after("sand"),),
    )


def _diagonals(about: About) -> str:
    within = about.say(SQUARE_WITHIN[about.unit])
    return f"diagonals: {about.say(about.diagonal)}, both, alike within {within}"


def _glue(about: About) -> Iterator[Draft]:
    every = lots(about)
    for number, lot in enumerate(every, start=1):
        before = (
            before_glue(about)
            if number == 1
            else about.after(f"glue {number - 1}", step_facts.CLAMP, "in clamps")
        )
        of = f" {number} of {len(every)}" if len(every) > 1 else ""
        yield Draft(
            about.key(f"glue {number}"),
            f"Glue-up{of}",
            "shop",
            about.name,
            tuple(_glue_lines(about, lot)),
            ("glue", "brush", "clamps", "driver", "tape for the diagonals"),
            (OPEN,),
            takes=(("glue-up", 1), *((("squaring", 0),) if number == 1 else ())),
            after=(before,),
            in_one_go=True,
        )


def _glue_lines(about: About, lot: Lot) -> Iterator[str]:
    names = ", ".join(part.rpartition("/")[2].replace("-", " ") for part in lot.boards)
    if lot.sides:
        yield f"between the sides, in this order: {names}: {lot.joints} joints"
        yield _diagonals(about)
    else:
        yield f"slid in from the back: {names}: {lot.joints} joints"
    yield (
        f"spread and closed in about {step_facts.OPEN_TIME} min; clamps stay {step_facts.CLAMP} min"
    )
    if lot.too_many:
        yield f"{lot.joints} joints at once: glue that stays open longer, or two people"


def _back(about: About) -> Draft:
    back = [part for part in about.parts if part.name == "back"]
    sizes = "; ".join(f"{about.say(one.length)} x {about.say(one.width)}" for one in back)
    edge = about.say(about.case.back_inset // 2)
    return Draft(
        about.key("back"),
        "Back on, before the box is moved",
        "shop",
        about.name,
        (
            f"{sizes}, {edge} back from every outer edge",
            "glued and fastened all round and to every fixed shelf and upright, not to loose ones",
            _diagonals(about),
        ),
        ("stapler or brad gun", "glue", "clamps"),
        takes=(("back", 0),),
        after=(about.after(last_glue(about), step_facts.CLAMP, "in clamps"),),
        in_one_go=True,
    )


def _hinges(about: About) -> Draft:
    places = "; ".join(
        f"{about.say(one.from_top)} from the top{'' if one.old else ' (new)'}"
        for one in about.sheet.hinges
    )
    return Draft(
        about.key("hinges"),
        "Hinges onto the case",
        "shop",
        about.name,
        (
            f"top of each leaf: {places}",
            "on a solid stile or backing strip, or through-bolted: no screws into ply edges",
        ),
        ("chisel", "router", "driver"),
        takes=(("hinge on the case", 0),),
        after=(box_done(about),),
    )
