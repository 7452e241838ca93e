"""The evidence as tables, one for each topic, and as rows for files."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from cli.tables.style import Titled, lined_up, plain_table
from solver.evidence.check import Footing, Outcome

HEADS = ("question", "printed", "ours", "source")
PLAINLY = (Footing.READ,)
"""Footings that need no remark behind the source."""


def figure(value: float) -> str:
    """A figure with at most five digits, and no more than it has."""
    return f"{value:.5g}"


def evidence_rows(outcomes: Sequence[Outcome]) -> list[dict[str, Any]]:
    """Return each check as a row of a file."""
    return [
        {
            "topic": one.check.topic,
            "question": one.check.what,
            "source": one.check.source,
            "footing": str(one.check.footing),
            "printed": one.check.printed,
            "ours": one.ours,
            "within": one.check.within,
            "unit": one.check.unit,
            "holds": one.holds,
        }
        for one in outcomes
    ]


def evidence_tables(outcomes: Sequence[Outcome], width: int) -> list[Titled]:
    """Return one table for each topic, lined up below each other within `width` [-]."""
    rows = {one.check: _cells(one) for one in outcomes}
    widths = lined_up([HEADS, *rows.values()], width, 0)
    if not widths or widths[0] > (width - 24) // 2:
        left = width - 9 - sum(max(len(cells[at]) for cells in rows.values()) for at in (1, 2))
        widths = [left // 2, *(max(len(c[at]) for c in rows.values()) for at in (1, 2)), left // 2]
    tables = []
    for topic, found in groupby(outcomes, key=lambda one: one.check.topic):
        table = plain_table(*HEADS, right=("printed", "ours"), widths=widths)
        for one in found:
            table.add_row(*rows[one.check])
        tables.append(Titled(topic[0].upper() + topic[1:], table))
    return tables


def _cells(one: Outcome) -> tuple[str, str, str, str]:
    check = one.check
    unit = "" if check.unit == "-" else f" {check.unit}"
    ours = f"{figure(one.ours)}{unit}" if one.holds else f"OFF: {figure(one.ours)}{unit}"
    remark = "" if check.footing in PLAINLY else f" ({check.footing})"
    source = check.source if check.footing is not Footing.PRACTICE else check.footing.value
    return (
        check.what,
        f"{figure(check.printed)}{unit}",
        ours,
        source + (remark if check.footing is not Footing.PRACTICE else ""),
    )


def summary(outcomes: Sequence[Outcome]) -> str:
    """Say in one sentence how many hold, and on what footing."""
    sources = {
        one.check.source for one in outcomes if one.check.footing in (Footing.READ, Footing.QUOTED)
    }
    counts = {footing: sum(one.check.footing is footing for one in outcomes) for footing in Footing}
    held = sum(one.holds for one in outcomes)
    said = ", ".join(f"{count} {footing}" for footing, count in counts.items() if count)
    return (
        f"{held} of {len(outcomes)} hold, against {len(sources)} published sources. How the"
        f" printed figure is known: {said}."
    )
