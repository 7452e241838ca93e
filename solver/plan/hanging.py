"""What holds a case up: weights, hinges, fixings, each figure with formula, numbers and source."""

from __future__ import annotations

from typing import Literal

from solver.quantities import Length, Mass, Model
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Unit, with_unit

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


def clear_of_shelf(unit: Unit) -> str:
    """How far hinge screws keep from a shelf, in round figures: about 1 in, common practice."""
    return "1 in" if unit == "in" else "25 mm"


class HingeSet(Model):
    """The hinges of a hung case, all alike; where they go is in `HangSheet.hinges`."""

    count: int
    leaf: Length
    """Height of the leaf: that of the old mortises, else by the table for doors."""
    leaf_from: Literal["mortises", "table", "wider than the table"]
    screw: str
    """Size of the screws."""
    thread: Length
    """Least length of thread in solid wood."""
    screws_per_leaf: int
    screws: int
    """In all, both leaves of every hinge."""

    def leaf_words(self, unit: Unit) -> str:
        """Say how high the leaf is, as hinges are sold.

        The table for doors is in inches, and so are the hinges: merchants of metric goods give
        them in whole millimetres with the inch size beside (from memory, no source).
        """
        if unit == "in" or self.leaf % (TICKS_PER_INCH // 2):
            return f"leaf {with_unit(self.leaf, unit)} high"
        return f"leaf {round(self.leaf / TICKS_PER_MM)} mm ({with_unit(self.leaf, 'in')}) high"


class Joint(Model):
    """How one kind of board is joined at its ends; every such joint of the case is alike."""

    part: str
    """Name of the parts, as in the list of parts."""
    ends: int
    """Board ends in the case that are joined so."""
    fasteners: int
    """In each end; 0 where it is not fastened."""
    fastener: str
    from_front: tuple[Length, ...] = ()
    """Each fastener's distance from the front edge of the side, and so of the upright."""
    also: str = ""
    """What else holds it."""


class BackFixing(Model):
    """How the back is fastened: glue and a fastener every so far."""

    spacing: Length
    """At most."""
    around: int
    """Fasteners along the four edges."""
    across: int
    """Fasteners along shelves and uprights that are fixed."""


class WallFixing(Model):
    """How a case is fixed to the wall."""

    studs: int
    """Studs that it is sure to cross, and so to be screwed to."""
    screws_per_stud: int
    screw: str
    thread: Length
    """Least length of thread in the stud."""
    from_top: Length
    """Screws below the top of the case."""


class Caution(Model):
    """One caution: what for, the words, and where they come from."""

    key: str
    text: str
    source: str

    @property
    def line(self) -> str:
        """The caution as one line."""
        return f"{self.text} [{self.source}]"


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
    """From the top down, old mortises first to be used; of a hung case."""
    hinge: HingeSet | None = None
    """What those hinges are; of a hung case."""
    joints: tuple[Joint, ...] = ()
    back: BackFixing | None = None
    """None where it has no back."""
    wall: WallFixing | None = None
    """Where it hangs on a wall, or stands and is fixed to one."""
    to_get: tuple[str, ...] = ()
    """Hinges, screws, stops and the like."""
    instead: tuple[str, ...] = ()
    """Other ways to hang it, with what each costs."""


class Hanging(Model):
    """The sheets of an option's cases, and the cautions that it calls for."""

    cases: tuple[HangSheet, ...]
    cautions: tuple[Caution, ...]
    """Chosen by the job: the place first, then the work."""
    defer: str
    """What comes before all of it; the last line of every list of cautions."""

    def of(self, case: str) -> HangSheet:
        """Return the sheet of a case by its name; KeyError where there is none."""
        for sheet in self.cases:
            if sheet.case == case:
                return sheet
        raise KeyError(case)
