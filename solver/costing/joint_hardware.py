"""Fasteners and glue of the joints: screws with their holes, shelf pins, the back, lips, glue."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.carcass.boards_of_case import lip_sizes
from solver.carcass.outline import boards_around
from solver.costing import hardware_catalogue
from solver.costing.hardware_catalogue import FastenedCase, Need, area_text
from solver.plan.bought import Use
from solver.plan.stocked import Part
from solver.strength.fasteners import screw_text
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

SQUARE_METRE = (1000 * TICKS_PER_MM) ** 2
"""Square ticks in a square metre [-]."""
GLUE_COVERS = 6
"""Area that PVA glue covers: from memory [m2/l]."""
GLUE_COVERS_TEXT: dict[Unit, str] = {"in": "244 ft2 a gallon", "mm": "6 m2 a litre"}
GLUE_BOUGHT = Fraction(4, 3)
"""Glue bought over glue that stays in the joint: common practice, no source [-]."""
THICK_BACK = 3 * TICKS_PER_INCH // 8
"""Thickness from which a back is screwed, not stapled: common practice, no source [tick]."""
BRADS_APART: dict[Unit, Ticks] = {"in": 8 * TICKS_PER_INCH, "mm": 200 * TICKS_PER_MM}
"""Between the brads of a lip, which hold it while its glue sets: common practice [tick]."""


@dataclass(frozen=True)
class DrillSizes:
    """Holes that are drilled for a wood screw, as texts in the unit of the job.

    Attributes
    ----------
    soft, hard
        Pilot in softwood or plywood, and in hardwood.
    clearance
        Through the part that is drawn up.
    """

    soft: str
    hard: str
    clearance: str


DRILL_SIZES: dict[str, dict[Unit, DrillSizes]] = {
    "#6": {"in": DrillSizes("5/64", "3/32", "9/64"), "mm": DrillSizes("2.0", "2.4", "3.6")},
    "#8": {"in": DrillSizes("3/32", "7/64", "11/64"), "mm": DrillSizes("2.4", "2.8", "4.4")},
    "#10": {"in": DrillSizes("7/64", "1/8", "13/64"), "mm": DrillSizes("2.8", "3.2", "5.0")},
}
"""Holes by gauge. #8: unitcheatsheet.com wood-screw-pilot-holes, the clearance hole larger than its
9/64, which is less than the shank of 0.164 in; #6 and #10 in proportion, from memory."""
SCREW_MM = {"3.5": "#6", "4": "#8", "5": "#10"}
"""Gauge by metric diameter [mm]."""


def drill_sizes_for(screw: str, unit: Unit) -> DrillSizes | None:
    """Return the holes for a screw named as in `#8 x 2 in screw`; None for other sizes."""
    gauge = screw.split(" ", 1)[0]
    by_unit = DRILL_SIZES.get(SCREW_MM.get(gauge, gauge))
    return by_unit[unit] if by_unit else None


def joints(fastened: FastenedCase) -> Iterator[Need]:
    """Yield the screws and pins at the ends of the boards."""
    for joint in fastened.sheet.joints:
        if not joint.fasteners:
            continue
        count = joint.ends * joint.fasteners
        how = f"{joint.ends} {joint.part} ends x {joint.fasteners}"
        if joint.fastener == "shelf pin":
            yield Need(
                hardware_catalogue.PIN, PIN_SIZE, count, Use(fastened.case.name, "shelves"), how
            )
            continue
        size, use = (
            joint.fastener.removesuffix(" screw"),
            Use(fastened.case.name, f"{joint.part} ends", joint.part),
        )
        yield Need(
            hardware_catalogue.JOINT_SCREW,
            size,
            count,
            use,
            how,
            _drilling_note(size, fastened.unit),
        )


def _drilling_note(screw: str, unit: Unit) -> str:
    drill = drill_sizes_for(screw, unit)
    if drill is None:
        return ""
    return (
        f"pilot {drill.soft} {unit}, {drill.hard} in hardwood, clearance {drill.clearance} {unit} "
        "through the side, countersunk"
    )


PIN_SIZE = "5 mm"
"""Pins and their holes: davelers.com/32mm/4988.html."""


def back(fastened: FastenedCase) -> Iterator[Need]:
    """Yield staples for a thin back, screws for a thick one."""
    fixing = fastened.sheet.back
    if fixing is None:
        return
    thick = fastened.job.thickness(fastened.case.back)
    count = fixing.around + fixing.across
    how = (
        f"{fixing.around} round the edges + {fixing.across} along shelves and uprights, "
        f"{with_unit(fixing.spacing, fastened.unit)} apart at most"
    )
    use = Use(fastened.case.name, "back")
    if thick >= THICK_BACK:
        size = screw_text(thick, fastened.unit).removesuffix(" screw")
        yield Need(hardware_catalogue.BACK_SCREW, size, count, use, how)
    else:
        yield Need(
            hardware_catalogue.BACK_STAPLE, _nail_length(thick, fastened.unit), count, use, how
        )


def _nail_length(thick: Ticks, unit: Unit) -> str:
    """Length of a staple or brad: board + 3/4 in (20 mm) of hold, rounded up to 1/4 in (5 mm)."""
    step = TICKS_PER_INCH // 4 if unit == "in" else 5 * TICKS_PER_MM
    hold = 3 * TICKS_PER_INCH // 4 if unit == "in" else 20 * TICKS_PER_MM
    return with_unit(-(-(thick + hold) // step) * step, unit)


def lips(fastened: FastenedCase) -> Iterator[Need]:
    """Yield the brads that hold each lip while its glue sets."""
    if fastened.case.lip is None:
        return
    pieces = [piece for piece in fastened.trim.pieces if piece.name == "shelf lip"]
    apart = BRADS_APART[fastened.unit]
    count = sum(max(2, piece.length // apart + 1) for piece in pieces)
    size = _nail_length(lip_sizes(fastened.job, fastened.case)[0], fastened.unit)
    how = f"{len(pieces)} lips, {with_unit(apart, fastened.unit)} apart"
    yield Need(hardware_catalogue.BRAD, size, count, Use(fastened.case.name, "lips"), how)


def glue(fastened: FastenedCase) -> Iterator[Need]:
    """Yield the glue: ends of the boards, edges under the back, lips."""
    area = glued_area(fastened)
    millilitres = -(-area * 1000 * GLUE_BOUGHT // (GLUE_COVERS * SQUARE_METRE))
    shown = area_text(Fraction(area, SQUARE_METRE), fastened.unit, places=1)
    how = f"{shown} glued / {GLUE_COVERS_TEXT[fastened.unit]} x 4/3"
    yield Need(
        hardware_catalogue.GLUE,
        "",
        int(millilitres),
        Use(fastened.case.name, "joints, back, lips"),
        how,
    )


def glued_area(fastened: FastenedCase) -> int:
    """Area of every glued joint, one face each [square tick]."""
    boards = sum(2 * end_area(part) for part in fastened.parts if glued(fastened, part))
    t = fastened.job.thickness(fastened.case.material)
    lips_of = sum(piece.length * t for piece in fastened.trim.pieces if piece.name == "shelf lip")
    return boards + lips_of + back_glue_area(fastened)


def glued(fastened: FastenedCase, part: Part) -> bool:
    """Whether the ends of a part are glued: all boards but sides, back and shelves on pins."""
    if part.name in ("side", "back"):
        return False
    return part.name != "shelf" or fastened.case.fixing == "fixed"


def end_area(part: Part) -> int:
    """Area of one end of a board; a shelf's length lies along its span [square tick]."""
    return part.width * part.thickness


def back_glue_area(fastened: FastenedCase) -> int:
    """Edges that the back is glued to: round the case, along fixed shelves, uprights [sq tick]."""
    if fastened.case.back == "none":
        return 0
    t, size = fastened.job.thickness(fastened.case.material), fastened.planned.outside
    across, _ = boards_around(fastened.job, fastened.case)
    fixed = fastened.case.fixing == "fixed"
    inner = sum(
        bay.inside.width * len(bay.shelves) if fixed else 0 for bay in fastened.planned.bays
    )
    inner += (len(fastened.planned.bays) - 1) * fastened.planned.bays[0].inside.height
    return t * (2 * size.height + 2 * (size.width - across) + inner)
