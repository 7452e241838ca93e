"""Parts, and the sheets and sticks that they are cut from."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from solver.job.materials import Grain
from solver.plan.saw_cuts import Cut, Offcut, StickCut
from solver.plan.slack_and_advice import SheetSlack
from solver.quantities import Length, Model, Money


class Allowance(Model):
    """What a joint or clearance adds to the part's finished size."""

    what: str
    length: Length
    """Added to the length; negative for a clearance."""
    width: Length = 0


class SharedStock(Model):
    """Where the parts of a job come from that is built in a batch, with the stock of all jobs."""

    name: str
    """Name of the job in the batch."""
    sheets: dict[str, int]
    """Number of the sheet of the batch, from 1, that carries each part."""
    mouldings: dict[str, int] = Field(default_factory=dict)
    """Number of the stick of the batch, from 1, that each piece of moulding comes from."""


class Part(Model):
    """One piece to cut."""

    id: str
    name: str
    case: str
    material: str
    length: Length
    """Along its grain; allowances included."""
    width: Length
    thickness: Length
    grain: Grain
    allowances: tuple[Allowance, ...] = ()
    set: str | None = None
    """Name of the set that it is to match, where a list of parts names one."""


class Piece(Model):
    """A part where it lies on its sheet, measured from the factory corner."""

    part: str
    x: Length
    y: Length
    length: Length
    width: Length
    turned: bool


class Sheet(Model):
    """One sheet to cut."""

    stock: str
    material: str
    length: Length
    width: Length
    edge_trim: Length
    kerf: Length
    margin: Length
    price: Money | None
    on_hand: bool
    first_cut: Literal["rip", "crosscut"]
    pieces: tuple[Piece, ...]
    cuts: tuple[Cut, ...] = ()
    """In the order in which they are made."""
    offcuts: tuple[Offcut, ...] = ()
    """Leftovers worth keeping."""
    slack: SheetSlack | None = None


class StickPiece(Model):
    """A part where it lies on its stick."""

    part: str
    start: Length
    length: Length


class Stick(Model):
    """One stick of moulding to cut."""

    stock: str
    length: Length
    price: Money | None
    on_hand: bool
    kerf: Length
    pieces: tuple[StickPiece, ...]
    slack: Length | None = None
    """Left after its pieces and the cuts between them."""
    cuts: tuple[StickCut, ...] = ()
    """In the order in which they are made; none for a piece that is all that is left."""


class MatchedSet(Model):
    """The wish that some parts come from one sheet, in sequence, so that the figure runs on."""

    name: str
    parts: tuple[str, ...]
    """Ids in their order: as they lie, from the factory corner on, if granted."""
    granted: bool
    sheet: int | None = None
    """Number of the sheet they lie on, from 1, if granted."""
    laid: Literal["along", "across"] | None = None
    """How they follow one another: along the sheet's length, end to end, or across it."""
    costs: Money | None = None
    """What it would cost more, if not granted; None where prices are missing or unknown."""
    more_sheets: int | None = None
    """How many more sheets it would take, if not granted; None where it is not known."""
    why: str | None = None
    """Why it is not granted, where that is not the price."""
