"""A thickness that is not known yet: the band it may lie in, and what that means for a plan."""

from __future__ import annotations

from solver.quantities import Length, Model, Money


class MaterialBand(Model):
    """A material whose thickness is not known yet."""

    material: str
    least: Length
    most: Length


class PartOverBand(Model):
    """A part whose size depends on the thickness: its sizes at the ends of the band."""

    part: str
    length_least: Length
    length_most: Length
    width_least: Length
    width_most: Length


class BandEnd(Model):
    """The plan's marks and places at one end of the band."""

    thickness: dict[str, Length]
    """Of each material, by name."""
    headroom_least: Length | None
    """Least headroom of any thing there; every thing has what the job asks for."""
    clear_least: Length
    """Clear height of the lowest opening."""
    clear_most: Length
    """Clear height of the highest opening."""


class Band(Model):
    """What holds for every thickness of the band, with the marks of the plan."""

    materials: tuple[MaterialBand, ...]
    ends: tuple[BandEnd, BandEnd]
    """All thinnest, then all thickest."""
    parts: tuple[PartOverBand, ...]
    """Parts that are cut only when the sheet is measured."""
    sheets: int
    """Sheets that do for any thickness of the band: each part cut as large as it may become."""
    price: Money | None
    """Of those sheets and the mouldings; None where prices are missing."""
    why: str
    """Why what holds at both ends holds between them."""


WHY = (
    "with the marks kept, every clear height, width and depth changes evenly with the "
    "thickness, so none is less between the ends than at one of them, nor more"
)
