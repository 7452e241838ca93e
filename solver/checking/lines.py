"""The rule on shelf lines that bays and neighbouring cases share."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import BayView, OptionView
from solver.units import Ticks, with_unit

NOT_SHARED = "shelf lines not shared"
"""How the option's note begins where sharing is impossible and the plan says so."""


def shelf_lines(view: OptionView) -> Iterator[Finding]:
    """Upper faces lie at equal heights; a bay with fewer shelves uses some of the lines."""
    said = any(note.startswith(NOT_SHARED) for note in view.option.notes)
    if not view.job.look.share_lines or said:
        return
    for one, other in combinations(view.bays, 2):
        if _neighbours(one, other):
            yield from _subset(*sorted((one, other), key=lambda bay: len(bay.bay.shelves)))


def _neighbours(one: BayView, other: BayView) -> bool:
    a, b = one.case.case, other.case.case
    return a.name == b.name or a.beside == b.name or b.beside == a.name


def _lines(view: BayView) -> set[Ticks]:
    return {view.case.plan.above_floor + shelf.top for shelf in view.bay.shelves}


def _subset(fewer: BayView, more: BayView) -> Iterator[Finding]:
    odd = sorted(_lines(fewer) - _lines(more))
    if odd:
        unit = fewer.unit
        yield finding(
            Code.LAYOUT_SHELF_LINES,
            fewer.where,
            f"upper faces of shelves above the floor, as in {more.where}",
            " or ".join(with_unit(line, unit) for line in sorted(_lines(more))) or "none",
            " and ".join(with_unit(line, unit) for line in odd),
        )
