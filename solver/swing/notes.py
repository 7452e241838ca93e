"""What an option must say about hung cases that do not swing; never silent."""

from __future__ import annotations

from collections.abc import Iterable

from solver.built import CasePlan
from solver.swinging import Swinging

SHOWN_MOST = 4
"""Ways out named in a note; `casewright swing` shows them all [-]."""


def swing_notes(cases: Iterable[CasePlan]) -> tuple[str, ...]:
    """Return a note for each case that does not swing, with where it binds and what would do."""
    return tuple(note for case in cases if (note := _of_case(case)) is not None)


def _of_case(case: CasePlan) -> str | None:
    if case.kind != "hung":
        return None
    if case.swing is None:
        return f"case {case.name!r} hangs in no doorway of the job: whether it swings is not known"
    return None if case.swing.swings else _note(case.name, case.swing)


def _note(name: str, swing: Swinging) -> str:
    where = (
        "less than the running clearance is left at the latch"
        if swing.binds_at is None
        else f"{swing.binds} at {swing.binds_at}°"
    )
    ways = [way.text for way in swing.ways_out if way.swings][:SHOWN_MOST]
    would = f"; would do: {'; or '.join(ways)}" if ways else ""
    return f"case {name!r} does not swing: {where}{would}"
