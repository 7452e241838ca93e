"""Where lettering goes: in the first place that is free, or along a line, moved apart a little."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from cli.drawings.shapes import Point

Area = tuple[float, float, float, float]
"""Left, bottom, right, top."""


@dataclass
class Taken:
    """The areas that are taken already."""

    areas: list[Area] = field(default_factory=list)

    def is_free(self, area: Area) -> bool:
        """Whether nothing taken overlaps an area; touching is no overlap."""
        left, bottom, right, top = area
        return not any(
            left < other[2] and other[0] < right and bottom < other[3] and other[1] < top
            for other in self.areas
        )

    def take(self, area: Area) -> None:
        """Take an area."""
        self.areas.append(area)

    def best(self, places: Iterable[Point], half: Point) -> Point:
        """Take the first free place for something `half` wide and high each way from there.

        Where none is free the first place is taken all the same.
        """
        first: Point | None = None
        for x, y in places:
            first = first or (x, y)
            area = (x - half[0], y - half[1], x + half[0], y + half[1])
            if self.is_free(area):
                self.take(area)
                return x, y
        if first is None:
            msg = "there is no place to try"
            raise ValueError(msg)
        self.take((first[0] - half[0], first[1] - half[1], first[0] + half[0], first[1] + half[1]))
        return first


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
