"""The stop settings for mouldings, in the order of the work, over all sticks."""

from __future__ import annotations

from collections.abc import Sequence

from cli.tables.style import Titled, plain_table
from cli.tables.words import count, listed
from solver.cuts import StickCut
from solver.stocked import Stick
from solver.units import Unit, format_length


def stops_table(sticks: Sequence[Stick], unit: Unit) -> Titled:
    """Return each setting of the stop: how many pieces, and which cuts of which sticks.

    The end of the stick lies against the stop; the saw cut is on the far side of the piece.
    """
    table = plain_table("setting", "stop at", "pieces", "cuts", right=("setting", "stop at"))
    made = [(n, cut) for n, stick in enumerate(sticks, start=1) for cut in stick.cuts]
    for batch in sorted({cut.batch for _, cut in made}):
        some = [(number, cut) for number, cut in made if cut.batch == batch]
        table.add_row(
            str(batch), format_length(some[0][1].setting, unit), str(len(some)), _cuts(some)
        )
    return Titled(f"Stop settings for mouldings ({unit}, longest first, all sticks)", table)


def _cuts(some: Sequence[tuple[int, StickCut]]) -> str:
    """Name the cuts by stick: `stick 1: cuts 1 and 2; stick 3: cut 1`."""
    by_stick: dict[int, list[str]] = {}
    for number, cut in some:
        by_stick.setdefault(number, []).append(str(cut.number))
    return "; ".join(
        f"stick {number}: {count(len(cuts), 'cut').split(' ', 1)[1]} {listed(cuts)}"
        for number, cuts in by_stick.items()
    )
