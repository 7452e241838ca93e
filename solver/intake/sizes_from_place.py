"""Sizes from the place: what a doorway, an alcove, a wall or a room leaves for a case.

Each size is what was measured less its deductions, every one with its reason and source, rounded
down to the cutting step. Where a case leaves its width or height out and names its doorway,
:func:`solver.intake.place_fill.with_sizes_of_place` takes them from here.

The droop that the height of a hung case allows for is that of all things of the job in a case with
the most shelves that it may have: nothing is planned yet, and the planned case droops no more.
Ways in are tried with doors and square turns of a passage.
"""

from __future__ import annotations

from math import cos, isqrt, pi, sin

from solver.carcass.boards_of_case import case_parts, lip_sizes, mass_of
from solver.carcass.outline import back_thickness
from solver.carcass.settled_job import most_of, most_outside_depth
from solver.doorway.swing_clearance import widest
from solver.doorway.swing_of_job import doorway_of, swing_of
from solver.job.case import Case, most_size
from solver.job.doorway import Doorway, WayIn
from solver.job.job import Job
from solver.plan.swinging import Deduction, PlaceSize, PlaceSizes
from solver.strength.constants import KILOGRAMS_PER_MM3, STANDARD_GRAVITY, millimetres, ticks_up
from solver.strength.hinges import LEAST_HINGES, TOP_HINGE_GIVE, droop, least_spread
from solver.strength.shelf_beams import board_of, wood_of
from solver.strength.stability import PANEL_SHEAR, panel_droop
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, round_down, round_up, with_unit

PLANE = "plane geometry"
Reason = tuple[str, str]
"""(the reason, its source)."""
HEAD: Reason = (
    "so that it does not rub",
    "1/8 in (3 mm) at the head: jlconline.com hanging-a-new-door-in-an-old-jamb_2",
)
HIGHEST: Reason = ("it must pass over it", PLANE)
FLOOR: Reason = (
    "room above what it passes over",
    "1/2 in (12 mm) is usual: greenyplace.com door and carpet",
)
DROOP: Reason = (
    "what the top hinge and the back of a full case give",
    "similar triangles, 1/32 in at the hinge: common practice, no source",
)
HINGE: Reason = (
    "so that it does not bind",
    "3/32 in each side is the old practice: chestofbooks.com Building-Trades-Pocketbook",
)
SWEEP: Reason = ("the far corner swings wider than the case", PLANE)
SMALLEST = "the smallest counts"
STRIP: Reason = (
    "for strips scribed to the walls",
    "fitting strip of 3/4 in: docslib.org 8288246; wall scribes at most 1-1/2 in: AWS 1st ed.",
)
PAIR: Reason = ("two cases share the opening, one hinged on each jamb", PLANE)
STAND_UP: Reason = (
    "its diagonal must pass under the ceiling",
    "sqrt(h^2 + d^2) <= ceiling - margin: plane geometry; margin: common practice, no source",
)
SCRIBE_MOST: dict[Unit, Ticks] = {"in": 12192, "mm": 38 * TICKS_PER_MM}
"""Widest scribe: 1-1/2 in, Architectural Woodwork Standards 1st ed. as quoted [tick]."""
TIP_MARGIN = 2032
"""Kept between the corner and the ceiling while a case is stood up: 1/4 in. Common practice, no
source [tick]."""


def sizes_from_place(job: Job, case: Case) -> PlaceSizes:
    """Outside sizes that the place leaves for a case.

    Parameters
    ----------
    job, case
        The job, and the case that names a doorway of it. A hung case is held higher by the
        droop that is to be expected of its latch side.

    Returns
    -------
    PlaceSizes
        Outside width and height at most, and the bottom's height above the floor.
    """
    door = doorway_of(job, case)
    if case.kind == "hung":
        return _hung(job, case, door)
    if case.kind == "built-in":
        return _alcove(job, case, door)
    return _free(job, case, door)


def _hung(job: Job, case: Case, door: Doorway) -> PlaceSizes:
    step = job.shop.cutting_step
    deep = most_of(job, case).depth
    left = door.clear_height - door.head_gap - door.floor_to_clear - door.floor_gap
    droop = droop_allowed(job, case, door, (door.clear_width, left, deep))
    bottom = door.floor_to_clear + door.floor_gap + droop
    return PlaceSizes(
        kind="hung",
        width=_hung_width(job, case, door, step),
        height=_reduced(
            door.clear_height,
            "smallest height",
            step,
            _deduction("head gap", door.head_gap, HEAD),
            _deduction("highest floor in the swing", door.floor_to_clear, HIGHEST),
            _deduction("floor clearance", door.floor_gap, FLOOR),
            _deduction("droop of the latch side", droop, DROOP),
        ),
        above_floor=bottom,
        notes=ways_checked(job, case, door),
    )


def _hung_width(job: Job, case: Case, door: Doorway, step: Ticks) -> PlaceSize:
    """Opening less hinge gap and the latch gap that the swing needs at the most depth."""
    depth = most_outside_depth(job, case)
    swing = swing_of(job, _as_wide_as_the_opening(case, door), depth)
    most = widest(swing, door.opens_to) or 0
    gap = swing.opening - door.hinge_gap - most
    other = door.clear_width - swing.opening
    return _reduced(
        door.clear_width,
        "smallest width",
        step,
        *([_deduction("the other case and its hinge gap", other, PAIR)] * bool(other)),
        _deduction("hinge gap", door.hinge_gap, HINGE),
        _deduction(f"latch gap to swing {with_unit(depth, job.unit)} of depth", gap, SWEEP),
    )


def _as_wide_as_the_opening(case: Case, door: Doorway) -> Case:
    return case.model_copy(
        update={"width": door.clear_width, "height": door.clear_height, "sizes": "outside"}
    )


def _alcove(job: Job, case: Case, door: Doorway) -> PlaceSizes:
    """Built square; strips scribed to the walls fit the room."""
    step, scribe = job.shop.cutting_step, door.scribe
    both = _deduction("scribe, both sides", 2 * scribe, STRIP)
    return PlaceSizes(
        kind="built-in",
        width=_reduced(door.clear_width, "smallest width", step, both),
        height=_stood_up(
            job,
            case,
            door,
            _reduced(
                door.clear_height,
                "smallest height",
                step,
                _deduction("scribe or cover at the head", scribe, STRIP),
            ),
        ),
        above_floor=0,
        notes=(*_strips(job, door), *ways_checked(job, case, door)),
    )


def _strips(job: Job, door: Doorway) -> tuple[str, ...]:
    """How wide the strips come out where the alcove is widest."""
    widest_strip = (max(door.widths) - min(door.widths)) + door.scribe
    shown, most = with_unit(widest_strip, job.unit), SCRIBE_MOST[job.unit]
    if widest_strip > most:
        over = with_unit(most, job.unit)
        return (f"a scribed strip is {shown} at the widest, over {over}: shim a side or box out",)
    return (f"scribed strips are {with_unit(door.scribe, job.unit)} to {shown} wide",)


def _free(job: Job, case: Case, door: Doorway) -> PlaceSizes:
    """Along a wall, on it or before it: the measured space, and standing it up."""
    step = job.shop.cutting_step
    height = _reduced(door.clear_height, "smallest height", step)
    return PlaceSizes(
        kind=case.kind,
        width=_reduced(door.clear_width, "smallest width", step),
        height=_stood_up(job, case, door, height) if case.kind == "standing" else height,
        above_floor=case.above_floor,
        notes=ways_checked(job, case, door),
    )


def _stood_up(job: Job, case: Case, door: Doorway, height: PlaceSize) -> PlaceSize:
    """Less height where the case could not be tilted up under the ceiling."""
    if door.ceiling is None:
        return height
    most = tip_up_height(door.ceiling, most_outside_depth(job, case))
    if height.size <= most:
        return height
    cut = _deduction("to stand it up under the ceiling", height.size - most, STAND_UP)
    step = job.shop.cutting_step
    return height.model_copy(
        update={"deductions": (*height.deductions, cut), "size": round_down(most, step)}
    )


def tip_up_height(ceiling: Ticks, depth: Ticks) -> Ticks:
    """Highest case of a depth that can be tilted up: sqrt((ceiling - margin)^2 - d^2), down."""
    square = (ceiling - TIP_MARGIN) ** 2 - depth**2
    return isqrt(square) if square > 0 else 0


def _deduction(what: str, length: Ticks, reason: Reason) -> Deduction:
    return Deduction(what=what, length=length, why=reason[0], source=reason[1])


def _reduced(measured: Ticks, what: str, step: Ticks, *deductions: Deduction) -> PlaceSize:
    """What was measured less the deductions, down to the cutting step."""
    left = measured - sum(one.length for one in deductions)
    size = max(0, round_down(left, step))
    return PlaceSize(measured=measured, what=what, why=SMALLEST, deductions=deductions, size=size)


SPARE = TICKS_PER_INCH // 4
"""Height that droop and rounding take off: hinges are reckoned so much nearer [tick]."""
STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM // 2}
"""Steps in which the droop is allowed for: nobody hangs a case truer [tick]."""


def droop_allowed(job: Job, case: Case, door: Doorway, most: tuple[Ticks, Ticks, Ticks]) -> Ticks:
    """Return how far the latch edge of a hung case may come down, up to a whole step [tick].

    Parameters
    ----------
    job, case
        With everything that may stand in the case.
    door
        Its doorway; old mortises say how far the hinges are apart.
    most
        Outside width and height and inside depth that it may come to, droop left aside [tick].
    """
    wide, high, _ = most
    if high <= LEAST_HINGES * SPARE:
        return 0
    apart = least_spread(door, wide, high - SPARE)
    panel = millimetres(wide), millimetres(high - SPARE)
    fall = droop(TOP_HINGE_GIVE, panel[0], millimetres(apart))
    back = back_thickness(job, case)
    if back:
        weight = _most_weight(job, case, most)
        fall += panel_droop(weight, (*panel, millimetres(back)), PANEL_SHEAR)
    return round_up(ticks_up(fall), STEP[job.unit])


def _most_weight(job: Job, case: Case, most: tuple[Ticks, Ticks, Ticks]) -> float:
    """Everything in the job, and the box with the most shelves [N]."""
    bays, shelves = case.bay_counts[-1], case.shelf_counts[-1]
    wide, high, depth = most
    size = {"width": wide, "height": high, "sizes": "outside", "uprights": bays - 1}
    single = case.model_copy(update=size)
    kilograms = sum(mass_of(job, item)[0] * item.count for item in job.items) / 1000
    for part in case_parts(job, single, [shelves] * bays, depth):
        volume = millimetres(part.length) * millimetres(part.width) * millimetres(part.thickness)
        kilograms += volume * board_of(job, part.material).density * KILOGRAMS_PER_MM3
    if case.lip is not None:
        thick, above, below = (millimetres(one) for one in lip_sizes(job, case))
        section = thick * (above + below + millimetres(job.thickness(case.material)))
        density = wood_of(job, case.lip.moulding).density * KILOGRAMS_PER_MM3
        kilograms += section * millimetres(wide) * shelves * density
    return kilograms * STANDARD_GRAVITY


ROUNDS = 80
"""Steps of the ternary search for the angle at a turn; the last are far below a tick [-]."""


def ways_checked(job: Job, case: Case, door: Doorway) -> tuple[str, ...]:
    """Say of each way in whether the case can be carried through it, once for each."""
    sides = most_size(case.width), most_size(case.height), most_outside_depth(job, case)
    return tuple(_way_checked(job, way, sides) for way in door.ways_in)


def _way_checked(job: Job, way: WayIn, sides: tuple[Ticks, Ticks, Ticks]) -> str:
    width, height, depth = sides
    small, middle, _ = sorted(sides)
    if small > min(way.width, way.height) or middle > max(way.width, way.height):
        size = f"{with_unit(middle, job.unit)} x {with_unit(small, job.unit)}"
        return (
            f"{way.name}: the case, {size} at its smallest, does NOT go through; make it in parts"
        )
    if way.turn_from is None or way.turn_into is None:
        return f"{way.name}: the case goes through"
    upright = height <= way.height and width <= longest_round(way.turn_from, way.turn_into, depth)
    flat = longest_round(way.turn_from, way.turn_into, min(width, depth)) >= height
    if upright or flat:
        how = "standing" if upright else "lying"
        return f"{way.name}: the case goes through and round the turn {how}"
    return f"{way.name}: the case does NOT go round the turn; make it in parts"


def longest_round(first: Ticks, second: Ticks, thick: Ticks) -> Ticks:
    """Longest box of a thickness that goes round a square turn, rounded down [tick].

    The least over all angles of (A cos t + B sin t - d) / (sin t cos t): a box of thickness d
    that touches both outer walls just clears the inner corner. 0 where it does not enter.
    """
    if thick >= min(first, second):
        return 0

    def length(t: float) -> float:
        return (first * cos(t) + second * sin(t) - thick) / (sin(t) * cos(t))

    low, high = 1e-6, pi / 2 - 1e-6
    for _ in range(ROUNDS):
        third = (high - low) / 3
        if length(low + third) < length(high - third):
            high -= third
        else:
            low += third
    return int(length((low + high) / 2))
