"""The things to display, one kind a line of the client's list."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from solver.quantities import Length, Mass, Model
from solver.units import TICKS_PER_MM

WishedPlace = Literal["low", "eye", "top"] | Annotated[int, Field(ge=0, le=99)]
"""A wished place: the lowest opening, the one at eye level, the top one, or an opening number."""

Positive = Annotated[Length, Field(ge=TICKS_PER_MM)]
"""A length of at least 1 mm [tick]."""
NotNegative = Annotated[Length, Field(ge=0)]
"""A length of 0 or more [tick]."""

COUNT_MOST = 10_000
"""Most things of one kind; above it the count is taken for a typing error."""

NAME_MOST = 200
"""Most characters of a name [-]."""
PICTURE_MOST = 300
"""Most characters of the name of a picture."""


class Item(Model):
    """One kind of thing to display, and how many of it."""

    name: Annotated[str, Field(min_length=1, max_length=200)]
    """What the client calls it; unique within a job."""
    width: Positive
    """Along the shelf, as it stands [tick]."""
    height: Positive
    """Upwards, as it stands [tick]."""
    depth: Positive
    """Front to back, as it stands [tick]."""
    count: Annotated[int, Field(ge=1, le=COUNT_MOST)] = 1
    """How many there are [-]."""
    weight: Annotated[Mass, Field(ge=1)] | None = None
    """Mass of one [g]; left out, the standard shelf load on its footprint is assumed."""
    group: str | None = None
    """Things of a group share an opening or openings that follow one another in one bay."""
    heading: Annotated[str, Field(min_length=1, max_length=200)] | None = None
    """The heading it stood under in the list: things of a heading are wished together."""
    keep: Literal["must", "should", "optional"] = "should"
    """How dear it is to the client where not everything fits."""
    hero: bool = False
    """It is to stand with its middle at the height of the eye, its row composed about it."""
    fragile: bool = False
    """It is kept off the lowest shelves."""
    order: Annotated[int, Field(ge=0, le=9999)] | None = None
    """Its number in a series: in a row the lower numbers stand to the left [-]."""
    together: bool = False
    """All of the kind are asked for on one shelf."""
    apart: tuple[str, ...] = ()
    """Names of kinds that it is not to stand beside; its own: no two beside each other."""
    where: WishedPlace | None = None
    """Wished place; a wish, not a rule."""
    may_lie: bool = False
    """It may lie down: height changes places with width or depth."""
    rows: Annotated[int, Field(ge=1, le=6)] = 1
    """Most rows deep; each row behind the first stands on a riser half an item's height up."""
    stack: Annotated[int, Field(ge=1, le=50)] = 1
    """Most alike on each other."""
    gap: NotNegative | None = None
    """Least gap between two of the kind [tick], 0 for books; left out, that of [look]."""
    guessed: bool = False
    """The sizes are guessed: each gets the allowance of [look] on top."""
    expected: bool = Field(default=False, exclude_if=lambda expected: not expected)
    """It is not there yet; room is kept for it."""
    picture: Annotated[str, Field(min_length=1, max_length=PICTURE_MOST)] | None = Field(
        default=None, exclude_if=lambda picture: picture is None
    )
    """A PNG or JPEG file that shows it from the front, from the job's folder on."""


def expected_name(name: str) -> str:
    """Return the name of a kind for which room is kept, from that of the kind."""
    return f"{name}, expected"
