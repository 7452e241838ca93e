"""Lettering along a line moved apart, as little as can be."""

from __future__ import annotations

from collections.abc import Sequence


def spread(wished: Sequence[float], apart: float) -> list[float]:
    """Return places at least `apart` from one another, as near to the wished as can be.

    Parameters
    ----------
    wished
        Places in ascending order [mm].
    apart
        Least distance of two neighbours [mm].

    Returns
    -------
    list of float
        Places in the same order: of all such, those with the least sum of squares of how far
        they are moved (neighbours that must touch are pooled and take their common mean) [mm].
    """
    pools: list[tuple[float, int]] = []  # sum of what is wished of its first place, how many
    for at, place in enumerate(wished):
        total, count = place - at * apart, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before, number = pools.pop()
            total, count = total + before, count + number
        pools.append((total, count))
    firsts = [total / count for total, count in pools for _ in range(count)]
    return [first + at * apart for at, first in enumerate(firsts)]
