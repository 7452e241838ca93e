"""How much a lip of solid wood moves with the seasons."""

from __future__ import annotations

from solver.boards import MOVEMENT, movement
from solver.case import Case
from solver.geometry import lip_sizes
from solver.hanging import Figure
from solver.job import Job
from solver.strength.amounts import millimetres
from solver.strength.figure import figure
from solver.strength.of_job import wood_of

SEASONS = 4
"""Change of the moisture content over the year, heated winter to damp summer: common practice,
no source [%]."""


def lip_moves(job: Job, case: Case) -> list[Figure]:
    """Return how much wider the lip of a case's shelves becomes and narrower again, if any."""
    if case.lip is None:
        return []
    wood = wood_of(job, case.lip.moulding).name
    tangential = MOVEMENT[wood][1] if wood in MOVEMENT else max(t for _, t in MOVEMENT.values())
    _, above, below = lip_sizes(job, case)
    wide = millimetres(above + below + job.thickness(case.material))
    return [
        figure(
            "lip-moves",
            "how much the lip's width comes and goes with the seasons",
            ("length", movement(wide, tangential, SEASONS)),
            (
                "D C_T dM, D the width, dM the change of moisture",
                f"{wide:.2f} mm x {tangential} x {SEASONS} %",
            ),
            "Wood Handbook FPL-GTR-190 ch. 13 and Table 13-5; valid from 6 to 14 % of moisture",
            assumes=f"flat-sawn {wood}; sheets move far less: let gaps beside solid wood allow it",
        )
    ]
