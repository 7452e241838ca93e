"""One case with what its labour is counted from: boards by joint, trim, hinges, area, people."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from solver.carcass.pin_holes import PinHoles, pin_holes
from solver.carcass.trim_face import doorway as doorway_of
from solver.costing.finish_materials import area_of
from solver.costing.hardware import fastened_cases
from solver.costing.hardware_catalogue import FastenedCase
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.plan import Option
from solver.plan.stocked import Part
from solver.plan.trimming import TrimPiece, TrimSet
from solver.strength.cautions import LIFT_PER_PERSON
from solver.strength.hinges import hinge_places
from solver.strength.weights import empty_case


def finished_area(fastened: FastenedCase) -> Decimal:
    """Area of a case that is sanded and finished, as paint is bought for it, to 0.01 m2."""
    area = area_of(fastened).square_metres
    return (Decimal(area.numerator) / area.denominator).quantize(Decimal("0.01"))


@dataclass(frozen=True)
class TaskCount:
    """How often a task is done to one case, to which parts, by how many people."""

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
        return doorway_of(self.job, self.case)

    @property
    def first_in_doorway(self) -> str:
        """Name of the first case in its doorway: work on a doorway is counted once, with it."""
        if self.case.doorway is None:
            return self.planned.name
        names = (planned.name for planned in self.option.cases)
        return next(name for name in names if self.job.case(name).doorway == self.case.doorway)

    @property
    def is_first_in_doorway(self) -> bool:
        """Whether work on the doorway is counted with this case."""
        return self.first_in_doorway == self.planned.name

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
    def screwed(self) -> tuple[str, ...]:
        """Ids of the boards whose ends are screwed: a dado is glued and bears by itself."""
        return tuple(one for one in self.jointed if one not in self.housed)

    @property
    def lips(self) -> tuple[str, ...]:
        """Ids of its lips on their sticks."""
        return tuple(one for one in self.option.pieces[1] if is_lip(one, self.planned.name))

    @cached_property
    def fastened(self) -> FastenedCase:
        """What holds it together and up."""
        cases = fastened_cases(self.job, self.option)
        return next(one for one in cases if one.case.name == self.planned.name)

    @property
    def trim(self) -> TrimSet:
        """Its trim, piece by piece, lips among it."""
        return self.fastened.trim

    @property
    def area(self) -> Decimal:
        """What is sanded and finished [m2]."""
        return finished_area(self.fastened)

    @property
    def pin_holes(self) -> tuple[PinHoles, ...]:
        """Holes for shelf pins, bay by bay."""
        return pin_holes(self.fastened.job, self.fastened.case, self.planned)

    @property
    def bands(self) -> tuple[TrimPiece, ...]:
        """Edge bands."""
        return tuple(one for one in self.trim.pieces if one.name == "edge band")

    @property
    def scribes(self) -> tuple[TrimPiece, ...]:
        """Scribe strips, where they are cut from a moulding."""
        return tuple(one for one in self.trim.pieces if one.name == "scribe strip")

    def trimmed(self, *, travels: bool) -> tuple[TrimPiece, ...]:
        """Casing, blocks and baseboard that travel with the case, or stay on the wall.

        A toe is a board of the box.
        """
        apart = ("edge band", "scribe strip", "shelf lip")
        return tuple(
            one
            for one in self.trim.pieces
            if one.travels == travels and one.name not in apart and one.got != "sheet"
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
    def people(self) -> int:
        """People to place it: two where it hangs or weighs more than one may lift [-]."""
        heavy = empty_case(self.job, self.option, self.planned).grams > LIFT_PER_PERSON
        return 2 if heavy or self.case.kind in ("hung", "wall") else 1


def is_lip(part: str, case: str) -> bool:
    """Whether an id is that of a lip of a case."""
    return part.startswith(f"{case}/lip-")
