"""Held decisions: a shelf kept at a mark, or things kept in an opening."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from solver.job.case import SHELVES_MOST
from solver.job.inventory import Positive
from solver.job.materials import Name
from solver.quantities import Model
from solver.units import Unit, with_unit

Number = Annotated[int, Field(ge=1)]


class Hold(Model):
    """[[hold]]: one decision that is not to be changed any more.

    Either `case`, `shelf` and `mark`: the shelf's underside is at that mark. Or `item` and
    `opening`: things of the kind stand in openings of that number.
    """

    case: Name | None = None
    """Name of the case; for things left out: any case."""
    bay: Number | None = None
    """Bay of the case, from 1 at the left [-]; left out: the only one, for things any bay."""
    shelf: Annotated[int, Field(ge=1, le=SHELVES_MOST)] | None = None
    """Number of the shelf, from 1 at the bottom [-]."""
    mark: Positive | None = None
    """Underside of the shelf, from the bottom end of the case's side [tick]."""
    item: Name | None = None
    """Name of the kind of thing."""
    opening: Annotated[int, Field(ge=0, le=SHELVES_MOST)] | None = None
    """Number of the opening, 0 on the lowest board [-]."""
    count: Number | None = None
    """How many of the kind at least [-]; left out: all of them."""

    @model_validator(mode="after")
    def _one_kind(self) -> Hold:
        given = {key for key in type(self).model_fields if getattr(self, key) is not None}
        of_shelf = {"case", "shelf", "mark"} <= given <= {"case", "bay", "shelf", "mark"}
        of_things = {"item", "opening"} <= given <= {"case", "bay", "item", "opening", "count"}
        if not of_shelf and not of_things:
            msg = "write case, shelf and mark, or item and opening"
            raise ValueError(msg)
        if self.bay is not None and self.case is None:
            msg = "a bay goes with the name of its case"
            raise ValueError(msg)
        return self

    @property
    def subject(self) -> tuple[object, ...]:
        """What is held; a later hold of the same takes the place of an earlier one."""
        if self.item is not None:
            return "item", self.item
        return "shelf", self.case, self.bay or 1, self.shelf

    def text(self, unit: Unit) -> str:
        """The decision in words, such as "alcove: shelf 2 at 31-1/2 in"."""
        where = "" if self.case is None else f"{self.case}{f'/{self.bay}' if self.bay else ''}: "
        if self.mark is not None:
            return f"{where}shelf {self.shelf} at {with_unit(self.mark, unit)}"
        many = "" if self.count is None else f"{self.count} x "
        return f"{many}{self.item} in {where}opening {self.opening}"
