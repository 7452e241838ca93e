"""Sums that things can come to: an opening is never filled beyond the largest that it can hold.

Widths of things come in few sizes, so that the sums of them leave gaps, and an opening of 22 in
may hold 20-1/2 in of things at most. Taking that for its width rules out no layout and makes
bounds much tighter. Sets of sums are whole numbers, one bit a sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Sums = int
"""A set of sums: bit s is set where s can be reached."""
NOTHING: Sums = 1
"""Only the empty sum."""

Choice = tuple[int, int]
"""(size, most pieces of it)."""


def with_any(sums: Sums, choices: Iterable[Choice], once: int, most: int) -> Sums:
    """Add a kind to a set of sums: none of it, or any number of pieces of its sizes.

    `once` comes on top (or off) where there is any piece of it. Sums over `most` are dropped.
    """
    mask = (1 << (most + abs(once) + 1)) - 1
    none, some = sums, 0
    room = most + max(0, -once)  # what comes off once makes room for a piece
    for size, count in choices:
        fits = min(count, room // size) if size else 0
        added = _repeated(none, size, fits, mask)
        some |= _repeated(some, size, fits, mask) | added
    moved = some << once if once >= 0 else some >> -once
    return (sums | moved) & ((1 << (most + 1)) - 1)


def _repeated(sums: Sums, size: int, count: int, mask: Sums) -> Sums:
    """The sums with 1 to `count` pieces of a size more."""
    found = 0
    for _ in range(count):
        sums = (sums << size) & mask
        found |= sums
    return found


def largest(sums: Sums, room: int) -> int:
    """Return the largest sum of at most `room`; less than nothing is nothing."""
    return max(0, (sums & ((1 << (max(0, room) + 1)) - 1)).bit_length() - 1)


def all_sums(kinds: Iterable[tuple[Sequence[Choice], int]], most: int) -> Sums:
    """Return the sums of any pieces of the kinds, each with its choices and what it takes once.

    Once `most` itself is reached the kinds that follow are not looked at: no sum is larger.
    """
    sums = NOTHING
    for choices, once in kinds:
        if sums >> most:
            break
        sums = with_any(sums, choices, once, most)
    return sums
