"""The number of every thing: those that stay keep theirs, others take the lowest that are free."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping

from solver.layout.layout_problem import LayoutProblem
from solver.planning.composed_rows import Rows


def numbered(problem: LayoutProblem, rows: Rows) -> dict[tuple[int, int], list[int]]:
    """Number the things of every (bay, opening), in the order of its row's spots.

    Of each kind they are numbered from 1 on. Those that stood in an opening before, and still do,
    keep their numbers as far as there are so many now.
    """
    before = problem.holding.before
    had = dict(before.numbers) if before else {}
    count = Counter(spot.kind for row in rows.values() for spot in row.spots)
    stand = Counter((spot.kind, *at) for at, row in rows.items() for spot in row.spots)
    kept = {
        there: [number for number in had.get(there, ()) if number <= count[there[0]]][:now]
        for there, now in stand.items()
    }
    free = _free(count, kept)
    return {
        at: [
            kept[spot.kind, *at].pop(0) if kept[spot.kind, *at] else free[spot.kind].pop(0)
            for spot in row.spots
        ]
        for at, row in rows.items()
    }


def _free(
    count: Mapping[int, int], kept: Mapping[tuple[int, int, int], list[int]]
) -> dict[int, list[int]]:
    """The numbers of each kind that none of its things keeps, lowest first."""
    taken: dict[int, set[int]] = defaultdict(set)
    for (kind, _, _), numbers in kept.items():
        taken[kind].update(numbers)
    return {
        kind: [number for number in range(1, many + 1) if number not in taken[kind]]
        for kind, many in count.items()
    }
