"""Slack of strips and sheets, changes of the parts that save stock, and near misses of the job."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from solver.quantities import Length, Model, Money, MoneyDifference


class StripSlack(Model):
    """What one strip of a sheet has left."""

    parts: tuple[str, ...]
    """The parts in it."""
    size: Length
    """Across the strip, as its pieces lie."""
    along: Length
    """Left along the strip after its pieces and the cuts between them."""
    rows: Length | None = None
    """Least room left across it where pieces lie beside each other in one row of it."""


class SheetSlack(Model):
    """Room that a sheet has left beyond its pieces and the cuts between them, margins included."""

    across: Length
    """Left beside the strips that the first cuts make, edges trimmed."""
    strips: tuple[StripSlack, ...]
    """In order from the factory corner."""
    least: Length
    """Least of `across` and of what the strips have along them."""


class Advice(Model):
    """A small change that saves stock, confirmed by cutting the changed parts."""

    what: Literal[
        "shorter", "narrower", "kerf", "edge trim", "grain", "two pieces", "more of a size"
    ]
    material: str | None = None
    """What it is about; None where it is about the saw."""
    parts: tuple[str, ...] = ()
    """Ids of the parts to change; empty where it is about the saw or the stock."""
    by: Length | None = None
    """How much shorter, narrower, thinner or less."""
    to: Length | None = None
    """The size that it comes to."""
    stock: Literal["sheet", "stick"]
    """What `sheets_saved` counts: sheets, or sticks of moulding."""
    sheets_saved: int
    """How many fewer; less than 0 where more of a cheaper size are bought."""
    saves: Money | None
    """None where prices are missing."""
    slack: Length
    """Room that the changed plan keeps: the margin with every piece, or, without a margin, this
    much in every strip."""
    smallest: bool = False
    """True where a step less is proven to save nothing."""
    text: str


BindingLimit: TypeAlias = Literal[
    "holds", "groups", "sag", "load", "depth", "most clear height", "height", "width",
    "least clear height", "shelf lines", "lip", "headroom", "gap", "end margin", "spare",
    "front margin", "marks",
]  # fmt: skip
"""A limit that may keep things out; "width" is room along the shelves, "marks" the marking step, or
pitch and first hole of the pins."""


class Binding(Model):
    """Limits that keep things out: with these taken away, and all else as it is, everything fits.

    One limit by itself, or as few together as do.
    """

    limits: Annotated[tuple[BindingLimit, ...], Field(min_length=1)]
    proven: bool
    """True where everything is proven not to fit without only some of them."""


class Alteration(Model):
    """One thing that is other than in the job, all else as it was."""

    what: Literal[
        "depth", "width", "height", "headroom", "gap", "end margin",
        "shelves", "lying", "stacking", "rows", "lip", "thickness", "uprights",
    ]  # fmt: skip
    case: str | None = None
    """Case whose size or shelves change; None: all cases, or it is about no case."""
    item: str | None = None
    """Kind of thing that may stand otherwise, or the material that is thicker."""
    by: Length | None = None
    """How much less or more."""
    less: bool = False
    to: Length | None = None
    """The size that it comes to, where it is one size; sizes as the job gives them. Of a lip its
    height in all."""
    number: int | None = None
    """How many more shelves (less than 0: fewer) or uprights, or how many may be stacked, or stand
    in a row."""
    note: str | None = None
    """What the job says against it, to be asked or measured first."""


class NearMiss(Model):
    """A small change of the job that gains something, confirmed by solving the changed job."""

    alters: tuple[Alteration, ...]
    gains: Literal["saves", "lets in", "more shelves", "fewer shelves"]
    shelf_counts: dict[str, tuple[int, ...]]
    """Shelves of each bay with the change."""
    lets_in: dict[str, int] = Field(default_factory=dict)
    """How many of which kind find a place that had none with these shelves."""
    sheets_saved: int
    """How many sheets fewer than the recommended option buys; less than 0: more."""
    saves: MoneyDifference | None
    """How much less than the recommended option it costs, below zero more; None where prices
    are missing."""
    total: Money | None
    """What sheets and mouldings then cost."""
    slack: Length
    """Room kept: the margin with every piece, or, without a margin, this much in every strip."""
    smallest: bool
    """True where a step less is proven not to do."""
    text: str
