"""Primer, paint or clear finish, abrasives and filler of a case, by area.

Area = both faces and all edges of the sheet parts - what is glued + the faces of trim: the
practice of the trade, with every part counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from solver.costing import hardware_catalogue
from solver.costing.hardware_catalogue import (
    SQUARE_METRES_PER_FT2,
    FastenedCase,
    Kind,
    Need,
    area_text,
)
from solver.costing.joint_hardware import SQUARE_METRE, back_glue_area, end_area, glued
from solver.job.finish_and_overrides import Finish
from solver.plan.bought import Use
from solver.units import Unit

ML_PER_GALLON = Fraction(3785411784, 1000000)
"""A US gallon [ml]."""
RAW_GRITS = ("120", "180")
"""Grits before finish: 120, then 150 or 180; common practice, no source."""
BETWEEN_GRIT = "240"
BARE_PER_DISC = 1
"""Bare board that one disc sands: from memory [m2]."""
BETWEEN_PER_DISC = 2
"""Area that one disc rubs down between coats [m2]."""
FILLER_PER_HOLE = Fraction(1, 2)
"""Filler for one hole [ml]."""


@dataclass(frozen=True)
class Area:
    """What is sanded and finished [square tick].

    Attributes
    ----------
    faces, edges
        Both faces, and all four edges, of every part out of a sheet.
    glued
        Taken off: board ends and what they cover, the edges under the back and what lies on them.
    trim
        Trim out of mouldings, its face and two edges.
    """

    faces: int
    edges: int
    glued: int
    trim: int

    @property
    def total(self) -> int:
        """Together [square tick]."""
        return self.faces + self.edges - self.glued + self.trim

    @property
    def square_metres(self) -> Fraction:
        """Together [m2]."""
        return Fraction(self.total, SQUARE_METRE)


def area_of(fastened: FastenedCase) -> Area:
    """Return the area of one case."""
    parts = fastened.parts
    ends = sum(2 * end_area(part) for part in parts if glued(fastened, part))
    return Area(
        faces=sum(2 * part.length * part.width for part in parts),
        edges=sum(2 * (part.length + part.width) * part.thickness for part in parts),
        glued=2 * ends + 2 * back_glue_area(fastened),
        trim=sum(
            piece.length * (piece.width + 2 * piece.thickness)
            for piece in fastened.trim.pieces
            if piece.got in ("moulding", "block") and piece.name != "edge band"
        ),
    )


def millilitres(area: Fraction, coats: int, coverage: float, more: float, unit: Unit) -> int:
    """Return how much of a finish some coats take, rounded up [ml].

    Parameters
    ----------
    area
        [m2]
    coverage
        ft2 a US gallon in an inch job, m2 a litre in a metric one.
    more
        Share bought over that [-].
    """
    per = Fraction(str(coverage))
    square = area / SQUARE_METRES_PER_FT2 if unit == "in" else area
    volume = ML_PER_GALLON if unit == "in" else Fraction(1000)
    return -int(-(square * coats * (1 + Fraction(str(more))) / per * volume) // 1)


def finishes(fastened: FastenedCase) -> Iterator[Need]:
    """Yield primer, topcoats and what they are put on with."""
    finish, area, name = fastened.job.finished, area_of(fastened).square_metres, fastened.case.name
    if finish.kind == "none":
        return
    for kind, coats, coverage in _layers(finish):
        if not coats:
            continue
        amount = millilitres(area, coats, coverage, finish.more, fastened.unit)
        per = "ft2 a gallon" if fastened.unit == "in" else "m2 a litre"
        how = (
            f"{area_text(area, fastened.unit)} x {coats} coat{'s' if coats > 1 else ''} / "
            f"{coverage:g} {per} x {1 + finish.more:g}"
        )
        use = Use(name, "all faces and edges")
        yield Need(kind, "", amount, use, how)
        yield Need(hardware_catalogue.SLEEVE, "", coats, Use(name, kind.what), "one a coat")


def _layers(finish: Finish) -> Sequence[tuple[Kind, int, float]]:
    if finish.kind == "clear":
        return ((hardware_catalogue.CLEAR, finish.coats, finish.coverage),)
    return (
        (hardware_catalogue.PRIMER, finish.primer, finish.primer_coverage),
        (hardware_catalogue.PAINT, finish.coats, finish.coverage),
    )


def abrasives(fastened: FastenedCase) -> Iterator[Need]:
    """Yield discs: bare board with two grits, and one between coats."""
    area, name, finish = area_of(fastened).square_metres, fastened.case.name, fastened.job.finished
    shown = area_text(area, fastened.unit)
    for grit in RAW_GRITS:
        discs, per = (
            int(-(-area // BARE_PER_DISC)),
            area_text(Fraction(BARE_PER_DISC), fastened.unit),
        )
        how = f"{shown}, {per} a disc"
        yield Need(hardware_catalogue.DISC, f"grit {grit}", discs, Use(name, "bare board"), how)
    layers = 0 if finish.kind == "none" else sum(coats for _, coats, _ in _layers(finish))
    if layers > 1:
        discs = (layers - 1) * -(-area // BETWEEN_PER_DISC)
        per = area_text(Fraction(BETWEEN_PER_DISC), fastened.unit)
        how = f"{shown} x {layers - 1} times between coats, {per} a disc"
        yield Need(
            hardware_catalogue.DISC,
            f"grit {BETWEEN_GRIT}",
            int(discs),
            Use(name, "between coats"),
            how,
        )


def filler(fastened: FastenedCase, needs: Sequence[Need]) -> Iterator[Need]:
    """Yield filler for every hole that shows: screws, brads and nails."""
    if fastened.job.finished.kind == "none":
        return
    shown = {
        hardware_catalogue.JOINT_SCREW.key,
        hardware_catalogue.BRAD.key,
        hardware_catalogue.NAIL.key,
    }
    holes = sum(need.count for need in needs if need.kind.key in shown)
    amount = -int(-(holes * FILLER_PER_HOLE) // 1)
    yield Need(
        hardware_catalogue.FILLER,
        "",
        amount,
        Use(fastened.case.name, "heads"),
        f"{holes} holes x 0.5 ml",
    )
