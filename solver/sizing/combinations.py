"""Combinations of shelf counts and bays: which are compared, in which order, and their names."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations_with_replacement, product

from solver.job.case import Case
from solver.job.job import Job

TRIED_MOST = 40
"""Most combinations that are solved; the more even ones go first."""
SHOWN_MOST = 12
"""Most combinations that a plan shows (plan format)."""

Counts = Mapping[str, tuple[int, ...]]
"""Shelves of each bay, by case name."""


def combinations(job: Job) -> tuple[list[Counts], int]:
    """Return the combinations to solve and how many more there would be.

    Bays of one case are equally wide, so that exchanging their counts changes nothing:
    each multiset of counts comes once, the higher counts in the bays to the left. Those
    with equal counts everywhere come first.
    """
    each = [_of_case(case) for case in job.cases]
    found: list[Counts] = [
        dict(zip((c.name for c in job.cases), counts, strict=True)) for counts in product(*each)
    ]
    found.sort(key=_unevenness)
    return found[:TRIED_MOST], max(0, len(found) - TRIED_MOST)


def _of_case(case: Case) -> list[tuple[int, ...]]:
    allowed = sorted(case.shelf_counts, reverse=True)
    return [
        counts
        for bays in case.bay_counts
        for counts in combinations_with_replacement(allowed, bays)
    ]


def _unevenness(counts: Counts) -> tuple[int, list[tuple[int, ...]]]:
    every = [n for bays in counts.values() for n in bays]
    return len(set(every)), list(counts.values())


def name_of(job: Job, counts: Counts) -> str:
    """Name an option: "6 shelves", "5 + 4 + 5 shelves", "left 4, right 5 shelves".

    Where the number of bays is open, it is named as well: "2 bays: 5 shelves a bay".
    """
    if len(job.cases) == 1:
        return _of_bays(job.cases[0], counts[job.cases[0].name])
    open_bays = any(len(case.bay_counts) > 1 for case in job.cases)
    if not open_bays and len({n for bays in counts.values() for n in bays}) == 1:
        return _shelves(counts[job.cases[0].name][:1]) + " each"
    return ", ".join(f"{case.name}: {_of_bays(case, counts[case.name])}" for case in job.cases)


def _of_bays(case: Case, bays: tuple[int, ...]) -> str:
    if len(case.bay_counts) == 1:
        return _shelves(bays)
    return f"{len(bays)} {'bay' if len(bays) == 1 else 'bays'}: {_shelves(bays)}"


def _shelves(bays: tuple[int, ...]) -> str:
    if len(set(bays)) == 1:
        number = f"{bays[0]} {'shelf' if bays[0] == 1 else 'shelves'}"
        return number if len(bays) == 1 else f"{number} a bay"
    return " + ".join(map(str, bays)) + " shelves"
