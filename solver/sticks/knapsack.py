"""Knapsack dynamic program, compiled: the most valuable pattern, and all patterns worth enough.

The program works by dominance: for the kinds from `i` on, the *front* holds every (size, value)
that no other choice beats in both. Fronts do not grow with the length of the stick in ticks, only
with the number of different sums that its pieces make. Import this module where a search needs it,
see :mod:`solver.cutting.compiled`.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from solver.cutting.compiled import compiled

Whole: TypeAlias = NDArray[np.int64]


@compiled
def merge_fronts(
    sizes: Whole, values: Whole, low: int, high: int, size: int, value: int, room: int, to: int
) -> int:
    """Join a front [low, high) with itself moved by one (size, value); write it from `to` on.

    Returns its end, or -1 where the arrays are full.
    """
    a, b, end, top = low, low, to, -1
    while a < high or b < high:
        own = a < high and (
            b >= high
            or sizes[a] < sizes[b] + size
            or (sizes[a] == sizes[b] + size and values[a] >= values[b] + value)
        )
        s = sizes[a] if own else sizes[b] + size
        v = values[a] if own else values[b] + value
        if own:
            a += 1
        else:
            b += 1
        if s > room:
            break
        if v > top:
            if end >= len(sizes):
                return -1
            sizes[end], values[end], top = s, v, v
            end += 1
    return end


@compiled
def fill_fronts(
    lengths: Whole,
    worth: Whole,
    most: Whole,
    room: int,
    sizes: Whole,
    values: Whole,
    low: Whole,
    high: Whole,
) -> bool:
    """Fill the fronts of all kinds from each one on; False where the arrays are too small.

    Parameters
    ----------
    lengths, worth, most
        Of each kind: length, value of a piece, and how many may be taken.
    sizes, values
        Room for all fronts; that of kinds from `i` on lies at ``low[i]`` to ``high[i]``.
    """
    n = len(lengths)
    sizes[0], values[0] = 0, 0
    low[n], high[n] = 0, 1
    for i in range(n - 1, -1, -1):
        low[i], high[i] = low[i + 1], high[i + 1]
        left = min(most[i], room // lengths[i]) if worth[i] > 0 else 0
        base, power = high[i], 1
        while left > 0:
            times = min(power, left)
            end = merge_fronts(
                sizes,
                values,
                low[i],
                high[i],
                times * lengths[i],
                times * worth[i],
                room,
                high[i],
            )
            if end < 0:
                return False
            # Only the last join of a kind is kept: it is moved down over those before.
            count = end - high[i]
            for k in range(count):
                sizes[base + k], values[base + k] = sizes[high[i] + k], values[high[i] + k]
            low[i], high[i] = base, base + count
            left -= times
            power *= 2
    return True


@compiled
def best_value(sizes: Whole, values: Whole, low: int, high: int, room: int) -> int:
    """Return the most value that a front has for `room`."""
    a, b = low, high
    while b - a > 1:
        middle = (a + b) // 2
        if sizes[middle] <= room:
            a = middle
        else:
            b = middle
    return int(values[a])


@compiled
def best_pattern(
    lengths: Whole,
    worth: Whole,
    most: Whole,
    room: int,
    sizes: Whole,
    values: Whole,
    low: Whole,
    high: Whole,
    counts: Whole,
) -> int:
    """Write how many of each kind are worth most in `room`; return what they are worth."""
    goal = best_value(sizes, values, low[0], high[0], room)
    left, space = goal, room
    for i in range(len(lengths)):
        counts[i] = 0
        if worth[i] <= 0:
            continue
        while best_value(sizes, values, low[i + 1], high[i + 1], space) < left:
            counts[i] += 1
            space -= lengths[i]
            left -= worth[i]
    return goal


@compiled
def list_patterns(
    lengths: Whole,
    worth: Whole,
    most: Whole,
    room: int,
    least: int,
    sizes: Whole,
    values: Whole,
    low: Whole,
    high: Whole,
    found: NDArray[np.int16],
    nodes_most: int,
) -> int:
    """Write all patterns worth `least` or more; -1 where there are more than `found` holds.

    A branch is left as soon as the front says that what fits behind it is worth too little,
    so nearly every branch ends in a pattern.
    """
    n = len(lengths)
    counts = np.zeros(n, np.int64)
    space = np.zeros(n + 1, np.int64)
    got = np.zeros(n + 1, np.int64)
    space[0] = room
    number, nodes, i = 0, 0, 0
    counts[0] = min(most[0], room // lengths[0])
    while i >= 0:
        nodes += 1
        if nodes > nodes_most:
            return -1
        if counts[i] < 0:
            i -= 1
            if i >= 0:
                counts[i] -= 1
            continue
        space[i + 1] = space[i] - counts[i] * lengths[i]
        got[i + 1] = got[i] + counts[i] * worth[i]
        if got[i + 1] + best_value(sizes, values, low[i + 1], high[i + 1], space[i + 1]) < least:
            counts[i] -= 1
        elif i < n - 1:
            i += 1
            counts[i] = min(most[i], space[i] // lengths[i])
        else:
            if number >= len(found):
                return -1
            found[number] = counts
            number += 1
            counts[i] -= 1
    return number
