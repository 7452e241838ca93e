"""How far a row sags the board that it stands on, where its things stand."""

from __future__ import annotations

from typing import Protocol

from solver.job.case import Case
from solver.job.job import Job
from solver.layout.layout_problem import BayShape, LayoutProblem, Place
from solver.strength.beams import CREEP_FACTOR, HARD_LIMITS, first_day_ratio
from solver.strength.constants import millimetres, newtons
from solver.strength.shelf_beams import beam_of_shelf, spans_at_bottom
from solver.units import Ticks


class Standing(Protocol):
    """Places from left to right, and their left edges [tick]."""

    @property
    def places(self) -> tuple[Place, ...]:
        """The places."""
        ...

    @property
    def edges(self) -> tuple[Ticks, ...]:
        """The left edges [tick]."""
        ...


def most_sag(job: Job, case: Case, bay: BayShape, board: tuple[Ticks, int]) -> float | None:
    """Most first-day sag of the board that an opening's things stand on [mm]; None: any."""
    limits, (depth, index) = HARD_LIMITS[job.ground.sag], board
    if not limits or (index == 0 and not spans_at_bottom(case)):
        return None
    span = beam_of_shelf(job, case, bay.width, depth, index).span
    return span / max(first_day_ratio(limit, CREEP_FACTOR) for limit in limits)


def first_day_sag(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    row: Standing,
) -> float:
    """First-day sag of a board under a row [mm]."""
    shelf = beam_of_shelf(job, case, bay.width, *board)
    return shelf.under(
        (
            newtons(problem.kinds[form.kind].mass * things),
            millimetres(edge),
            millimetres(edge + form.size[0]),
        )
        for (form, things), edge in zip(row.places, row.edges, strict=True)
    )
