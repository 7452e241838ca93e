"""How parts are called on papers and labels, and limits as a client may rely on them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import groupby

from solver.stocked import Part
from solver.units import GRAMS_PER_POUND, Grams, Unit

OF_THE_WORK = (
    *("country", "lead-paint", "asbestos", "not-asked", "not-known", "lifting", "saws", "dust"),
    "formaldehyde",
)
"""Keys of cautions that are for the maker and not for whoever lives with the case."""

_NUMBERED = re.compile(r"(.*?)(\d+)")


def short_id(ident: str) -> str:
    """Return a part's id without its case: `shelf-2` of `alcove/shelf-2`."""
    return ident.rpartition("/")[2]


def ids_text(parts: Iterable[Part]) -> str:
    """Return the ids of parts, those that are numbered on drawn together: `shelf-1 to 7`."""
    return ", ".join(_run(list(some)) for _, some in groupby(_split(parts), _chain))


def _split(parts: Iterable[Part]) -> list[tuple[int, str, int | None]]:
    """Split each id in (place in the list, what comes before its number, its number)."""
    found: list[tuple[int, str, int | None]] = []
    for at, part in enumerate(parts):
        match = _NUMBERED.fullmatch(short_id(part.id))
        found.append((at, match[1], int(match[2])) if match else (at, short_id(part.id), None))
    return found


def _chain(one: tuple[int, str, int | None]) -> tuple[str, int | None]:
    """Return what is equal for ids that follow each other: 2 less 1 is 3 less 2."""
    at, before, number = one
    return before, None if number is None else number - at


def _run(some: list[tuple[int, str, int | None]]) -> str:
    (_, before, first), (_, _, last) = some[0], some[-1]
    if first is None:
        return before
    return f"{before}{first}" if len(some) == 1 else f"{before}{first} to {last}"


def limit_text(grams: Grams, unit: Unit) -> str:
    """Return a load limit [g] rounded down: whole pounds, or half kilograms."""
    if unit == "in":
        return f"{int(grams / GRAMS_PER_POUND)} lb"
    halves = grams // 500
    return f"{halves // 2}{'.5' if halves % 2 else ''} kg"
