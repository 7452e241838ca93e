"""Glass in a case: shelves by the maker's load table alone, safety glazing where it is a door."""

from __future__ import annotations

from collections.abc import Iterator

from solver.fittings import Glass, GlassShelf, Glazed
from solver.trim.pieces import Trimmed

SAFE = ("tempered", "laminated")


def glass_of(one: Trimmed) -> Glazed | None:
    """Return the glass of a case; None where none is asked for."""
    glass = one.case.glass
    if glass is None:
        return None
    shelves = tuple(_shelves(one, glass)) if glass.shelves else ()
    unsafe = glass.front and one.job.ground.glass not in SAFE
    return Glazed(
        shelves=shelves,
        notes=tuple(_notes(one, glass)),
        good=all(shelf.passed for shelf in shelves) and not unsafe,
    )


def _shelves(one: Trimmed, glass: Glass) -> Iterator[GlassShelf]:
    """Each shelf, with what stands on it, against the next longer span of the table."""
    rows = sorted(glass.table, key=lambda row: row.span)
    bays = one.planned.bays
    for bay in bays:
        name = f"bay {bay.number}, " if len(bays) > 1 else ""
        span = bay.inside.width
        row = next((row for row in rows if row.span >= span), None)
        for shelf in bay.shelves:
            yield GlassShelf(
                where=f"{name}shelf {shelf.index}",
                span=span,
                load=bay.openings[shelf.index].load,
                allowed=row.load if row else None,
            )


def _notes(one: Trimmed, glass: Glass) -> Iterator[str]:
    kind = one.job.ground.glass
    if glass.shelves:
        if not glass.table:
            yield (
                "no glass shelf is passed without the maker's load table for its thickness, depth "
                "and supports: [case.glass] table"
            )
        yield (
            "shelves: tempered, edges seamed, on the supports that the maker's table is for; cut "
            "list and price still have boards in their place"
        )
    if glass.front:
        what = (
            "a glazed case that closes a doorway works as a door: safety glazing, tempered or "
            "laminated, with its permanent mark (16 CFR 1201, ANSI Z97.1, as quoted)"
            if one.case.kind == "hung"
            else "a glazed front or door: tempered or laminated"
        )
        has = "" if kind in SAFE else f'; [site] glass is "{kind}": NOT GOOD, name the safe glass'
        yield f"{what}{has}"
    yield "local code comes first, and may ask for more"
