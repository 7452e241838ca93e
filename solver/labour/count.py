"""What there is to do to one case, counted: task, how many, to which parts."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from solver.built import CasePlan
from solver.case import Case
from solver.doorway import Doorway
from solver.job import Job
from solver.pin_holes import pin_holes
from solver.plan import Option
from solver.stocked import Part
from solver.strength.cautions import LIFT_EACH
from solver.strength.hinge_places import hinge_places
from solver.strength.weigh import empty_case
from solver.trim.sets import trim_sets
from solver.trimming import TrimPiece, TrimSet


@dataclass(frozen=True)
class Counted:
    """So many of a task, for so many people, done to these parts."""

    task: str
    count: int | Decimal
    of: tuple[str, ...] = ()
    people: int = 1


@dataclass(frozen=True)
class CaseWork:
    """One case as ordered and as planned, with its parts."""

    job: Job
    option: Option
    planned: CasePlan

    @property
    def case(self) -> Case:
        """The case as ordered."""
        return self.job.case(self.planned.name)

    @property
    def doorway(self) -> Doorway | None:
        """The doorway or alcove it goes into."""
        return next((one for one in self.job.doorways if one.name == self.case.doorway), None)

    @property
    def parts(self) -> tuple[Part, ...]:
        """Its parts out of sheets."""
        return tuple(part for part in self.option.parts if part.case == self.planned.name)

    def ids(self, *names: str) -> tuple[str, ...]:
        """Ids of its parts of these names."""
        return tuple(part.id for part in self.parts if part.name in names)

    @property
    def jointed(self) -> tuple[str, ...]:
        """Ids of the boards whose two ends are joined: all but sides, back and loose shelves."""
        fixed = ("shelf",) if self.case.fixing == "fixed" else ()
        return self.ids("bottom", "toe", "upright", *fixed, "top")

    @property
    def loose(self) -> tuple[str, ...]:
        """Ids of shelves on pins."""
        return self.ids("shelf") if self.case.fixing == "pins" else ()

    @property
    def housed(self) -> tuple[str, ...]:
        """Ids of the boards that stand in dadoes; the toe is butted."""
        if not self.case.dado_depth:
            return ()
        return tuple(one for one in self.jointed if one not in self.ids("toe"))

    @property
    def lips(self) -> tuple[str, ...]:
        """Ids of its lips on their sticks."""
        return tuple(
            piece.part
            for stick in self.option.mouldings
            for piece in stick.pieces
            if is_lip(piece.part, self.planned.name)
        )

    @cached_property
    def trim(self) -> TrimSet:
        """Its trim, piece by piece, lips among it."""
        sets = trim_sets(self.job, self.option)
        return next(one for one in sets if one.case == self.planned.name)

    @property
    def bands(self) -> tuple[TrimPiece, ...]:
        """Edge bands."""
        return tuple(one for one in self.trim.pieces if one.name == "edge band")

    @property
    def scribes(self) -> tuple[TrimPiece, ...]:
        """Strips scribed to the walls, as far as they are cut from a moulding."""
        return tuple(one for one in self.trim.pieces if one.name == "scribe strip")

    def trimmed(self, *, travels: bool) -> tuple[TrimPiece, ...]:
        """Casing, blocks and baseboard that travel with the case, or stay on the wall."""
        apart = {one.id for one in (*self.bands, *self.scribes)}
        return tuple(
            one
            for one in self.trim.pieces
            if one.travels == travels and one.id not in apart and not is_lip(one.id, one.case)
        )

    @property
    def fluted(self) -> tuple[TrimPiece, ...]:
        """Legs with flutes."""
        if self.trim.flutes is None:
            return ()
        return tuple(one for one in self.trim.pieces if one.name == "casing leg")

    @property
    def hinges(self) -> int:
        """Hinges of a hung case [-]."""
        if self.case.kind != "hung":
            return 0
        return len(hinge_places(self.doorway, self.planned))

    @property
    def lifters(self) -> int:
        """People to carry it: by its empty weight, two for any that hangs in a doorway [-]."""
        grams = empty_case(self.job, self.option, self.planned).grams
        by_weight = max(1, -(-grams // LIFT_EACH))
        return max(by_weight, 2 if self.case.kind in ("hung", "wall") else 1)


def is_lip(part: str, case: str) -> bool:
    """Whether an id is that of a lip of a case."""
    return part.startswith(f"{case}/") and re.search(r"/(bay-\d+-)?lip-\d+$", part) is not None


def pin_hole_count(work: CaseWork) -> int:
    """Holes for shelf pins, all bays together [-]."""
    return sum(one.total for one in pin_holes(work.job, work.case, work.planned))
