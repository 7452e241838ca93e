"""The answer of ``casewright batch``: several jobs that buy sheets and mouldings together.

Ids of parts carry the name of their job: ``hill/alcove/shelf-1``.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from solver.job.job import Shop
from solver.outcome import Status
from solver.plan.plan import Cost, Plan, Timing, money
from solver.plan.saw_cuts import SawSetting
from solver.plan.stocked import Part, Sheet, Stick
from solver.quantities import Length, Model, Money
from solver.rules_version import UNNUMBERED

JobName = Annotated[str, Field(min_length=1, max_length=200)]


class BatchJob(Model):
    """One job of the batch: what is planned, and what it pays."""

    name: JobName
    """Unique in the batch; ids of its parts begin with it."""
    option: str
    """Name of the option that is built: its shelf counts."""
    share: Money
    """Its share of what the batch buys, by area of parts (by length of moulding)."""
    alone: Money
    """What its sheets and mouldings cost when they are bought for it by itself."""
    alone_sheets: int
    """How many sheets it would buy by itself."""
    sheets: tuple[int, ...]
    """Sheets that carry parts of it, from 1 in the order of the batch's sheets."""
    mouldings: tuple[int, ...] = ()
    """Sticks that carry parts of it, from 1."""
    plan: Plan
    """The job as planned by itself, its one option with the sheets that it would take alone."""
    built: Plan
    """The job as built in the batch: its sizes, marks and places; `shared` of its one option
    says on which sheets of the batch its parts are."""


class Pool(Model):
    """One material, or one moulding, that jobs buy together."""

    material: str
    """Name of the material, or of the moulding."""
    kind: Literal["sheets", "mouldings"]
    thickness: Length
    jobs: tuple[str, ...]
    """Jobs that have parts of it."""
    count: int
    """Sheets or sticks bought."""
    count_bound: int
    """Fewer cannot do."""
    price: Money
    bound: Money
    """It cannot cost less."""
    alone: Money
    """What the jobs would pay, each by itself."""
    alone_count: int
    """How many they would buy, each by itself."""
    status: Status
    stock: tuple[int, ...]
    """Numbers of its sheets, or sticks, from 1."""


class JointSizes(Model):
    """The open sizes of all jobs, chosen together for the least price of the batch."""

    count: int
    """How many sizes are open."""
    moved: tuple[str, ...]
    """Jobs that are built to other sizes than they would have by themselves."""
    bound: Money
    """With these shelf counts no sizes that let as much fit cost less."""
    proven: bool
    """True where that bound is met."""
    away: Length
    """How far the sizes are from those wished, all together."""
    away_bound: Length
    """At this price no sizes are nearer."""


class Batch(Model):
    """Several jobs cut together."""

    schema_: Literal["casewright/batch/1"] = Field(default="casewright/batch/1", alias="schema")
    version: str
    rules: int = UNNUMBERED
    """Number of the rules it was made by, as :data:`solver.rules_version.RULES` counts them [-]."""
    unit: Literal["in", "mm"]
    """Unit in which the batch is shown."""
    status: Status
    """Of the cutting: optimal where the price is proven for these parts."""
    shop: Shop
    """Saws and kerf that all sheets are cut with."""
    jobs: tuple[BatchJob, ...]
    pools: tuple[Pool, ...]
    parts: tuple[Part, ...]
    """All sheet parts."""
    sheets: tuple[Sheet, ...]
    settings: tuple[SawSetting, ...] = ()
    """Settings of the saws in the order of the work, equal ones together over all sheets."""
    mouldings: tuple[Stick, ...] = ()
    sheet_count: int
    sheet_bound: int
    cost: Cost
    sizes: JointSizes | None = None
    """Of the open sizes, where there are any."""
    alone: Money
    """What all jobs would pay, each by itself."""
    alone_sheets: int
    """How many sheets they would buy, each by itself."""
    saving: Money
    """`alone` less the price of the batch."""
    least_slack: Length | None = None
    """Least slack of any sheet or stick."""
    notes: tuple[str, ...] = ()
    """What could not be shared, and why."""
    timing: Timing

    def to_json(self, *, timing: bool = True) -> str:
        """Return the batch as JSON text; without `timing` it repeats byte for byte."""
        import json

        data = self.model_dump(mode="json", by_alias=True)
        if not timing:
            del data["timing"]
            for job in data["jobs"]:
                del job["plan"]["timing"], job["built"]["timing"]
        return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def part_of(job: str, ident: str) -> str:
    """Return the id that a part, or a case, of a job has in the batch."""
    return f"{job}/{ident}"


def shares(total: Decimal, weights: Sequence[int]) -> tuple[Decimal, ...]:
    """Share an amount of whole cents by weight, adding up exactly (largest remainder).

    Each gets its whole cents; the cents that are left go to the largest remainders, the
    earlier one where two are equal. Without any weight the parts are equal.
    """
    cents, whole = int(total * 100), sum(weights)
    if not whole:
        weights, whole = [1] * len(weights), len(weights)
    floors = [cents * weight // whole for weight in weights]
    rests = [cents * weight % whole for weight in weights]
    left = cents - sum(floors)
    first = sorted(range(len(weights)), key=lambda at: (-rests[at], at))[:left]
    return tuple(money(floor + (at in first)) for at, floor in enumerate(floors))
