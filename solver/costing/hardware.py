"""The list of hardware and consumables of an option; what hangs and fixes a case and its trim.

Hinges and their screws, catches, stop, shims, wall fixings, nails and screws of trim, light.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.pin_holes import PinHoles, pin_holes
from solver.carcass.settled_job import planned_cases
from solver.costing import finish_materials, hardware_catalogue, joint_hardware
from solver.costing.hardware_catalogue import FastenedCase, Need, packed_lines
from solver.job.job import Job
from solver.plan.bought import HardwareLine, Use
from solver.plan.plan import Option
from solver.plan.trimming import TrimPiece
from solver.strength.constants import grams_up
from solver.strength.hang_sheet import hanging_of
from solver.trim.light_glass import LOADED, WARM
from solver.trim.trim_sets import trim_sets
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, format_mass, with_unit


def hardware_list(job: Job, option: Option) -> tuple[HardwareLine, ...]:
    """Return everything but sheets and mouldings that an option takes, in whole packs.

    A pure function of job and option: hinges, joints, back and wall fixings are those of the
    hanging sheets, trim is that of :func:`solver.trim.trim_sets.trim_sets`.

    Raises
    ------
    InputError
        Where a [[hardware]] of the job names no line of the list.
    """
    needs = [need for fastened in fastened_cases(job, option) for need in _case_needs(fastened)]
    return packed_lines(needs, job.hardware, job.unit)


def fastened_cases(job: Job, option: Option) -> tuple[FastenedCase, ...]:
    """Return each case with what holds it together and up."""
    hanging, trims = hanging_of(job, option), trim_sets(job, option)
    return tuple(
        FastenedCase(**vars(planned), sheet=hanging.of(planned.case.name), trim=trim)
        for planned, trim in zip(planned_cases(job, option), trims, strict=True)
    )


def shelf_pin_holes(job: Job, option: Option) -> tuple[PinHoles, ...]:
    """Return the holes for shelf pins of every bay."""
    cases = planned_cases(job, option)
    return tuple(
        bay_holes
        for planned in cases
        for bay_holes in pin_holes(planned.job, planned.case, planned.planned)
    )


def _case_needs(fastened: FastenedCase) -> Iterator[Need]:
    needs = [
        *hinges(fastened),
        *latch(fastened),
        *joint_hardware.joints(fastened),
        *joint_hardware.back(fastened),
        *fixings(fastened),
        *joint_hardware.lips(fastened),
        *light(fastened),
        *blocks(fastened),
        *trim_fasteners(fastened),
    ]
    yield from needs
    yield from joint_hardware.glue(fastened)
    yield from finish_materials.filler(fastened, needs)
    yield from finish_materials.finishes(fastened)
    yield from finish_materials.abrasives(fastened)


NAILS_APART: dict[Unit, Ticks] = {"in": 16 * TICKS_PER_INCH, "mm": 400 * TICKS_PER_MM}
"""Pairs of nails along casing and baseboard: common practice, no source [tick]."""
BRADS_APART: dict[Unit, Ticks] = {"in": 12 * TICKS_PER_INCH, "mm": 300 * TICKS_PER_MM}
"""Brads along scribe strips: common practice, no source [tick]."""
NAIL_SIZE: dict[Unit, str] = {"in": "2 in", "mm": "50 mm"}
BRAD_SIZE: dict[Unit, str] = {"in": "1-1/4 in", "mm": "30 mm"}
SCREW_SIZE: dict[Unit, str] = {"in": "#8 x 1-1/4 in", "mm": "4 x 30 mm"}
"""Screws from inside the case through its edge strip into the back of the casing."""
BLOCK_NAILS = 4
"""Nails in each plinth and corner block [-]."""


def trim_fasteners(fastened: FastenedCase) -> Iterator[Need]:
    """Yield nails, brads and screws of the trim, piece by piece."""
    for piece in fastened.trim.pieces:
        need = _trim_fastener(fastened, piece)
        if need is not None:
            yield need


def _trim_fastener(fastened: FastenedCase, piece: TrimPiece) -> Need | None:
    called = "old casing" if piece.got == "there" else f"{piece.name}s"
    unit, use = fastened.unit, Use(fastened.case.name, called)
    if piece.name in ("shelf lip", "edge band") or piece.got == "sheet":
        return None
    if piece.name == "scribe strip":
        count = piece.length // BRADS_APART[unit] + 1
        return Need(
            hardware_catalogue.BRAD,
            BRAD_SIZE[unit],
            count,
            use,
            _spacing_text(BRADS_APART[unit], unit),
        )
    if fastened.case.kind == "hung" and piece.travels:
        count = max(3, piece.length // BRADS_APART[unit] + 1)
        how = _spacing_text(BRADS_APART[unit], unit)
        return Need(hardware_catalogue.TRIM_SCREW, SCREW_SIZE[unit], count, use, how)
    if piece.name.endswith("block"):
        return Need(
            hardware_catalogue.NAIL, NAIL_SIZE[unit], BLOCK_NAILS, use, f"{BLOCK_NAILS} to a block"
        )
    count = 2 * (piece.length // NAILS_APART[unit] + 1)
    how = f"two every {with_unit(NAILS_APART[unit], unit)}"
    return Need(hardware_catalogue.NAIL, NAIL_SIZE[unit], count, use, how)


def _spacing_text(step: Ticks, unit: Unit) -> str:
    return f"one every {with_unit(step, unit)}"


def blocks(fastened: FastenedCase) -> Iterator[Need]:
    """Yield plinths and corner blocks that are bought or made as blocks."""
    for piece in fastened.trim.pieces:
        if piece.got != "block":
            continue
        kind = (
            hardware_catalogue.PLINTH
            if piece.name.startswith("plinth")
            else hardware_catalogue.BLOCK
        )
        sides = (piece.width, piece.length, piece.thickness)
        size = " x ".join(with_unit(side, fastened.unit).split(" ")[0] for side in sides)
        yield Need(
            kind, f"{size} {fastened.unit}", 1, Use(fastened.case.name, "casing"), "one a leg"
        )


CATCHES = 2
"""One at the top and one at the bottom of the latch side [-]."""
BUMPERS = 2
SHIMS_PER_HINGE = 2
"""Pairs behind each hinge, to bring the jamb plumb [-]."""
SHIMS_BUILT_IN = 8
"""Pairs under and beside a built-in case: four under it, two at each side [-]."""
SHIMS_STANDING = 4
"""Pairs under a standing case, one at each corner [-]."""
STRAPS = 2
SECOND_STRIP: Ticks = 60 * TICKS_PER_INCH
"""Higher cases have a second strip: Architectural Woodwork Standards 1st ed. p. 281 [tick]."""
CLEAT_SHORT: dict[Unit, Ticks] = {"in": TICKS_PER_INCH, "mm": 25 * TICKS_PER_MM}
"""How much shorter than its case a wall cleat is: common practice; that it is a little shorter:
en.wikipedia.org French_cleat [tick]."""
CLEAT_SECTION: dict[Unit, str] = {"in": "2-1/2 x 1/2 in", "mm": "64 x 12 mm"}
"""Anchor strips: Architectural Woodwork Standards 1st ed. p. 281."""
BEFORE_STUD: dict[Unit, Ticks] = {"in": 5 * TICKS_PER_INCH // 4, "mm": 32 * TICKS_PER_MM}
"""Jamb and shim, or cleat and wallboard, that a screw passes through before the stud [tick]."""
STILE_SCREW: dict[Unit, str] = {"in": "1-1/4 in", "mm": "30 mm"}
"""Screws into a solid hinge stile of 3/4 in and the side behind it: common practice, no source."""
GAUGES: dict[str, str] = {"#8": "4", "#10": "5", "#12": "5.5", "#14": "6"}
"""Metric names of the hinge and wall screws [mm]."""


def hinges(fastened: FastenedCase) -> Iterator[Need]:
    """Yield hinges, screws of both leaves, and shims behind each."""
    hinge_set, name = fastened.sheet.hinge, fastened.case.name
    if hinge_set is None:
        return
    size = hinge_set.leaf_words(fastened.unit)
    if hinge_set.leaf_from == "wider than the table":
        size = "by the maker's rating"
    rated = next((figure for figure in fastened.sheet.figures if figure.key == "rating"), None)
    how = f"{hinge_set.count} by height, old mortises first"
    if rated is not None:
        how += f", together rated for {format_mass(grams_up(rated.value), fastened.unit)}"
    yield Need(hardware_catalogue.HINGE, size, hinge_set.count, Use(name), how)
    each = hinge_set.count * hinge_set.screws_per_leaf
    how = f"{hinge_set.count} hinges x {hinge_set.screws_per_leaf} a leaf"
    gauge = _gauge_name(hinge_set.screw, fastened.unit)
    long = f"{gauge} x {_screw_length(hinge_set.thread, fastened.unit)}"
    yield Need(hardware_catalogue.JAMB_SCREW, long, each, Use(name, "jamb leaves"), how)
    short = f"{gauge} x {STILE_SCREW[fastened.unit]}"
    yield Need(hardware_catalogue.CASE_SCREW, short, each, Use(name, "case leaves"), how)
    pairs = hinge_set.count * SHIMS_PER_HINGE
    yield Need(
        hardware_catalogue.SHIM,
        "",
        pairs,
        Use(name, "hinge jamb"),
        f"{SHIMS_PER_HINGE} pairs a hinge",
    )


def _gauge_name(screw: str, unit: Unit) -> str:
    return screw if unit == "in" else GAUGES.get(screw, screw)


def _screw_length(thread: Ticks, unit: Unit) -> str:
    """Return thread in the stud plus what lies before it, rounded up to 1/2 in (10 mm)."""
    step = TICKS_PER_INCH // 2 if unit == "in" else 10 * TICKS_PER_MM
    return with_unit(-(-(thread + BEFORE_STUD[unit]) // step) * step, unit)


def latch(fastened: FastenedCase) -> Iterator[Need]:
    """Yield catches, pull, bumpers and limit stop of a hung case."""
    if fastened.case.kind != "hung":
        return
    name = fastened.case.name
    yield Need(hardware_catalogue.CATCH, "", CATCHES, Use(name, "latch side"), "top and bottom")
    yield Need(hardware_catalogue.PULL, "", 1, Use(name, "latch side"), "one a case")
    yield Need(hardware_catalogue.BUMPER, "", BUMPERS, Use(name, "latch jamb"), "top and bottom")
    opens = fastened.door.opens_to if fastened.door else 90
    yield Need(
        hardware_catalogue.STOP,
        "",
        1,
        Use(name),
        f"at {opens} degrees, so that nobody swings on it",
    )


def fixings(fastened: FastenedCase) -> Iterator[Need]:
    """Yield what fixes a case to the wall, and shims under it."""
    wall, name, kind = fastened.sheet.wall, fastened.case.name, fastened.case.kind
    if wall is None or kind == "hung":
        return
    screw = (
        f"{_gauge_name(wall.screw, fastened.unit)} x {_screw_length(wall.thread, fastened.unit)}"
    )
    if kind == "standing":
        yield Need(hardware_catalogue.STRAP, "", STRAPS, Use(name), "near the top, each to a stud")
        yield Need(
            hardware_catalogue.SHIM,
            "",
            SHIMS_STANDING,
            Use(name, "foot"),
            "one pair at each corner",
        )
        return
    strips = 2 if fastened.planned.outside.height > SECOND_STRIP or kind == "built-in" else 1
    studs = max(wall.studs, 2)
    each = wall.screws_per_stud
    how = f"{studs} studs x {each} x {strips} strip{'s' if strips > 1 else ''}"
    yield Need(
        hardware_catalogue.WALL_SCREW, screw, studs * each * strips, Use(name, "to the wall"), how
    )
    if kind == "wall":
        yield _cleats(fastened, strips)
    if kind == "built-in":
        use = Use(name, "floor and walls")
        yield Need(
            hardware_catalogue.SHIM, "", SHIMS_BUILT_IN, use, "4 pairs under it, 2 at each side"
        )


def _cleats(fastened: FastenedCase, strips: int) -> Need:
    """Return the cleats that carry a wall case, each in two halves, a little shorter than it."""
    unit = fastened.unit
    long = fastened.planned.outside.width - CLEAT_SHORT[unit]
    size = f"{with_unit(long, unit)} long, {CLEAT_SECTION[unit]} or more"
    how = f"{strips} x 2 halves, from an offcut; short, so that the case can be slid sideways"
    return Need(
        hardware_catalogue.CLEAT, size, 2 * strips, Use(fastened.case.name, "to the wall"), how
    )


def light(fastened: FastenedCase) -> Iterator[Need]:
    """Yield strips, their channels where they run warm, and the driver."""
    lit, asked, name = fastened.trim.light, fastened.case.light, fastened.case.name
    if lit is None or asked is None:
        return
    long = -(-sum(run.length for run in lit.runs) // TICKS_PER_MM)
    how = f"{len(lit.runs)} strips"
    yield Need(hardware_catalogue.STRIP, "", long, Use(name, "light"), how)
    if asked.watts >= WARM[fastened.unit]:
        yield Need(hardware_catalogue.CHANNEL, "", long, Use(name, "light"), how)
    size = f"{lit.driver:g} W"
    how = f"{lit.watts:g} W / {LOADED}"
    yield Need(hardware_catalogue.DRIVER, size, 1, Use(name, "light"), how)
