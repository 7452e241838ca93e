"""The place as measured: a doorway that a case hangs in, an alcove, a wall, the floor.

What is measured is only recorded here; :mod:`solver.doorway.survey` judges it and
:mod:`solver.intake.sizes_from_place` takes sizes from it. What cannot be is refused
(:mod:`solver.job.doorway_checks`).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.job.doorway_checks import (
    FLOOR_MOST,
    JAMB_MOST,
    LEAF_LEAST,
    LEAF_MOST,
    PIN_MOST,
    STOP_MOST,
    apart_wrong,
    impossible,
    lean_wrong,
    mortises_wrong,
    size_wrong,
)
from solver.job.inventory import NotNegative, Positive
from solver.job.materials import Name
from solver.quantities import Model


class Lean(Model):
    """How far a jamb is out of plumb, both ways; each reading over the same length."""

    across: NotNegative = 0
    """In the plane of the wall [tick]."""
    across_way: Literal["in", "away"] = "in"
    """Where the top leans: into the opening, or away from it."""
    through: NotNegative = 0
    """Through the wall [tick]."""
    through_way: Literal["room", "behind"] = "room"
    """Where the top leans: into the room, or to what is behind."""
    over: Positive
    """The length over which it was read [tick]."""


class Pin(Model):
    """The line that the case turns about, seen from the case's corner on the side it swings to."""

    aside: NotNegative | None = None
    """Beyond the case's hinge side [tick]; left out with `inside`: the hinge gap."""
    inside: NotNegative | None = None
    """Set in from the hinge side, a pivot [tick]."""
    proud: NotNegative = 0
    """In front of the face that leads the swing [tick]."""
    behind: NotNegative = 0
    """Set back behind that face [tick]."""

    @model_validator(mode="after")
    def _one_of_each(self) -> Pin:
        if self.inside is not None and self.aside is not None:
            msg = "pin: aside lies outside the case and inside in it; give one of the two"
            raise ValueError(msg)
        if self.proud and self.behind:
            msg = "pin: proud lies in front of the face and behind in back of it; give one"
            raise ValueError(msg)
        return self


class Trim(Model):
    """A length of casing or other upright trim beside the opening."""

    name: Name
    side: Literal["hinge", "latch"]
    face: Literal["room", "behind"] = "room"
    """The face of the wall that it is on."""
    width: Positive
    """Along the wall [tick]."""
    thickness: Positive
    """Out from the wall [tick]."""
    reveal: NotNegative = 0
    """Its inner edge back from the face of the jamb [tick]."""
    covers: NotNegative = 0
    """Its inner edge over the opening by so much, to hide a gap [tick]."""


class Obstacle(Model):
    """Something that stands where the case swings; a box seen from above."""

    name: Name
    along: NotNegative
    """From the face of the hinge jamb, along the wall, to its near edge [tick]."""
    towards: Literal["latch", "away"] = "latch"
    """Which way `along` is taken: to the latch side, or away past the hinge jamb."""
    out: NotNegative
    """From the face of the wall to its near edge [tick]."""
    case: Name | None = None
    """A case of the job that stands there: its sizes count. One that hangs in another doorway
    counts as it stands open at a right angle; shut, it is out of the way."""
    width: Positive | None = None
    """Along the wall [tick]; left out with `case`."""
    depth: Positive | None = None
    """Out from the wall [tick]; left out with `case`."""
    bottom: NotNegative = 0
    """Its lower end above the floor [tick]."""
    top: Positive | None = None
    """Its upper end above the floor [tick]; left out, as high as the case."""

    @model_validator(mode="after")
    def _has_a_size(self) -> Obstacle:
        sizes = (self.width, self.depth)
        if None in sizes if self.case is None else sizes != (None, None):
            msg = (
                f"{self.name!r}: give width and depth of what stands there, or case = the name of "
                "a case of the job, whose sizes then count"
            )
            raise ValueError(msg)
        return self


class WayIn(Model):
    """A door, lift or stair that the case is carried through."""

    name: Name
    width: Positive
    """Clear [tick]."""
    height: Positive
    """Clear [tick]."""
    turn_from: Positive | None = None
    """Width of the passage before a square turn [tick]."""
    turn_into: Positive | None = None
    """Width of the passage after it [tick]."""


Answer = Literal["yes", "no", "unknown"]


class OldDoor(Model):
    """What the old door did; anything left out has not been asked."""

    louvred: Answer | None = None
    return_air: Answer | None = None
    """Whether it let air back to a furnace or air handler."""
    appliance: Answer | None = None
    """Whether an appliance that burns fuel stands behind it."""
    panel: Answer | None = None
    """Whether an electrical panel or meter is behind it."""
    shut_off: Answer | None = None
    """Whether valves, a sump or a clean-out are behind it."""
    switch: Answer | None = None
    """Whether a switch, outlet, thermostat or alarm is behind the case or in its swing."""
    privacy: Answer | None = None
    """Whether it gave privacy: bath, bedroom."""
    exit: Answer | None = None
    """Whether it is a way out, or leads to the only window of a bedroom."""
    fire_door: Answer | None = None
    """Whether it is rated for fire or closes by itself."""
    entered: Answer | None = None
    """Whether somebody can be in the space behind."""
    cleared_by: str | None = None
    """Who has cleared it, where a way out or a fire door is changed."""


class Doorway(Model):
    """A doorway or alcove as measured on site."""

    name: Name
    """Unique."""
    widths: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=3)]
    """Clear widths at top, middle, bottom [tick]."""
    heights: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=3)]
    """Clear heights left, right and, where taken, centre [tick]."""
    diagonals: Annotated[tuple[Positive, ...], Field(min_length=2, max_length=2)] | None = None
    """Both diagonals [tick]: from bottom left to top right, then the other."""
    jamb_depth: Positive | None = None
    """[tick]"""
    floor_covering: str | None = None
    pile: NotNegative | None = None
    """Thickness of pile and pad above the doorway's floor [tick]; 0 on a hard floor."""
    highest_floor_in_swing: NotNegative | None = None
    """Highest point of the floor in the swept quarter circle, above the doorway's floor [tick]."""
    hinge_side: Literal["left", "right"] | None = None
    swing: Literal["out", "in"] | None = None
    old_mortises: tuple[Positive, ...] = ()
    """From the head jamb down to the top of each mortise [tick]."""
    mortise_height: Positive | None = None
    """Of the hinge leaf [tick]."""
    mortise_width: Positive | None = None
    """Of the hinge leaf, into the jamb's depth [tick]."""
    mortise_radius: NotNegative | None = None
    """Of its corners, 0 square [tick]."""
    mortise_backset: NotNegative | None = None
    """From the edge of the jamb [tick]."""
    hinge_lean: Lean | None = None
    """Plumb of the hinge jamb."""
    latch_lean: Lean | None = None
    """Plumb of the latch jamb."""
    stop: NotNegative | None = None
    """How far the door stop stands in from the jamb [tick]; 0 where there is none."""
    stop_stays: bool = False
    casing: str | None = None
    trim: tuple[Trim, ...] = ()
    """Casing and other trim by measure."""
    obstacles: str | None = None
    """Anything in words."""
    in_the_swing: tuple[Obstacle, ...] = ()
    """What stands in the swing, with place and size."""
    room_in_front: Positive | None = None
    """From the face of the wall to whatever is opposite [tick]."""
    room_behind: Positive | None = None
    """The same behind the doorway [tick]."""
    wall_by_hinge: NotNegative | None = None
    """From the hinge jamb to a wall that stands at right angles, where the case swings [tick]."""
    wall_by_latch: NotNegative | None = None
    """From the latch jamb to such a wall [tick]."""
    behind: str | None = None
    """What is behind it."""
    old_door: OldDoor | None = None
    ceiling: Positive | None = None
    """Least height of the ceiling above the floor [tick]."""
    ways_in: tuple[WayIn, ...] = ()
    """The way through the house to here."""
    pin: Pin = Pin()
    stands_out: NotNegative = 0
    """The case's leading face in front of the wall on the side it swings to [tick]."""
    set_back: NotNegative = 0
    """The same behind it [tick]."""
    opens_to: Annotated[int, Field(ge=30, le=180)]
    """How far it must open [degrees]."""
    hinge_gap: NotNegative
    """Case to hinge jamb [tick]."""
    head_gap: NotNegative
    """Case to head [tick]."""
    floor_gap: NotNegative
    """Case above the highest floor, pile included, in its swing [tick]."""
    running_clearance: NotNegative
    """Least room for a corner that passes the latch jamb [tick]."""
    scribe: NotNegative
    """Built-in: kept free at each side for the strip that is scribed to the wall [tick]."""
    measured_by: str | None = None
    measured_on: str | None = None

    @property
    def clear_width(self) -> int:
        """The smallest width, less stops that stay [tick]."""
        return min(self.widths) - (2 * (self.stop or 0) if self.stop_stays else 0)

    @property
    def clear_height(self) -> int:
        """The smallest height [tick]."""
        return min(self.heights)

    @property
    def floor_to_clear(self) -> int:
        """What the case must pass over: highest point in the swing and pile [tick]."""
        return (self.highest_floor_in_swing or 0) + (self.pile or 0)

    @model_validator(mode="after")
    def _can_be(self) -> Doorway:
        wrong = impossible(self.widths, self.heights, self.diagonals, self.jamb_depth)
        wrong = wrong or next(self._details_wrong(), None)
        if wrong:
            raise ValueError(wrong)
        if self.stands_out and self.set_back:
            msg = "stands_out is in front of the wall and set_back behind it; give one of the two"
            raise ValueError(msg)
        return self

    def _details_wrong(self) -> Iterator[str]:
        """What cannot be among the finer measurements."""
        leaf, floor = self.mortise_height, self.highest_floor_in_swing
        leans = ("hinge_lean", self.hinge_lean), ("latch_lean", self.latch_lean)
        faults = (
            apart_wrong("widths", self.widths),
            apart_wrong("heights", self.heights),
            size_wrong("door stop", self.stop or 0, 0, STOP_MOST),
            size_wrong("pile", self.pile or 0, 0, FLOOR_MOST),
            size_wrong("highest_floor_in_swing", floor or 0, 0, FLOOR_MOST),
            size_wrong("mortise_height", leaf, LEAF_LEAST, LEAF_MOST) if leaf else None,
            size_wrong("pin aside", self.pin.aside or 0, 0, PIN_MOST),
            size_wrong("pin proud", self.pin.proud, 0, PIN_MOST),
            size_wrong("pin behind", self.pin.behind, 0, JAMB_MOST),
            *(lean_wrong(name, max(n.across, n.through), n.over) for name, n in leans if n),
            *mortises_wrong(sorted(self.old_mortises), max(self.heights), leaf or LEAF_LEAST),
        )
        yield from (text for text in faults if text)
