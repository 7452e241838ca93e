"""Cuts as a shop makes them: which saw, set to what, what comes off and what goes on."""

from __future__ import annotations

from typing import Literal

from solver.quantities import Length, Model

Saw = Literal["guided saw", "table saw", "mitre saw", "panel saw"]
"""Guided saw: a circular saw on a track; panel saw: the yard's."""
Guide = Literal["fence", "stop", "sled", "track"]
"""What is set: the rip fence, a stop at the mitre saw, a stop on the sled, the track."""
Direction = Literal["rip", "crosscut"]
"""Along the sheet's length, or across it."""
Edge = Literal["factory edge", "sawn edge", "factory end", "sawn end"]
"""Edges run along the sheet, ends across it; the nearer one to the factory corner."""
Caution = Literal["narrow", "short", "long", "large", "small rest", "no saw"]
"""What to watch at a cut."""


class Panel(Model):
    """What lies on the bench: the sheet, a strip or blank, a part, an offcut or waste."""

    name: str
    what: Literal["sheet", "strip", "blank", "part", "offcut", "waste"]
    """"strip": made by the first cuts; "blank": to be cut again."""
    length: Length
    """Along the sheet's length, when every setting is kept exactly."""
    width: Length


class Cut(Model):
    """One edge-to-edge cut of a sheet or of what an earlier cut left."""

    number: int
    kind: Literal["trim", "rip", "crosscut"]
    """A rip runs along the sheet's length, a crosscut across it."""
    direction: Direction
    """The same for a trim too."""
    at: Length
    """Near edge of the kerf: y for a rip, x for a crosscut, from the factory corner, with the
    margins of all that lies before it."""
    start: Length
    """Where it starts: x for a rip, y for a crosscut."""
    end: Length
    setting: Length
    """Between guide and blade: the size of what comes off; of a trim what is taken off, or what
    goes on where the fence is set."""
    panel: str = ""
    """Name of what is cut."""
    saw: Saw | None = None
    """None where no saw of the shop can make it."""
    guide: Guide | None = None
    """None at the yard, which is told the size."""
    measured_from: Edge = "factory edge"
    """The edge or end that lies against the guide, or from which the line is marked."""
    comes_off: Panel | None = None
    goes_on: Panel | None = None
    """None where nothing but sawdust is left."""
    cautions: tuple[Caution, ...] = ()


class Offcut(Model):
    """A leftover worth keeping, and where it lies on its sheet."""

    name: str
    x: Length
    y: Length
    length: Length
    """At least: the margins may add to it."""
    width: Length
    enough_for: str | None = None
    """Name of a part of the same material that could be cut from it."""


class SheetCuts(Model):
    """Cuts of one sheet."""

    sheet: int
    """From 1, in the order of the plan's sheets."""
    cuts: tuple[int, ...]


class SawSetting(Model):
    """One setting of one saw, and all cuts that are made before it is changed."""

    number: int
    saw: Saw | None
    guide: Guide | None
    direction: Direction
    setting: Length
    cuts: tuple[SheetCuts, ...]
