"""What is marked out on each upright board of a case: boards that meet it, fasteners, hinges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from cli.screen.wording import word
from solver.carcass.boards_of_case import lip_sizes
from solver.carcass.front_boards import board_thickness, ceiling
from solver.doorway.swing_of_job import doorway_of
from solver.job.hinge_side import hinge_side
from solver.plan.built import Bay, CasePlan
from solver.plan.hanging import HangSheet
from solver.plan.plan import Option, Plan
from solver.strength.hang_sheet import hanging_of
from solver.units import Ticks, Unit


@dataclass(frozen=True)
class MetBoard:
    """A board that meets the face: both its sides are marked.

    Attributes
    ----------
    name
        "bottom", "shelf 1", "top" and the like.
    part
        Its name in the list of parts.
    underside, top
        Above the foot [tick].
    fastened
        Whether fasteners go in on its middle line.
    from_front
        Each fastener from the front edge of the marked board [tick].
    front, end
        How far the board's front edge, and its back one, are behind the front edge of the marked
        board [tick]; end None: as far back as that.
    """

    name: str
    part: str
    underside: Ticks
    top: Ticks
    fastened: bool
    from_front: tuple[Ticks, ...] = ()
    front: Ticks = 0
    end: Ticks | None = None


@dataclass(frozen=True)
class HingeMark:
    """One hinge mortise, on the outer face: from and to above the foot [tick]."""

    number: int
    low: Ticks
    high: Ticks
    old: bool


@dataclass(frozen=True)
class MarkedFace:
    """One face of a side or an upright.

    Attributes
    ----------
    name
        "left side", "right face of upright 1" and the like.
    foot
        Its lower end, that all its marks are taken from: of a side that of the case, of an upright
        its own, housed part and all.
    height, depth
        Its length from the foot up, and front to back [tick].
    front_left
        Whether the front edge is on the left of one who looks at the face.
    boards, hinges
        From the bottom up.
    hinges_in_front
        Whether the mortises are at the front edge, else at the back edge.
    pins
        Whether shelves lie on pins.
    """

    name: str
    foot: str
    height: Ticks
    depth: Ticks
    front_left: bool
    boards: tuple[MetBoard, ...]
    hinges: tuple[HingeMark, ...] = ()
    hinges_in_front: bool = True
    pins: bool = False


def marked_faces(plan: Plan, option: Option, case: CasePlan) -> tuple[MarkedFace, ...]:
    """Return the inner faces of a case from the left to the right."""
    sheet = hanging_of(plan.job, option).of(case.name)
    first, last = case.bays[0], case.bays[-1]
    side = _hinge_side(plan, case)
    faces = [_side(plan, case, sheet, first, "left", side == "left")]
    for number, (left, right) in enumerate(pairwise(case.bays), start=1):
        for name, bay, front_left in (("left", left, False), ("right", right, True)):
            faces.append(
                _upright(plan, case, sheet, bay, (f"upright {number}, {name} face", front_left))
            )
    faces.append(_side(plan, case, sheet, last, "right", side == "right"))
    return tuple(faces)


def _hinge_side(plan: Plan, case: CasePlan) -> str | None:
    """The side that the hinges are on, seen from the front; None where it is not hung."""
    if case.swing is None:
        return None
    ordered = plan.job.case(case.name)
    return hinge_side(plan.job, doorway_of(plan.job, ordered), ordered)


def _side(
    plan: Plan, case: CasePlan, sheet: HangSheet, bay: Bay, name: str, hinged: bool
) -> MarkedFace:
    ordered = plan.job.case(case.name)
    out = case.swing is not None and doorway_of(plan.job, ordered).swing != "in"
    return MarkedFace(
        name=f"{name} side",
        foot="bottom end of the side",
        height=case.outside.height,
        depth=bay.inside.depth,
        front_left=name == "right",
        boards=(
            *_ends(plan.unit, case, sheet),
            *_shelves(plan, case, sheet, bay),
            _top(case, sheet),
        ),
        hinges=_hinges(case, sheet) if hinged else (),
        hinges_in_front=out,
        pins=ordered.fixing == "pins",
    )


def _upright(
    plan: Plan, case: CasePlan, sheet: HangSheet, bay: Bay, called: tuple[str, bool]
) -> MarkedFace:
    name, front_left = called
    dado = plan.job.case(case.name).dado_depth
    foot = bay.openings[0].floor - dado
    boards = (
        replace(board, underside=board.underside - foot, top=board.top - foot)
        for board in _shelves(plan, case, sheet, bay)
    )
    return MarkedFace(
        name=name,
        foot="lower end of the upright",
        height=ceiling(bay) + dado - foot,
        depth=bay.inside.depth,
        front_left=front_left,
        boards=tuple(boards),
        pins=plan.job.case(case.name).fixing == "pins",
    )


def _fasteners(sheet: HangSheet, part: str) -> tuple[Ticks, ...]:
    return next((joint.from_front for joint in sheet.joints if joint.part == part), ())


def _board(sheet: HangSheet, name: str, part: str, low: Ticks, high: Ticks) -> MetBoard:
    places = _fasteners(sheet, part)
    return MetBoard(name, part, low, high, bool(places), places)


def _ends(unit: Unit, case: CasePlan, sheet: HangSheet) -> Iterator[MetBoard]:
    """The toe, where there is one, and the bottom."""
    floor, t = case.bays[0].openings[0].floor, board_thickness(case)
    if floor > t:
        toe = _board(sheet, word("toe", unit), "toe", 0, floor - t)
        yield replace(toe, end=t)  # it stands upright, flush with the front
    yield _board(sheet, "bottom", "bottom", floor - t, floor)


def _top(case: CasePlan, sheet: HangSheet) -> MetBoard:
    return _board(sheet, "top", "top", ceiling(case.bays[0]), case.outside.height)


def _shelves(plan: Plan, case: CasePlan, sheet: HangSheet, bay: Bay) -> Iterator[MetBoard]:
    pins = plan.job.case(case.name).fixing == "pins"
    places = () if pins else _fasteners(sheet, "shelf")
    lip = lip_sizes(plan.job, plan.job.case(case.name))[0]
    for shelf in bay.shelves:
        yield MetBoard(
            f"shelf {shelf.index}", "shelf", shelf.underside, shelf.top, bool(places), places, lip
        )


def _hinges(case: CasePlan, sheet: HangSheet) -> tuple[HingeMark, ...]:
    """From the bottom up, numbered from the top down as the hanging sheet has them."""
    if sheet.hinge is None:
        return ()
    high, leaf = case.outside.height, sheet.hinge.leaf
    marks = [
        HingeMark(number, high - one.from_top - leaf, high - one.from_top, one.old)
        for number, one in enumerate(sheet.hinges, start=1)
    ]
    return tuple(reversed(marks))
