"""Where there is still room for lettering: of places in order the first free one is taken."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from cli.drawings.primitives import Point

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
