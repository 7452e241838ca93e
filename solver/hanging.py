"""What holds a case up: weights, hinges, fixings, each figure with formula, numbers and source."""

from __future__ import annotations

from typing import Literal

from solver.quantities import Length, Mass, Model

FigureKind = Literal["length", "force", "moment", "count", "times"]


class Figure(Model):
    """One figure, rounded to its safe side only where it is shown."""

    key: str
    what: str
    kind: FigureKind
    value: float
    """[mm], [N], [N mm], or a plain number."""
    formula: str
    numbers: str
    """The same with its numbers, in N and mm."""
    source: str
    assumes: str = ""
    ok: bool | None = None
    """Whether it is as it should be; None where there is nothing to hold it against."""
    says: str = ""
    """What follows where it is not."""


class HingePlace(Model):
    """Where one hinge goes."""

    from_top: Length
    """Top of its leaf, down from the top of the case."""
    from_head: Length
    """The same, down from the head jamb."""
    old: bool
    """Whether it is an old mortise."""
    near_shelf: bool
    """Whether the leaf comes nearer than 1 in to a shelf."""


class HangSheet(Model):
    """All that is to be known before one case is hung, fixed or stood."""

    case: str
    kind: str
    empty: Mass
    """The case by itself [g]."""
    contents: Mass
    """What stands in it [g]."""
    assumed: tuple[str, ...] = ()
    """Things without a weight: the standard load on their footprint counts."""
    guessed: tuple[str, ...] = ()
    """Things whose sizes are guessed; they are planned with the allowance."""
    centre: tuple[Length, Length, Length]
    """Centre of gravity of case and contents: from the left, from the front, from the bottom."""
    figures: tuple[Figure, ...]
    hinges: tuple[HingePlace, ...] = ()
    to_get: tuple[str, ...] = ()
    """Hinges, screws, stops and the like."""
    instead: tuple[str, ...] = ()
    """Other ways to hang it, with what each costs."""
