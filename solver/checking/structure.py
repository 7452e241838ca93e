"""Rules on names, numbers and indices; a case that breaks them is not looked at any further."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import CaseView, OptionView, same
from solver.job.case import Case
from solver.plan.built import Bay, CasePlan
from solver.plan.plan import Option, Plan


def option_where(option: Option) -> str:
    """Place of an option for findings."""
    return f"option {option.name!r}"


def case_where(option: Option, case: CasePlan) -> str:
    """Place of a case for findings."""
    return f"{option_where(option)}, case {case.name!r}"


def view(plan: Plan, option: Option) -> OptionView:
    """See an option with those of its cases that are soundly built up."""
    ordered = {case.name: case for case in plan.job.cases}
    names = [case.name for case in option.cases]
    sound = tuple(
        CaseView(plan.job, ordered[case.name], case, case_where(option, case))
        for case in option.cases
        if case.name in ordered and names.count(case.name) == 1 and _sound(ordered[case.name], case)
    )
    return OptionView(plan, option, sound, whole=len(sound) == len(ordered) == len(names))


def _sound(case: Case, planned: CasePlan) -> bool:
    return not list(_bays(case, planned, "")) and not list(_openings(planned, ""))


def cases(plan: Plan, option: Option) -> Iterator[Finding]:
    """An option with a layout has exactly the cases of the job, in their order."""
    if option.cases:
        yield from same(
            Code.LAYOUT_CASES,
            option_where(option),
            "the list of cases",
            [case.name for case in plan.job.cases],
            [case.name for case in option.cases],
        )


def case_as_ordered(plan: Plan, option: Option) -> Iterator[Finding]:
    """A case keeps the kind and the height above the floor that were ordered."""
    ordered = {case.name: case for case in plan.job.cases}
    for planned in option.cases:
        case = ordered.get(planned.name)
        if case is not None:
            yield from same(
                Code.LAYOUT_CASE_AS_ORDERED,
                case_where(option, planned),
                "kind and height above the floor [tick]",
                (case.kind, case.above_floor),
                (planned.kind, planned.above_floor),
            )


def bays(plan: Plan, option: Option) -> Iterator[Finding]:
    """A case has as many bays as are allowed, numbered from 1."""
    ordered = {case.name: case for case in plan.job.cases}
    for planned in option.cases:
        if planned.name in ordered:
            yield from _bays(ordered[planned.name], planned, case_where(option, planned))


def _bays(case: Case, planned: CasePlan, where: str) -> Iterator[Finding]:
    has = [bay.number for bay in planned.bays]
    bays = min(case.bay_counts, key=lambda count: (abs(count - len(has)), count))
    wanted = list(range(1, bays + 1))
    yield from same(Code.LAYOUT_BAYS, where, "the numbers of the bays", wanted, has)


def openings(_: Plan, option: Option) -> Iterator[Finding]:
    """Openings count from 0, shelves from 1, and there is one opening more than shelves."""
    for planned in option.cases:
        yield from _openings(planned, case_where(option, planned))


def _openings(planned: CasePlan, where: str) -> Iterator[Finding]:
    for bay in planned.bays:
        yield from _indices(bay, f"{where}, bay {bay.number}")


def _indices(bay: Bay, where: str) -> Iterator[Finding]:
    shelves = [shelf.index for shelf in bay.shelves]
    has = [opening.index for opening in bay.openings]
    good = list(range(1, len(shelves) + 1)), list(range(len(shelves) + 1))
    if (shelves, has) != good:
        yield finding(
            Code.LAYOUT_OPENINGS,
            where,
            "shelves and openings",
            f"numbered {good[0]} and {good[1]}",
            f"{shelves} and {has}",
        )


def shelf_count(plan: Plan, option: Option) -> Iterator[Finding]:
    """Every bay's shelf count is one that the job allows for its case."""
    names = {case.name for case in plan.job.cases}
    for name in option.shelf_counts.keys() - names:
        yield finding(
            Code.LAYOUT_SHELF_COUNT, option_where(option), "the case", "in the job", repr(name)
        )
    for case in plan.job.cases:
        counts = option.shelf_counts.get(case.name, ())
        allowed = case.shelf_counts
        if len(counts) not in case.bay_counts or any(count not in allowed for count in counts):
            yield finding(
                Code.LAYOUT_SHELF_COUNT,
                f"{option_where(option)}, case {case.name!r}",
                "shelves in each bay",
                f"{' or '.join(map(str, case.bay_counts))} of {list(allowed)}",
                str(list(counts)),
            )


def shelf_count_shown(_: Plan, option: Option) -> Iterator[Finding]:
    """Every bay has as many shelves as the option's combination says."""
    for planned in option.cases:
        if planned.name in option.shelf_counts:
            yield from same(
                Code.LAYOUT_SHELF_COUNT_SHOWN,
                case_where(option, planned),
                "shelves in each bay",
                option.shelf_counts[planned.name],
                tuple(len(bay.shelves) for bay in planned.bays),
            )
