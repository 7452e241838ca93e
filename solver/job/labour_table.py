"""The labour table: every task of the work, per what it is counted, and minutes for one.

The one place for times: the price counts hours from it and the order of the work its steps.
All times are common practice without a source; `[price] labour` changes any of them.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from solver.job.defaults import CP

Workplace = Literal["desk", "shop", "site"]
Phase = Literal["before", "cutting", "making", "finish", "site", "forgotten"]


@dataclass(frozen=True)
class Task:
    """One task of the table.

    Attributes
    ----------
    key
        Its name in `[price] labour`.
    per
        What is counted.
    minutes
        Of work for one, by one person [min].
    phase
        Under which heading the price shows it; "forgotten" ones are always listed.
    where
        Where it is done.
    source
        Where the time comes from.
    """

    key: str
    per: str
    minutes: Decimal
    phase: Phase
    where: Workplace
    source: str = CP


def _task(key: str, per: str, minutes: str, phase: Phase, where: Workplace) -> Task:
    return Task(key, per, Decimal(minutes), phase, where)


TASKS: dict[str, Task] = {
    task.key: task
    for task in (
        _task("survey trip", "visit", "90", "forgotten", "site"),
        _task("drawing and proposal", "job", "90", "before", "desk"),
        _task("drawing", "case", "30", "before", "desk"),
        _task("fetching materials", "trip", "60", "before", "shop"),
        _task("setting a saw", "setting", "3", "cutting", "shop"),
        _task("sheet cut", "cut", "3", "cutting", "shop"),
        _task("stick cut", "cut", "2", "cutting", "shop"),
        _task("labelling", "part", "0.5", "cutting", "shop"),
        _task("marking out", "board between the sides", "2", "making", "shop"),
        _task("dado", "dado", "5", "making", "shop"),
        _task("pilot holes", "joint", "2", "making", "shop"),
        _task("pin holes", "hole", "0.25", "making", "shop"),
        _task("banding", "edge", "4", "making", "shop"),
        _task("sanding", "m2", "10", "making", "shop"),
        _task("dry fit", "case", "20", "making", "shop"),
        _task("dry fit of a board", "board", "1", "making", "shop"),
        _task("glue-up", "joint", "4", "making", "shop"),
        _task("squaring", "case", "10", "making", "shop"),
        _task("back", "piece", "25", "making", "shop"),
        _task("lip", "lip", "10", "making", "shop"),
        _task("trim that travels", "piece", "15", "making", "shop"),
        _task("flute", "flute", "6", "making", "shop"),
        _task("light strip", "strip", "15", "making", "shop"),
        _task("priming", "m2", "6", "finish", "shop"),
        _task("top coat", "m2", "6", "finish", "shop"),
        _task("rubbing down", "m2", "3", "finish", "shop"),
        _task("hinge on the case", "hinge", "25", "making", "shop"),
        _task("old door out", "doorway", "45", "site", "site"),
        _task("preparing the opening", "opening", "75", "site", "site"),
        _task("finding studs", "case", "20", "site", "site"),
        _task("wall cleat", "case", "40", "site", "site"),
        _task("carrying in", "case", "30", "site", "site"),
        _task("hanging", "hinge", "20", "site", "site"),
        _task("levelling", "case", "25", "site", "site"),
        _task("fixing to the wall", "case", "30", "site", "site"),
        _task("open-test", "case", "20", "site", "site"),
        _task("scribing", "strip", "30", "site", "site"),
        _task("trim on the wall", "piece", "20", "site", "site"),
        _task("catches and pull", "case", "40", "site", "site"),
        _task("shelves in", "loose shelf", "2", "site", "site"),
        _task("loading", "case", "30", "site", "site"),
        _task("hand-over", "job", "30", "site", "site"),
        _task("delivery", "trip", "90", "forgotten", "site"),
        _task("disposal", "opening", "30", "forgotten", "site"),
        _task("protection", "room", "30", "forgotten", "site"),
        _task("patching", "opening", "60", "forgotten", "site"),
        _task("lead-safe work", "opening", "120", "forgotten", "site"),
        _task("call-back", "visit", "60", "forgotten", "site"),
    )
}
"""Every task by its key, in the order of the work."""

SECOND_PERSON = "second person"
"""The forgotten line for the hours of whoever helps: steps that want two people."""
CONTINGENCY = "contingency"
FORGOTTEN: tuple[str, ...] = (
    "survey trip",
    "delivery",
    "disposal",
    "protection",
    "patching",
    "lead-safe work",
    SECOND_PERSON,
    "call-back",
    CONTINGENCY,
)
"""What estimates leave out: always listed, with an amount or a zero and the reason."""


def unknown_name(what: str, given: str, known: Iterable[str]) -> str:
    """Say that a name is not known, which one was likely meant, and which there are."""
    names = list(known)
    close = difflib.get_close_matches(given.lower(), names, n=1, cutoff=0.5)
    meant = f" did you mean {close[0]!r}?" if close else ""
    return f"{given!r} is no {what};{meant} allowed: {', '.join(names)}"
