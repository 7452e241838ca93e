"""Things stand centred where the shelf bears it, and heavy ones at its ends where it does not.

The layout holds the sag limit for a load spread evenly; where things stand is open until here.
"""

from __future__ import annotations

from collections.abc import Sequence

from solver.job.case import Case
from solver.job.job import Job
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.layout.row_arrangement import Place, Spot, arrange, arrange_apart
from solver.plan.bearing import Strength
from solver.strength.beams import CREEP_FACTOR
from solver.strength.constants import millimetres, newtons
from solver.strength.sag_limits import HARD_LIMITS, first_day_ratio
from solver.strength.shelf_beams import beam, spans_at_bottom
from solver.units import Ticks


def spread(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    places: Sequence[Place],
) -> tuple[Spot, ...]:
    """Give every thing of an opening its place.

    Parameters
    ----------
    job, case, problem, bay
        The layout problem, and what the opening belongs to.
    board
        (inside depth [tick], index of the opening).
    places
        What stands in the opening.
    """
    centred = arrange(problem, bay, places, job.look.end_margin)
    limits, (depth, index) = HARD_LIMITS[job.ground.sag], board
    if not places or not limits or (index == 0 and not spans_at_bottom(case)):
        return centred
    shelf = beam(job, case, bay.width, depth, index)
    most = shelf.span / max(first_day_ratio(limit, CREEP_FACTOR) for limit in limits)

    def sag(spots: tuple[Spot, ...]) -> float:
        return shelf.under(
            (
                newtons(problem.kinds[spot.kind].mass),
                millimetres(spot.x),
                millimetres(spot.x + spot.form.size[0]),
            )
            for spot in spots
        )

    if sag(centred) <= most:
        return centred
    return min(centred, arrange_apart(problem, bay, places, job.look.end_margin), key=sag)


def sag_notes(strength: Strength | None) -> tuple[str, ...]:
    """Return a note for each shelf over the limit held on which no order of the things would do."""
    if strength is None:
        return ()
    held = {limit.key for limit in HARD_LIMITS[strength.held]}
    return tuple(
        f"case {one.case!r}, bay {one.bay}, {f'shelf {one.index}' if one.index else 'bottom'} "
        "sags beyond the limit that the layout is held to, where its things stand; what mends it "
        "is told with its sag"
        for one in strength.shelves
        if held & set(one.over)
    )
