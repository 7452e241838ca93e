"""Stock to buy: sheets and mouldings."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from solver.inventory import Positive
from solver.quantities import Model, Money

Name = Annotated[str, Field(min_length=1, max_length=200)]
Grain = Literal["length", "width", "any"]
"""Which side of a part or sheet the grain runs along."""


class SheetStock(Model):
    """One size of a sheet material."""

    name: Name
    """Name of this size in the buy list; unique."""
    material: Name
    """The material; sheets of one material differ in size and price only."""
    length: Positive
    """Along the grain [tick]."""
    width: Positive
    """Across the grain [tick]."""
    thickness: Positive
    """As measured, not nominal [tick]."""
    price: Money | None = None
    """Price of one; left out, a sheet costs its area and the total is incomplete."""
    on_hand: Annotated[int, Field(ge=0, le=10_000)] = 0
    """How many are there already, used first and at no price [-]."""
    limit: Annotated[int, Field(ge=0, le=10_000)] | None = None
    """How many can be bought at most [-]; left out, any number."""
    grain: Literal["length", "any"] = "length"
    """"length": parts keep their direction; "any": no grain (MDF, painted), parts may turn."""


class StickLength(Model):
    """One length in which a moulding is sold."""

    length: Positive
    """[tick]"""
    price: Money | None = None
    """Price of one stick."""
    on_hand: Annotated[int, Field(ge=0, le=10_000)] = 0
    """How many are there already [-]."""
    limit: Annotated[int, Field(ge=0, le=10_000)] | None = None
    """How many can be bought at most [-]."""


class MouldingStock(Model):
    """Lip stock, casing and the like, sold by the stick."""

    name: Name
    """Name in the buy list; unique."""
    thickness: Positive
    """Front to back when fixed to a shelf edge [tick]."""
    width: Positive
    """Up and down when fixed to a shelf edge [tick]."""
    lengths: Annotated[tuple[StickLength, ...], Field(min_length=1)]
    """The lengths in which it is sold, with prices."""
