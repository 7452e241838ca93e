"""Cuts as a shop makes them: which saw, set to what, what comes off and what goes on."""

from __future__ import annotations

from typing import Literal

from solver.job.job import Saw
from solver.quantities import Length, Model
from solver.units import Ticks, inches

Guide = Literal["fence", "stop", "sled", "track"]
"""What is set: the rip fence, a stop at the mitre saw, a stop on the sled, the track."""
Direction = Literal["rip", "crosscut"]
"""Along the sheet's length, or across it."""
Edge = Literal[
    "factory edge",
    "sawn edge",
    "far factory edge",
    "factory end",
    "sawn end",
    "far factory end",
]
"""Edges run along the sheet, ends across it; nearer to the factory corner unless far."""
CutCaution = Literal["no saw", "narrow", "short", "long"]
"""What to watch: no saw of the shop makes the cut; less comes off, or less is held, than is
safe; so long that it wants support behind the saw."""

LONG: Ticks = inches(48)
"""A longer piece wants support behind a bench saw: common practice, no source [tick]."""
SLED_MOST: Ticks = inches(60)
"""A longer piece does not lie safely on a sled: common practice, no source [tick]."""


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
    """None where nothing but sawdust comes off."""
    goes_on: Panel | None = None
    """None where nothing but sawdust is left."""
    cautions: tuple[CutCaution, ...] = ()


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
    """One setting of one saw, and the cuts that are made one after the other with it."""

    number: int
    """From 1, in the order of the work."""
    saw: Saw | None
    guide: Guide | None
    trim: bool
    """True where factory edges are trimmed by as much."""
    setting: Length
    as_it_stands: bool
    """True where the saw was set so before, and another saw was used since."""
    cuts: tuple[SheetCuts, ...]
    """In any order that keeps the numbers of each sheet."""


class StickCut(Model):
    """One cut of a stick of moulding: what is shorter than the stick comes off at a stop."""

    number: int
    """From 1 on each stick."""
    batch: int
    """Setting of the stop, from 1 in the order of the work over all sticks: equal lengths are
    cut one after the other, the longest first."""
    setting: Length
    """Between stop and blade: the length of the piece that comes off."""
    at: Length
    """Near edge of the kerf, from the end that the stick's pieces are measured from."""
    measured_from: Literal["factory end", "sawn end"]
    """The end that lies against the stop."""
    part: str
    """What comes off."""
