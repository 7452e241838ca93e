"""[case.trim], [case.light] and [case.glass]: trim, light and glass of a case as ordered."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.job.inventory import NotNegative, Positive
from solver.job.materials import Name
from solver.quantities import Mass, Model

FLUTES_MOST = 15
"""Most flutes on one board [-]."""


class TrimOrder(Model):
    """[case.trim]. Keys without a value here have a default in ``casewright defaults``.

    Casing stands round the doorway of a hung case, round the alcove of a built-in one, and on
    the front edges of any other.
    """

    set: Literal["none", "plain", "classical", "old"]
    """Casing: none, plain legs and head, pilasters on plinths with corner blocks, or the old
    casing put back (the trim that the doorway lists)."""
    casing: Name | None = None
    """Name of the [[moulding]] of the legs."""
    head: Name | None = None
    """Name of that of the head; left out, as the legs."""
    corners: Literal["mitre", "butt"]
    """How plain legs and head meet; butt: the head lies on the legs."""
    reveal: NotNegative
    """Inner edge of the casing back from the edge that it frames [tick]."""
    overlap: NotNegative
    """How far casing that hides a gap lies on the case [tick]."""
    hide_gap: bool
    """Whether the leg at the latch of a hung case covers the gap that it swings in; else it
    stands a reveal back, as at the hinge."""
    bearing: NotNegative
    """Least width of casing that bears on the wall [tick]."""
    joint_gap: NotNegative
    """Between trim that travels and trim that stays [tick]."""
    plinth: Name | None = None
    """Moulding that plinths are cut from; left out, they are made or bought as blocks."""
    plinth_height: Positive | None = None
    """[tick]; left out, 1-1/2 times its width, and 1/4 in over the room's baseboard."""
    block: Name | None = None
    """Moulding that corner blocks are cut from; left out, they are made or bought."""
    larger: NotNegative
    """How much wider plinths and corner blocks are than the casing, both edges together [tick]."""
    thicker: NotNegative
    """How much thicker plinths and corner blocks are than the casing [tick]."""
    flutes: Annotated[int, Field(ge=0, le=FLUTES_MOST)]
    """Flutes on each leg of a classical set; 0 is plain."""
    flute: Positive | None = None
    """Width of a flute [tick]; left out, the casing's width / (2 flutes + 1), rounded down."""
    flute_space: Positive | None = None
    """Between two flutes [tick]; left out, three quarters of a flute, rounded down."""
    flute_margin: NotNegative
    """Least width of the flat at each edge [tick]."""
    flute_stop: NotNegative
    """Flutes end so far from each end of the leg [tick]."""
    room_baseboard: Positive | None = None
    """Height of the room's baseboard, where it meets the trim [tick]."""
    baseboard: Name | None = None
    """Moulding that goes round the foot of the case."""
    scribe: Name | None = None
    """Moulding that strips scribed to the walls are ripped from; built-in cases."""
    scribe_head: bool
    """Whether a strip closes the gap over the case as well."""
    band: Name | None = None
    """Edge banding on every front edge that has no lip."""
    over: NotNegative
    """Trim is cut over-long by so much, to be fitted [tick]."""


Watts = Annotated[float, Field(gt=0, le=1000)]


class Light(Model):
    """[case.light]: strips of small lamps on low voltage."""

    where: Literal["shelves", "top", "sides"]
    """Under the front of every shelf and of the top, under the top alone, or up both sides."""
    watts: Annotated[float, Field(gt=0, le=100)]
    """Of the strip: a foot in an inch job, a metre in a metric one [W]."""
    driver: Watts | None = None
    """What the driver is rated for [W]; left out, the next usual size."""
    short: NotNegative
    """Each strip is shorter than its board by so much, both ends together [tick]."""


class GlassLoad(Model):
    """One line of the maker's load table, for the thickness and depth of these shelves."""

    span: Positive
    """Between supports, at most [tick]."""
    load: Annotated[Mass, Field(ge=1)]
    """Spread evenly [g]."""


class Glass(Model):
    """[case.glass]: glass shelves thought of in place of the boards, or a glazed front."""

    shelves: bool = False
    table: tuple[GlassLoad, ...] = ()
    """The maker's load table; without it no glass shelf is passed."""
    front: bool = False
    """Whether the case has a glazed front or door."""

    @model_validator(mode="after")
    def _steadily_less(self) -> Glass:
        rows = sorted(self.table, key=lambda row: row.span)
        if any(a.load < b.load for a, b in pairwise(rows)):
            msg = "table: a longer span bears more than a shorter one; copy the maker's table again"
            raise ValueError(msg)
        return self
