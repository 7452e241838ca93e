"""The place as measured. Later rules judge it; here it is only recorded."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from solver.inventory import Positive
from solver.materials import Name
from solver.quantities import Length, Model


class Doorway(Model):
    """A doorway or alcove as measured on site."""

    name: Name
    """Unique."""
    widths: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=3)]
    """Clear widths at top, middle, bottom [tick]."""
    heights: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=3)]
    """Clear heights left, right and, where taken, centre [tick]."""
    diagonals: Annotated[tuple[Positive, ...], Field(min_length=2, max_length=2)] | None = None
    """Both diagonals [tick]."""
    jamb_depth: Positive | None = None
    """[tick]"""
    floor_covering: str | None = None
    highest_floor_in_swing: Annotated[Length, Field(ge=0)] | None = None
    """Highest point of the floor in the swept quarter circle, above the doorway's floor [tick]."""
    hinge_side: Literal["left", "right"] | None = None
    swing: Literal["out", "in"] | None = None
    old_mortises: tuple[Positive, ...] = ()
    """From the head jamb down to the top of each mortise [tick]."""
    casing: str | None = None
    obstacles: str | None = None

    @property
    def clear_width(self) -> int:
        """The smallest width [tick]."""
        return min(self.widths)

    @property
    def clear_height(self) -> int:
        """The smallest height [tick]."""
        return min(self.heights)
