"""What an option must say about hung cases that do not swing; never silent."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from solver.built import CasePlan
from solver.swinging import Swinging

NO_SWING = "does not swing"
NO_DOORWAY = "hangs in no doorway of the job"
SHOWN_MOST = 4
"""Ways out named in a note; `casewright swing` shows them all [-]."""


def swing_notes(cases: Iterable[CasePlan]) -> tuple[str, ...]:
    """Return a note for each case that does not swing, with where it binds and what would do."""
    return tuple(note for case in cases if (note := _of_case(case)) is not None)


def with_swing_notes(notes: Iterable[str], cases: Sequence[CasePlan]) -> tuple[str, ...]:
    """Return an option's notes, those on swings brought up to date."""
    kept = (note for note in notes if not any(part in note for part in (NO_SWING, NO_DOORWAY)))
    return (*kept, *swing_notes(cases))


def _of_case(case: CasePlan) -> str | None:
    if case.kind != "hung":
        return None
    if case.swing is None:
        return f"case {case.name!r} {NO_DOORWAY}: whether it swings is not known"
    return None if case.swing.swings else _note(case.name, case.swing)


def _note(name: str, swing: Swinging) -> str:
    where = (
        "less than the running clearance is left at the latch"
        if swing.binds_at is None
        else f"{swing.binds} at {swing.binds_at}°"
    )
    ways = [way.text for way in swing.ways_out if way.swings][:SHOWN_MOST]
    would = f"; would do: {'; or '.join(ways)}" if ways else ""
    return f"case {name!r} {NO_SWING}: {where}{would}"
