"""Housings from both sides of an upright: how deep they may be, so that enough of it stays.

A shelf housed (dadoed) in an upright has the shelf of the next bay opposite it wherever the two
lie on one line, or overlap by less than their thickness. What stays between the two housings, the
web, is a third of the upright at least: common practice, no source. The depth of a case's dadoes
stays one number, `Case.dado`; from it follow parts, drawings, papers and figures.
"""

from __future__ import annotations

from collections.abc import Container, Iterator

from solver.carcass.thickness_band import bands
from solver.job.case import Case
from solver.job.defaults import table_defaults
from solver.job.job import Job, PlacedFaultError
from solver.units import Ticks, Unit, inches, mm, parse_length, round_down, with_unit
from solver.words import word

WEB = 3
"""An upright keeps one part in so many of its thickness: common practice, no source [-]."""
LEAST_HOUSING: dict[Unit, Ticks] = {"in": inches("1/8"), "mm": mm(3)}
"""Housing below which a shelf is better screwed: common practice, no source [tick]."""
STEP: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Depths that a router is set to: common practice, no source [tick]."""


def opposed(case: Case) -> bool:
    """Whether shelves may be housed in an upright of the case from both its sides."""
    return (
        case.joint == "dado"
        and case.fixing == "fixed"
        and case.bay_counts[-1] > 1
        and case.shelf_counts[-1] > 0
    )


def deepest(job: Job, case: Case) -> Ticks:
    """Return the deepest dado that two opposite shelves may have, in the thinnest board [tick]."""
    thinnest = _thinnest(job, case)
    return (thinnest - -(-thinnest // WEB)) // 2


def with_housings(job: Job, left_out: Container[int]) -> Job:
    """Return the job with dadoes of a depth that is left out no deeper than an upright allows.

    `left_out` are the cases, numbered from 0, whose depth comes from the defaults. The depth is
    rounded down to a setting of the router; where less than the least useful one is allowed it
    stays, and :func:`check_housings` refuses it.
    """
    cases = tuple(
        _lessened(job, case) if at in left_out and opposed(case) else case
        for at, case in enumerate(job.cases)
    )
    return job if cases == job.cases else job.model_copy(update={"cases": cases})


def _lessened(job: Job, case: Case) -> Case:
    depth = round_down(deepest(job, case), STEP[job.unit])
    if depth < LEAST_HOUSING[job.unit]:
        return case
    return case.model_copy(update={"dado": min(case.dado, depth)})


def check_housings(job: Job) -> None:
    """Raise PlacedFaultError where dadoes from both sides leave less than a third of an upright."""
    for case in job.cases:
        if opposed(case) and case.dado > deepest(job, case):
            raise PlacedFaultError(*_fault(job, case))


def _fault(job: Job, case: Case) -> tuple[tuple[str, str, str], str]:
    """Where the fault is, and what is allowed instead."""
    unit, thinnest, depth = job.unit, _thinnest(job, case), deepest(job, case)
    if depth < LEAST_HOUSING[unit]:
        reason = (
            f"shelves housed from both sides of an upright of {with_unit(thinnest, unit)} cannot "
            "leave a third of it; take thicker boards, or leave joint out: butt, glued and screwed"
        )
        return ("case", case.name, "joint"), reason
    web = thinnest - 2 * case.dado
    stays = f"{with_unit(web, unit)} of it" if web > 0 else "nothing of it"
    reason = (
        f"{with_unit(case.dado, unit)} deep from both sides of an upright of "
        f"{with_unit(thinnest, unit)} leaves {stays}, and a third is to stay: give "
        f"{with_unit(round_down(depth, STEP[unit]), unit)} at most, or leave it out"
    )
    return ("case", case.name, "dado"), reason


def housing_notes(job: Job) -> Iterator[str]:
    """Say of which cases the dadoes are shallower than usual, and why."""
    unit = job.unit
    for case in job.cases:
        if not opposed(case) or usual_depth(unit) <= deepest(job, case):
            continue
        yield (
            f"case {case.name!r}: each {word('dado', unit)} is {with_unit(case.dado, unit)} deep, "
            f"not the usual {with_unit(usual_depth(unit), unit)}, so that shelves housed opposite "
            f"each other leave {with_unit(_thinnest(job, case) - 2 * case.dado, unit)} of an "
            "upright, a third of it at least"
        )


def usual_depth(unit: Unit) -> Ticks:
    """Return the depth of a dado that the defaults have [tick]."""
    return parse_length(table_defaults("case", unit)["dado"], unit)


def _thinnest(job: Job, case: Case) -> Ticks:
    """Thickness of the case's boards, the least of the band where it is not measured yet [tick]."""
    least, _ = bands(job).get(case.material, (job.thickness(case.material), 0))
    return least
