"""The whole list of hardware and consumables of an option."""

from __future__ import annotations

from collections.abc import Iterator

from solver.carcass.decided import planned_cases
from solver.carcass.pin_holes import PinHoles, pin_holes
from solver.costing import finish_materials, holding_hardware, joint_hardware
from solver.costing.hardware_needs import FastenedCase, Need, lines
from solver.job.job import Job
from solver.plan.hardware_list import HardwareLine
from solver.plan.plan import Option
from solver.strength.hang_sheet import hanging_of
from solver.trim.trim_sets import trim_sets


def hardware_list(job: Job, option: Option) -> tuple[HardwareLine, ...]:
    """Return everything but sheets and mouldings that an option takes, in whole packs.

    A pure function of job and option: hinges, joints, back and wall fixings are those of the
    hanging sheets, trim is that of :func:`solver.trim.trim_sets.trim_sets`.

    Raises
    ------
    InputError
        Where a [[hardware]] of the job names no line of the list.
    """
    needs = [need for held in held_cases(job, option) for need in _of_case(held)]
    return lines(needs, job.hardware, job.unit)


def held_cases(job: Job, option: Option) -> tuple[FastenedCase, ...]:
    """Return each case with what holds it together and up."""
    hanging, trims = hanging_of(job, option), trim_sets(job, option)
    return tuple(
        FastenedCase(**vars(one), sheet=hanging.of(one.case.name), trim=trim)
        for one, trim in zip(planned_cases(job, option), trims, strict=True)
    )


def holes(job: Job, option: Option) -> tuple[PinHoles, ...]:
    """Return the holes for shelf pins of every bay."""
    cases = planned_cases(job, option)
    return tuple(hole for one in cases for hole in pin_holes(one.job, one.case, one.planned))


def _of_case(held: FastenedCase) -> Iterator[Need]:
    fastened = [
        *holding_hardware.hinges(held),
        *holding_hardware.latch(held),
        *joint_hardware.joints(held),
        *joint_hardware.back(held),
        *holding_hardware.fixings(held),
        *joint_hardware.lips(held),
        *holding_hardware.light(held),
        *holding_hardware.blocks(held),
        *holding_hardware.trim_fasteners(held),
    ]
    yield from fastened
    yield from joint_hardware.glue(held)
    yield from finish_materials.filler(held, fastened)
    yield from finish_materials.finishes(held)
    yield from finish_materials.abrasives(held)
