"""What is held in a layout, and where things were before, in the model's own numbers."""

from __future__ import annotations

from dataclasses import dataclass

Spot = tuple[int, int]
"""(bay, opening), or (bay, shelf from 1)."""


@dataclass(frozen=True)
class MarkHeld:
    """A shelf kept at a mark; `mark` counts marking steps, as in the bay's shape.

    `bay` is -1 where there is no such bay.
    """

    bay: int
    shelf: int
    mark: int


@dataclass(frozen=True)
class ThingsHeld:
    """At least `least` things of a kind kept in these openings together."""

    kind: int
    openings: tuple[Spot, ...]
    least: int


@dataclass(frozen=True)
class Before:
    """The layout that is to change as little as possible.

    Attributes
    ----------
    marks
        ((bay, shelf), mark number); shelves that were not there before are not in it.
    things
        ((kind, bay, opening), how many stood there).
    """

    marks: tuple[tuple[Spot, int], ...]
    things: tuple[tuple[tuple[int, int, int], int], ...]


@dataclass(frozen=True)
class Holding:
    """Everything that is held, one entry a hold, in the order of the job's holds.

    `fixed` keeps all marks of `before`, `stay` all its things, each where it was.
    """

    held: tuple[MarkHeld | ThingsHeld, ...] = ()
    before: Before | None = None
    fixed: bool = False
    stay: bool = False

    @property
    def anything(self) -> bool:
        """True where a hold, or a layout before this one, is to be looked at."""
        return bool(self.held) or self.before is not None
