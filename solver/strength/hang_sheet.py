"""The hanging sheet of one case: weight, figures, hinges, joints, wall fixing, alternatives."""

from __future__ import annotations

from solver.carcass.boards_of_case import lip_sizes
from solver.carcass.trim_face import doorway as doorway_of
from solver.job.boards import MOVEMENT, movement
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.hanging import Figure, Hanging, HangSheet, HingeSet, Joint
from solver.plan.plan import Option
from solver.strength import fasteners, hinges
from solver.strength.cautions import DEFER, cautions_of
from solver.strength.constants import (
    MM_PER_INCH,
    NEWTONS_PER_POUND,
    grams_up,
    millimetres,
    newtons,
    ticks_up,
)
from solver.strength.fasteners import back_fixing, gauge, joints, screw_size
from solver.strength.figures import figure, shown
from solver.strength.fixed_case import standing_figures, wall_figures, wall_fixing
from solver.strength.hinges import hinge_places, leaf_of
from solver.strength.hung_case import HungCase, hung_figures, racking_figures
from solver.strength.shelf_beams import wood_of
from solver.strength.weights import combined_mass, contents, empty_case, things_in
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, format_mass, with_unit

SEASONAL_CHANGE = 4
"""Change of the moisture content over the year, heated winter to damp summer: common practice,
no source [%]."""


def lip_moves(job: Job, case: Case) -> list[Figure]:
    """Return how far the lip of the shelves swells and shrinks over the year, if there is one."""
    if case.lip is None:
        return []
    wood = wood_of(job, case.lip.moulding).name
    tangential = MOVEMENT[wood][1] if wood in MOVEMENT else max(t for _, t in MOVEMENT.values())
    _, above, below = lip_sizes(job, case)
    wide = millimetres(above + below + job.thickness(case.material))
    return [
        figure(
            "lip-moves",
            "how much the lip's width comes and goes with the seasons",
            ("length", movement(wide, tangential, SEASONAL_CHANGE)),
            (
                "D C_T dM, D the width, dM the change of moisture",
                f"{wide:.2f} mm x {tangential} x {SEASONAL_CHANGE} %",
            ),
            "Wood Handbook FPL-GTR-190 ch. 13 and Table 13-5; valid from 6 to 14 % of moisture",
            assumes=f"flat-sawn {wood}; sheets move far less: let gaps beside solid wood allow it",
        )
    ]


SECOND_STRIP: dict[Unit, Ticks] = {"in": 60 * TICKS_PER_INCH, "mm": 1500 * TICKS_PER_MM}
"""Height from which a case on a wall has a second screw strip: Architectural Woodwork Standards 1st
ed., p. 281 [tick]."""


def with_hanging(job: Job, option: Option) -> Option:
    """Return an option with its hanging sheets and cautions; as it is without any case."""
    if not option.cases:
        return option
    return option.model_copy(update={"hanging": _hanging(job, option)})


def hanging_of(job: Job, option: Option) -> Hanging:
    """Return the hanging sheets and cautions of an option: the plan's, or worked out for old plans.

    `job` is that of the plan.
    """
    return option.hanging or _hanging(job, option)


def _hanging(job: Job, option: Option) -> Hanging:
    return Hanging(
        cases=tuple(hang_sheet(job, option, planned) for planned in option.cases),
        cautions=cautions_of(job, option),
        defer=DEFER,
    )


def hang_sheet(job: Job, option: Option, planned: CasePlan) -> HangSheet:
    """Return the sheet of one planned case."""
    case, inside = job.case(planned.name), contents(planned)
    empty = empty_case(job, option, planned)
    loaded = combined_mass([empty, inside])
    doorway = doorway_of(job, case)
    hung = None
    figures: list[Figure] = []
    if case.kind == "hung":
        places = hinge_places(doorway, planned, job.head.marking_step)
        hung = HungCase(job, case, planned, doorway, empty, loaded, places)
        figures += [*hung_figures(hung), *racking_figures(hung)]
    elif case.kind == "wall":
        figures += wall_figures(job, planned, loaded)
    else:
        figures += standing_figures(planned, empty, loaded)
    joined = joints(job, case, planned)
    figures += _shelf_joint(
        job, planned, next((joint for joint in joined if joint.part == "shelf"), None)
    )
    figures += lip_moves(job, case)
    things = list(things_in(planned))
    guessed = {item.name for item in job.items if item.guessed}
    return HangSheet(
        case=planned.name,
        kind=planned.kind,
        empty=empty.grams,
        contents=inside.grams,
        assumed=tuple(dict.fromkeys(t.item for t in things if t.mass_assumed)),
        guessed=tuple(dict.fromkeys(t.item for t in things if t.item in guessed)),
        centre=(ticks_up(loaded.x), ticks_up(loaded.z), ticks_up(loaded.y)),
        figures=tuple(figures),
        hinges=hung.places if hung else (),
        hinge=_hinge_set(hung) if hung else None,
        joints=joined,
        back=back_fixing(job, case, planned),
        wall=None if hung else wall_fixing(job, planned),
        to_get=_hinges_to_get(hung) if hung else _fixings_to_get(job, planned),
        instead=_alternatives(hung) if hung else (),
    )


def _shelf_joint(job: Job, planned: CasePlan, joint: Joint | None) -> list[Figure]:
    """Return the figure of what holds each end of a fixed shelf under its load limit."""
    if joint is None or joint.fastener == "shelf pin":
        return []
    heaviest = max(opening.load_limit for bay in planned.bays for opening in bay.openings)
    end, count = newtons(heaviest) / 2, joint.fasteners
    if not count:
        return [_dado(job.case(planned.name).dado_depth, planned.bays[0].inside.depth, end)]
    size = fasteners.SCREWS[gauge(job.thickness(job.case(planned.name).material))]
    held = (
        fasteners.LATERAL_END_GRAIN
        * fasteners.lateral_allowable(0.42, size.shank)
        * NEWTONS_PER_POUND
    )
    return [
        figure(
            "joint-screws",
            "screws in each end of a fixed shelf",
            ("count", float(count)),
            (
                "3 to 10 in (254 mm) deep, 4 to 14 in (356 mm); load limit / 2 / screws against "
                "2/3 C D2",
                f"{shown(load_N=2 * end)}, each {end / count:.0f} N of {held:.0f} N",
            ),
            "count: common practice; load: pre-1991 design values, superseded, a rough check only",
            assumes=f"{size.name} screws, G 0.42, glue besides",
            judged=(end / count <= held, "more screws, a dado, or a cleat under the shelf"),
        )
    ]


def _dado(deep: Ticks, shelf: Ticks, end: float) -> Figure:
    area = millimetres(deep) * millimetres(shelf)
    return figure(
        "joint-dado",
        "load on each end of a fixed shelf, borne by its dado",
        ("force", end),
        (
            "load limit / 2, on the dado's lower face, depth of dado x depth of shelf",
            f"{end:.0f} N on {area:.0f} mm2, {end / area:.2f} N/mm2",
        ),
        "arithmetic; the pressure is far below what any wood or board bears",
        assumes="shelf seated to the bottom of the dado; glue keeps it from coming out",
    )


def _hinge_set(hung: HungCase) -> HingeSet:
    """Return what the hinges are; the size by rating comes first, and is a figure."""
    ground, count, size = hung.job.ground, len(hung.places), hung.planned.outside
    table = hinges.leaf_height(hung.width / MM_PER_INCH) is not None
    return HingeSet(
        count=count,
        leaf=leaf_of(hung.doorway, size.width, size.height),
        leaf_from="mortises" if _mortised(hung) else "table" if table else "wider than the table",
        screw=ground.screw,
        thread=ground.screw_thread,
        screws_per_leaf=ground.screws_per_leaf,
        screws=2 * count * ground.screws_per_leaf,
    )


def _hinges_to_get(hung: HungCase) -> tuple[str, ...]:
    unit, ground, hinge_set = hung.job.unit, hung.job.ground, _hinge_set(hung)
    known = hinge_set.leaf_from != "wider than the table"
    size = hinge_set.leaf_words(unit) if known else "wider than any door table"
    return (
        f"{hinge_set.count} hinges, {size}, ball-bearing or the like, together of the load rating "
        f"above ({ground.hinge_margin:g} times the loaded case), by the maker's word",
        f"{hinge_set.screws} screws {screw_size(hinge_set.screw, unit)}: on the jamb long ones, "
        f"through jamb and shim into the stud, {with_unit(ground.screw_thread, unit)} of thread "
        "at least",
        "on the case a solid hinge stile or backing strip, or through-bolts: the edge of a sheet "
        "does not hold the screws",
        "a limit stop, so that nobody swings on it past its full opening",
        "catches at top and bottom of the latch side, against creeping open",
        "a closing bumper, so that things do not fall when it is pushed to",
        "a lip, or a restraint, on every shelf",
    )


def _mortised(hung: HungCase) -> bool:
    return hung.doorway is not None and hung.doorway.mortise_height is not None


def _alternatives(hung: HungCase) -> tuple[str, ...]:
    """Pivots and a caster, with what each would bear."""
    unit, loaded = hung.job.unit, hung.loaded
    arm = hung.arm(loaded)
    side = hinges.pull(loaded.weight, arm, hung.height)
    caster = loaded.weight * hung.across(loaded.x) / hung.latch

    def mass(force: float) -> str:
        return format_mass(grams_up(force), unit)

    return (
        f"Pivots at floor and head: the lower one bears {mass(loaded.weight)}, each is pulled "
        f"sideways by {mass(side)} (W a / h). Nothing hangs on the jamb; the floor and the head "
        "must be solid, the pin moves in from the corner, and the swing is another.",
        f"A caster under the latch foot: it bears {mass(caster)} (W x / w) and takes the pull off "
        "the hinges. Smooth hard floors only: it marks them, and asks for a gap that shows.",
        "A continuous hinge: spreads the screws; hard to adjust, to hide and to take off.",
    )


def _fixings_to_get(job: Job, planned: CasePlan) -> tuple[str, ...]:
    wall, unit = wall_fixing(job, planned), job.unit
    count, thread = wall.screws_per_stud * wall.studs, with_unit(wall.thread, unit)
    screws = f"{count} screws {screw_size(wall.screw, unit)} with {thread} of thread in the studs"
    if planned.kind == "wall":
        tall = with_unit(SECOND_STRIP[unit], unit)
        return (
            "a cleat or screw strip in studs, fixed to top, sides and uprights of the case, not "
            "to a thin back alone",
            f"{screws}, two in each stud; a second strip over {tall} of height",
        )
    return (
        f"two fixings near the top at least, into studs: {screws}; straps that "
        "give where earthquakes occur",
    )
