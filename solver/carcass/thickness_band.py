"""Materials whose thickness is not measured yet: the band of each, and the job at its ends."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from solver.job.case import Case
from solver.job.job import Job
from solver.plan.plan import Plan
from solver.units import Ticks


def bands(job: Job) -> dict[str, tuple[Ticks, Ticks]]:
    """Least and most thickness of each material that is not measured yet, by name [tick]."""
    return {s.material: (s.band.least, s.band.most) for s in job.sheets if s.band is not None}


def gains_if_thin(job: Job, case: Case) -> tuple[Ticks, Ticks, Ticks]:
    """How much higher the lowest opening, one between and the top one become at most [tick].

    With the marks kept and the thinnest boards: below each opening a board is thinner; the
    top opening of a case of a given outside height also gains above.
    """
    least, most = bands(job).get(case.material, (0, 0))
    play = most - least
    return play, play, 2 * play if case.sizes == "outside" else 0


def as_measured(job: Job, last: Plan) -> Job:
    """Return the job with the thicknesses that its last plan was measured for.

    Only where the job still has a band and the measure is within it: planning again after a
    measured sheet goes on from the sheet, not from the band.
    """
    now = {s.material: s.thickness for s in last.job.sheets if s.band is None}
    measured = {
        name: now[name]
        for name, (least, most) in bands(job).items()
        if name in now and least <= now[name] <= most
    }
    return job.measured(measured)


def corners(job: Job) -> Iterator[Job]:
    """The job with every combination of the ends of its bands, all thinnest first."""
    known = bands(job)
    for ends in product(*known.values()):
        yield job.measured(dict(zip(known, ends, strict=True)))
