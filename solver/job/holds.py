"""Held decisions: a shelf kept at a mark, things kept in an opening, a place left empty."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from solver.job.case import SHELVES_MOST
from solver.job.inventory import Positive
from solver.job.materials import Name
from solver.quantities import Model
from solver.units import Unit, with_unit

PLACES_MOST = 999
"""Highest number of a place in a row; above it the number is taken for a typing error [-]."""
OF_THINGS = ("item", "opening", "count", "place")
"""Keys of a hold of things, beside where it is."""
Number = Annotated[int, Field(ge=1)]


class Hold(Model):
    """[[hold]]: one decision that is not to be changed any more.

    Either `case`, `shelf` and `mark`: the shelf's underside is at that mark. Or `item` and
    `opening`: things of the kind stand in openings of that number, one of them at `place` where
    that is given. Or `case`, `opening` and `empty`: nothing stands there.
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
    """How many of the kind at least [-]; left out: all of them, or one where `place` is given."""
    place: Annotated[int, Field(ge=1, le=PLACES_MOST)] | None = None
    """Number of the place in its row that one of the kind keeps, from 1 at the left [-]."""
    empty: Literal[True] | None = None
    """True: nothing is to stand in the opening."""

    @model_validator(mode="before")
    @classmethod
    def _one_at_a_place(cls, data: Any) -> Any:
        if isinstance(data, dict) and data.get("place") is not None and data.get("count") is None:
            return {**data, "count": 1}
        return data

    @model_validator(mode="after")
    def _one_kind(self) -> Hold:
        given = {key for key in type(self).model_fields if getattr(self, key) is not None}
        of_shelf = {"case", "shelf", "mark"} <= given <= {"case", "bay", "shelf", "mark"}
        of_things = {"item", "opening"} <= given <= {"case", "bay", *OF_THINGS}
        of_nothing = {"case", "opening", "empty"} <= given <= {"case", "bay", "opening", "empty"}
        if not of_shelf and not of_things and not of_nothing:
            msg = "write case, shelf and mark, or item and opening, or case, opening and empty"
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
        if self.empty:
            return "empty", self.case, self.bay or 1, self.opening
        return "shelf", self.case, self.bay or 1, self.shelf

    def text(self, unit: Unit) -> str:
        """The decision in words, such as "alcove: shelf 2 at 31-1/2 in"."""
        where = "" if self.case is None else f"{self.case}{f'/{self.bay}' if self.bay else ''}: "
        if self.mark is not None:
            return f"{where}shelf {self.shelf} at {with_unit(self.mark, unit)}"
        if self.empty:
            return f"{where}opening {self.opening} left empty"
        many = "" if self.count is None else f"{self.count} x "
        place = "" if self.place is None else f", place {self.place}"
        return f"{many}{self.item} in {where}opening {self.opening}{place}"
