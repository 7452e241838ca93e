"""Bounds that count: each just met, and just missed."""

from __future__ import annotations

from itertools import product

import pytest

from solver.layout.counting_cuts import NOTHING, fewest_bins, largest, with_any


@pytest.mark.parametrize(
    ("sizes", "loose", "room", "expected"),
    [
        ([6, 6, 6], 0, 12, 2),  # two share a bin where they just fit
        ([7, 7, 7], 0, 13, 3),  # over half a bin each: none share one
        ([7, 7, 4, 4, 4], 0, 10, 4),  # 26 in all are three bins, but no 4 goes with a 7
        ([7, 7, 3, 3], 0, 10, 2),
        ([7, 7, 3, 3], 1, 10, 3),  # and a divisible rest of 1 beside them
        ([], 25, 10, 3),
        ([5], 0, 0, 0),
    ],
)
def test_the_fewest_bins(sizes: list[int], loose: int, room: int, expected: int) -> None:
    assert fewest_bins(sizes, loose, room) == expected


@pytest.mark.parametrize("room", range(31))
def test_the_largest_sum_is_that_of_trying_every_one(room: int) -> None:
    # up to two of 7 or three of 4 as one kind that takes 1 once, up to three of 9 that takes none
    first = [1 + 7 * a + 4 * b for a, b in product(range(3), range(4)) if a + b]
    every = [one + 9 * c for one in (0, *first) for c in range(4)]
    sums = with_any(with_any(NOTHING, [(7, 2), (4, 3)], 1, 30), [(9, 3)], 0, 30)
    assert largest(sums, room) == max(total for total in every if total <= room)
