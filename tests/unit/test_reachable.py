"""Sums that can be reached, against adding up every choice."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from solver.layout.counting_cuts import all_sums, largest

KIND = st.tuples(
    st.lists(st.tuples(st.integers(1, 12), st.integers(0, 3)), min_size=1, max_size=2),
    st.integers(-4, 4),
)


def added_up(kinds: list[tuple[list[tuple[int, int]], int]], most: int) -> int:
    """The largest sum of at most `most`, every number of every piece tried."""
    best = 0
    for counts in product(*(range(n + 1) for choices, _ in kinds for _, n in choices)):
        at, total = iter(counts), 0
        for choices, once in kinds:
            taken = [(size, next(at)) for size, _ in choices]
            total += sum(size * n for size, n in taken)
            total += once if any(n for _, n in taken) else 0
        if 0 <= total <= most:
            best = max(best, total)
    return best


@given(st.lists(KIND, min_size=1, max_size=3), st.integers(0, 30))
def test_no_sum_that_can_be_reached_is_missing(
    kinds: list[tuple[list[tuple[int, int]], int]], most: int
) -> None:
    """A piece longer than the room counts where something comes off it once."""
    kinds = [(choices, max(once, 1 - min(size for size, _ in choices))) for choices, once in kinds]

    assert largest(all_sums(kinds, most), most) >= added_up(kinds, most)


def test_a_gap_that_the_last_thing_does_not_need_makes_room_for_it() -> None:
    # one piece of 29 with its gap of 3, which falls away at the end: 26 of 27
    assert largest(all_sums([([(29, 1)], -3)], 27), 27) == 26
