"""A plan with shelves put elsewhere, and all that follows from their marks brought up to date."""

from __future__ import annotations

from collections.abc import Sequence

from solver.plan.built import Bay, CasePlan, SharedLines
from solver.plan.plan import Option, Plan
from solver.planning.option_stages import scores
from solver.units import Ticks


def with_marks(plan: Plan, marks: Sequence[Sequence[Ticks]], at: int = 0) -> Plan:
    """The plan with the marks [tick] of every bay of option `at`, from left to right."""
    option, left = plan.options[at], list(marks)
    cases = tuple(_case(case, left) for case in option.cases)
    lines = tuple(_lines(group, cases) for group in option.lines)
    update = {"cases": cases, "lines": lines, "scores": _scored(plan, option, cases, lines)}
    moved = option.model_copy(update=update)
    options = (*plan.options[:at], moved, *plan.options[at + 1 :])
    return plan.model_copy(update={"options": options})


def _lines(group: SharedLines, cases: Sequence[CasePlan]) -> SharedLines:
    tops = {
        case.above_floor + shelf.top
        for case in cases
        for bay in case.bays
        if (case.name, bay.number) in group.bays
        for shelf in bay.shelves
    }
    return group.model_copy(update={"heights": tuple(sorted(tops))})


def _scored(
    plan: Plan, option: Option, cases: Sequence[CasePlan], lines: Sequence[SharedLines]
) -> object:
    return scores(plan.job, cases, lines, option.parts, option.sheets)


def _case(case: CasePlan, left: list[Sequence[Ticks]]) -> CasePlan:
    return case.model_copy(update={"bays": tuple(_bay(bay, left.pop(0)) for bay in case.bays)})


def _bay(bay: Bay, marks: Sequence[Ticks]) -> Bay:
    shelves = tuple(
        shelf.model_copy(update={"underside": mark, "top": mark + shelf.thickness})
        for shelf, mark in zip(bay.shelves, marks, strict=True)
    )
    last = bay.openings[-1]
    floors = [bay.openings[0].floor, *(shelf.top for shelf in shelves)]
    ceilings = [*marks, last.floor + last.height]
    openings = []
    for opening, floor, ceiling in zip(bay.openings, floors, ceilings, strict=True):
        height = ceiling - floor
        items = tuple(
            thing.model_copy(update={"headroom": height - thing.y - thing.height})
            for thing in opening.items
        )
        openings.append(
            opening.model_copy(update={"floor": floor, "height": height, "items": items})
        )
    return bay.model_copy(update={"shelves": shelves, "openings": tuple(openings)})
