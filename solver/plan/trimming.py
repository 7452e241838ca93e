"""Trim, light and glass of a case as they come out, piece by piece, and figures with arithmetic."""

from __future__ import annotations

from typing import Literal

from solver.quantities import Length, Mass, Model

End = Literal["square", "mitre", "scribed", "trimmed"]
"""How an end is cut: square, mitred at 45 degrees, scribed to what it meets, or trimmed flush
once it is on."""


class TrimPiece(Model):
    """One piece of trim."""

    id: str
    """Unique; also the part's id on its stick, where it is cut from one."""
    case: str
    name: str
    """What it is, in the trade's word."""
    where: str
    """Where it sits."""
    got: Literal["moulding", "block", "there", "sheet"]
    """Cut from a moulding (its sticks are in the plan), bought or made as a block, there
    already, or out of a sheet, as a part of the plan."""
    moulding: str | None = None
    """What it is cut from."""
    length: Length
    """Finished; long point to long point where mitred."""
    width: Length
    thickness: Length
    ends: tuple[End, End]
    """Lower or left end first."""
    cut_length: Length | None = None
    """As cut from its stick, to be fitted; None where it is cut from none."""
    travels: bool
    """Whether it goes with the case; else it stays on the wall."""
    why: str
    """Why it travels or stays."""
    x: Length | None = None
    """New casing, seen from the room: its left edge from the left edge of the opening."""
    y: Length | None = None
    """Its lower edge above the floor."""
    across: bool = False
    """Whether it lies across, its length from left to right."""


class Explained(Model):
    """One figure, explained."""

    what: str
    value: str
    """With its unit, as shown."""
    formula: str
    numbers: str
    """The formula with the numbers of the job put in."""
    source: str


class FluteLayout(Model):
    """Flutes on one leg, alike from both edges so that the board may be turned end for end."""

    width: Length
    """Of the board."""
    count: int
    flute: Length
    space: Length
    margin: Length
    """Flat at each edge."""
    settings: tuple[Length, ...]
    """Edge to the centre of a flute: one fence setting for each flute and its mirror."""
    stop: Length
    """From each end of the leg."""


class LightStrip(Model):
    """One strip."""

    where: str
    length: Length


class CaseLight(Model):
    """The light of one case."""

    runs: tuple[LightStrip, ...]
    watts: float
    """Of all strips [W]."""
    driver_needed: float
    """Watts / 0.8: a driver is not run at its full load [W]."""
    driver: float
    """As given, else the next usual size [W]."""
    enough: bool
    notes: tuple[str, ...]


class GlassShelf(Model):
    """One shelf against the maker's table."""

    where: str
    span: Length
    load: Mass
    """What stands on it [g]."""
    allowed: Mass | None
    """By the table, for the next longer span that it lists; None where it lists none [g]."""

    @property
    def passed(self) -> bool:
        """Whether the maker's table bears it."""
        return self.allowed is not None and self.load <= self.allowed


class CaseGlass(Model):
    """The glass of one case."""

    shelves: tuple[GlassShelf, ...]
    notes: tuple[str, ...]
    good: bool
    """False where something is not to be made so."""


class TrimSet(Model):
    """All trim of one case."""

    case: str
    kind: str
    set: str
    pieces: tuple[TrimPiece, ...]
    flutes: FluteLayout | None = None
    light: CaseLight | None = None
    glass: CaseGlass | None = None
    figures: tuple[Explained, ...] = ()
    """The arithmetic."""
    notes: tuple[str, ...] = ()
