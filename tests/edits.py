"""Changing one value deep inside a frozen plan."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import BaseModel

from solver.plan.plan import Plan

T = TypeVar("T")


def put(node: T, path: str, value: Any) -> T:
    """Return a copy of `node` with the value at a dotted path replaced.

    A callable is given the old value. Nothing is validated: this is how plans are broken.
    """
    replaced: T = _put(node, path, value)
    return replaced


def _put(node: Any, path: str, value: Any) -> Any:
    if not path:
        return value(node) if callable(value) else value
    head, _, rest = path.partition(".")
    if isinstance(node, BaseModel):
        return node.model_copy(update={head: _put(getattr(node, head), rest, value)})
    if isinstance(node, dict):
        return {**node, head: _put(node[head], rest, value)}
    at = int(head)
    return (*node[:at], _put(node[at], rest, value), *node[at + 1 :])


def in_option(path: str, value: Any) -> Callable[[Plan], Plan]:
    """A change inside the first option."""
    return lambda plan: put(plan, f"options.0.{path}", value)


def in_job(path: str, value: Any) -> Callable[[Plan], Plan]:
    """A change inside the job, whose hash is brought up to date."""

    def change(plan: Plan) -> Plan:
        changed = put(plan, f"job.{path}", value)
        return changed.model_copy(update={"job_hash": changed.job.hash})

    return change


def both(*changes: Callable[[Plan], Plan]) -> Callable[[Plan], Plan]:
    """Several changes, one after the other."""

    def change(plan: Plan) -> Plan:
        for one in changes:
            plan = one(plan)
        return plan

    return change


def more(by: Any) -> Callable[[Any], Any]:
    """A change that adds to the old value."""
    return lambda old: old + by
