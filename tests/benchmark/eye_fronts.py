"""What one sees of a case of one bay from the front, read from a plan's JSON alone.

Plans of any age are read alike, so nothing of the planner's own models is used.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from solver.units import TICKS_PER_MM

Json = Mapping[str, Any]


@dataclass(frozen=True)
class Thing:
    """A thing as it stands, seen from the front; lengths in ticks.

    `x` from the left inside face, `y` up from the floor of its opening; `place` tells whether it
    takes floor of its own in the front row: nothing below it and nothing in front.
    """

    item: str
    x: int
    y: int
    width: int
    height: int
    place: bool

    @property
    def top(self) -> int:
        return self.y + self.height


@dataclass(frozen=True)
class Space:
    """An opening: its floor above the bottom end of the sides and its clear height [tick]."""

    floor: int
    height: int
    things: tuple[Thing, ...]

    def count(self) -> Counter[str]:
        """How many of each kind stand in it."""
        return Counter(one.item for one in self.things)

    def places(self) -> Counter[str]:
        """How many places of each kind there are in it."""
        return Counter(one.item for one in self.things if one.place)


@dataclass(frozen=True)
class Front:
    """A bay from the front: clear width, openings from the lowest up, marking step [tick]."""

    width: int
    spaces: tuple[Space, ...]
    step: int
    left_out: int = 0

    def kinds(self) -> list[str]:
        """The kinds that are there, each once."""
        return sorted({one.item for space in self.spaces for one in space.things})

    def holding(self, kind: str) -> list[int]:
        """How many of a kind there are in each opening that has any."""
        return [found for space in self.spaces if (found := space.count()[kind])]


def ticks(length: float) -> int:
    """Return a length of a plan [mm] in ticks."""
    return round(length * TICKS_PER_MM)


def front(plan: Json) -> Front:
    """Return the front of the recommended option of a plan: one case of one bay."""
    option = plan["options"][0]
    (case,) = option["cases"]
    (bay,) = case["bays"]
    spaces = tuple(
        Space(ticks(one["floor"]), ticks(one["height"]), tuple(map(_thing, one["items"])))
        for one in bay["openings"]
    )
    left_out = sum(one["count"] for one in option["left_out"])
    return Front(ticks(bay["inside"]["width"]), spaces, _marking_step(plan), left_out)


def _thing(item: Json) -> Thing:
    x, y, width, height = (ticks(item[key]) for key in ("x", "y", "width", "height"))
    return Thing(item["item"], x, y, width, height, place=item["row"] == 1 and y == 0)


def _marking_step(plan: Json) -> int:
    return ticks(plan["job"]["job"]["marking_step"])
