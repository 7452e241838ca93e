"""The answer of ``casewright whatif``: what changes if the client's things change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from pydantic import Field

from solver.errors import InputError
from solver.job.holds import Hold
from solver.job.inventory import Item, expected_name
from solver.job.job import Job
from solver.plan.compared import OpeningPlace
from solver.plan.plan import Plan
from solver.quantities import Model

Answer = Literal["as it stands", "things move", "shelves move", "further shelf", "further case"]


class AddedThings(Model):
    """Where added things would stand."""

    item: str
    count: int
    where: OpeningPlace


class WhatIf(Model):
    """The answer of `casewright whatif`."""

    schema_: Literal["casewright/whatif/1"] = Field(default="casewright/whatif/1", alias="schema")
    asked: tuple[str, ...]
    """What is added and dropped, in words."""
    answer: Answer
    """The least that would have to change."""
    settled: bool
    """Whether it is proven that less would not do."""
    text: str
    stands: tuple[AddedThings, ...]
    """Where the added things would stand; empty where they find no place."""
    left_out: dict[str, int] = Field(default_factory=dict)
    """For a further case: what finds no place in these, by kind."""
    plan: Plan | None = None
    """The plan with the things changed, and its comparison with the last one."""


def with_things(job: Job, add: Sequence[Item], drop: Mapping[str, int | None]) -> Job:
    """Return the job with things added and dropped; what was expected makes room as it comes.

    Parameters
    ----------
    job
        The job.
    add
        Things to add; more of a kind of the job where the name is one of its kinds.
    drop
        How many of which kind to take away, by name; None: all of them [-].

    Raises
    ------
    InputError
        Where there are not so many, or nothing would be left.
    """
    counts = {item.name: item.count for item in job.items}
    for name, count in drop.items():
        if name not in counts:
            msg = f"{name!r} is not in the job; its things: {', '.join(map(repr, counts))}"
            raise InputError(msg, "--drop")
        if count is not None and count > counts[name]:
            msg = f"there are only {counts[name]} of {name!r}; give at most that"
            raise InputError(msg, "--drop")
        counts[name] = 0 if count is None else counts[name] - count
    for name, count in expected_arrivals(job, add).items():
        counts[name] = max(0, counts[name] - count)
    for item in add:
        counts[item.name] = counts.get(item.name, 0) + item.count
    kinds = {item.name: item for item in (*add, *job.items)}
    order = dict.fromkeys([item.name for item in (*job.items, *add)])
    items = [
        kinds[name].model_copy(update={"count": counts[name], "apart": _apart(kinds[name], counts)})
        for name in order
        if counts[name]
    ]
    if not items:
        msg = "nothing would be left to display"
        raise InputError(msg, "--drop")
    return job.model_copy(update={"items": tuple(items), "holds": _still_held(job, counts)})


def _apart(item: Item, counts: Mapping[str, int]) -> tuple[str, ...]:
    """What a kind is to stand apart from and that is still there."""
    return tuple(name for name in item.apart if counts.get(name, 1))


def expected_arrivals(job: Job, add: Sequence[Item]) -> dict[str, int]:
    """How many of what is added was expected [-], by the name under which room is kept for it."""
    expected = {item.name: item.count for item in job.items if item.expected}
    added: dict[str, int] = {}
    for item in add:
        name = expected_name(item.name)
        added[name] = added.get(name, 0) + item.count
    return {name: min(count, added[name]) for name, count in expected.items() if name in added}


def _still_held(job: Job, counts: Mapping[str, int]) -> tuple[Hold, ...]:
    """The holds of what is still there."""
    return tuple(
        hold
        for hold in job.holds
        if hold.item is None or 0 < (hold.count or 1) <= counts[hold.item]
    )
