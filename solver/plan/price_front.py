"""The answer of ``casewright tradeoff``: every Pareto point, that is, option that no other beats.

Two things are compared. *Price* is that of sheets and mouldings; without prices, the area bought.
*Places parted* is how often things of a kind, a heading or a group are parted: the stages
`headings` and `together` of a plan added up. Everything else about the look is shown with each
option, and decides among twins.
"""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any, Literal

from pydantic import Field

from solver.job.job import Job
from solver.plan.plan import Option, Plan, Timing
from solver.quantities import Model, Money
from solver.rules_version import UNNUMBERED


class FrontPoint(Model):
    """One option that no other beats on price and places parted together."""

    number: int
    """From 1, the cheapest first; the dearer, the fewer places are parted."""
    price: Money
    """Sheets and mouldings."""
    price_bound: Money
    """No sizes with these shelf counts, with no more places parted, cost less."""
    area: float
    """Area bought that has no price, in square metres; it is compared beside the price."""
    places_parted: int
    """As in the option's scores [-]."""
    parted_bound: int
    """No layout with these shelf counts at this price has fewer [-]."""
    proven: bool
    """True where price and places parted meet their bounds."""
    premium: Money | None
    """What it costs more than the recommended option; None where it costs less, or has no price."""
    option: Option
    """Everything else about it, as in plans."""


class OpenPart(Model):
    """A part of the front that the limits left unsearched, or that could not be settled."""

    name: str
    """Name of the combination of shelf counts."""
    shelf_counts: dict[str, tuple[int, ...]]
    price: Money | None
    parted_least: int | None
    """Places parted that an option found there would have at least [-]."""
    why: str


class NotOnFront(Model):
    """A combination of shelf counts that has no option on the front."""

    name: str
    shelf_counts: dict[str, tuple[int, ...]]
    why: str


class TradeOff(Model):
    """The whole front."""

    schema_: Literal["casewright/tradeoff/1"] = Field(
        default="casewright/tradeoff/1", alias="schema"
    )
    version: str
    rules: int = UNNUMBERED
    """Number of the rules it was made by, as :data:`solver.rules_version.RULES` counts them [-]."""
    unit: Literal["in", "mm"]
    job: Job
    job_hash: str
    complete: bool
    """True where every option that is not beaten is shown; of twins, one."""
    stopped: bool
    """True where it was stopped, or the time was up, before the end."""
    points: tuple[FrontPoint, ...]
    """Cheapest first."""
    open_parts: tuple[OpenPart, ...] = ()
    not_on_front: tuple[NotOnFront, ...] = ()
    not_tried: int = 0
    """Combinations of shelf counts that were too many to try."""
    recommendation: str | None = None
    """Which option is recommended and why, in one sentence."""
    timing: Timing

    def tagged(self, tag: str) -> FrontPoint | None:
        """Return the point that is recommended, cheapest or best-looking."""
        return next((point for point in self.points if tag in point.option.tags), None)

    def plans(self) -> tuple[Plan, ...]:
        """Return each point as a plan of its own, as `casewright verify` reads them."""
        return tuple(
            Plan(
                version=self.version,
                rules=self.rules,
                unit=self.unit,
                job=self.job,
                job_hash=self.job_hash,
                options=(point.option,),
                timing=self.timing,
            )
            for point in self.points
        )

    def to_json(self, *, timing: bool = True) -> str:
        """Return the front as JSON text; without `timing` it repeats byte for byte."""
        data: dict[str, Any] = self.model_dump(mode="json", by_alias=True)
        if not timing:
            del data["timing"]
        return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def square_metres(square_ticks: int) -> float:
    """Return an area in square metres, to six places."""
    return round(float(Decimal(square_ticks) / Decimal(320_000) ** 2), 6)
