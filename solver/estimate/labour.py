"""Labour as lines of an estimate, the forgotten ones, and what one shelf costs."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.defaults import CP
from solver.estimated import ExtraLine, LabourLine, OneMoreShelf, to_cents
from solver.job import Job
from solver.labour.forgotten import why_none
from solver.labour_table import CONTINGENCY, FORGOTTEN, SECOND_PERSON, TASKS
from solver.plan import Option
from solver.work import Work


def labour_lines(
    job: Job, found: tuple[Work, ...], hourly: Decimal | None
) -> tuple[LabourLine, ...]:
    """Return a line for each task that is no extra, in the order of the labour table."""
    return tuple(
        _labour_line(job, task, found, hourly)
        for task, row in TASKS.items()
        if row.phase != "forgotten" and any(work.task == task for work in found)
    )


def _labour_line(
    job: Job, task: str, found: tuple[Work, ...], hourly: Decimal | None
) -> LabourLine:
    row, mine = TASKS[task], [work for work in found if work.task == task]
    minutes = sum((work.minutes for work in mine), Decimal(0))
    return LabourLine(
        task=task,
        phase=row.phase,
        per=row.per,
        count=sum((work.count for work in mine), Decimal(0)),
        each=job.terms.minutes(task),
        minutes=minutes,
        amount=priced(minutes, hourly),
        source="[price] labour" if task in job.terms.labour else CP,
    )


def priced(minutes: Decimal, hourly: Decimal | None) -> Decimal | None:
    """Price of so many minutes [min], rounded to the cent; None where an hour has no price."""
    return None if hourly is None else to_cents(minutes * hourly / 60)


def second_minutes(found: tuple[Work, ...]) -> Decimal:
    """Minutes of everybody beyond the first at steps that want more than one [min]."""
    return sum((work.minutes * (work.people - 1) for work in found), Decimal(0))


def extra_lines(
    job: Job, found: tuple[Work, ...], hourly: Decimal | None, second: Decimal | None
) -> Iterator[ExtraLine]:
    """Yield every forgotten one but the contingency, with hours, an amount, or none and why."""
    for what in FORGOTTEN:
        if what in job.terms.extras:
            yield _given(what, job.terms.extras[what])
        elif what == SECOND_PERSON:
            yield _second(found, second)
        elif what != CONTINGENCY:
            yield _counted(job, what, found, hourly)


def _given(what: str, amount: Decimal) -> ExtraLine:
    why = "as the job says" if amount else "none, as the job says"
    state = "given" if amount else "none"
    return ExtraLine.model_validate(
        {"what": what, "state": state, "minutes": Decimal(0), "amount": amount, "why": why}
    )


def _counted(job: Job, what: str, found: tuple[Work, ...], hourly: Decimal | None) -> ExtraLine:
    mine = [work for work in found if work.task == what]
    if not mine:
        why = why_none(what, job, job.cases) or "no time is allowed for it"
        return ExtraLine(
            what=what, state="none", minutes=Decimal(0), amount=Decimal("0.00"), why=why
        )
    minutes = sum((work.minutes for work in mine), Decimal(0))
    count = sum((work.count for work in mine), Decimal(0))
    why = f"{count} {TASKS[what].per}{'s' if count != 1 else ''}"
    return ExtraLine(
        what=what, state="counted", minutes=minutes, amount=priced(minutes, hourly), why=why
    )


def _second(found: tuple[Work, ...], second: Decimal | None) -> ExtraLine:
    minutes = second_minutes(found)
    if not minutes:
        return ExtraLine(
            what=SECOND_PERSON,
            state="none",
            minutes=Decimal(0),
            amount=Decimal("0.00"),
            why="nothing wants two",
        )
    tasks = dict.fromkeys(work.task for work in found if work.people > 1)
    return ExtraLine(
        what=SECOND_PERSON,
        state="counted",
        minutes=minutes,
        amount=priced(minutes, second),
        why=", ".join(tasks),
    )


def one_shelf(
    found: tuple[Work, ...], job: Job, option: Option, hourly: Decimal | None
) -> OneMoreShelf | None:
    """Labour of one shelf: the mean over the shelves of what is counted by part, joint or area.

    A lip, and the band on its edge, belong to a shelf. Settings of the saws are shared by all
    parts and left out; cuts count by the piece. What an option costs more that has one shelf
    more is in the options side by side, to the minute.
    """
    areas = {part.id: part.length * part.width for part in option.parts}
    shelves = {part.id for part in option.parts if part.name == "shelf"}
    if not shelves:
        return None
    names = {name.rpartition("/")[2] for name in shelves}
    mine = shelves | {
        part
        for work in found
        for part in work.of
        if part.rpartition("/")[2].startswith("lip-") or part.rpartition("trim-band-")[2] in names
    }
    shares = [(work.task, _share(work, mine, areas)) for work in found if mine & set(work.of)]
    minutes = sum((one for _, one in shares), Decimal(0)) / len(shelves)
    minutes = minutes.quantize(Decimal("0.1"))
    tasks = tuple(dict.fromkeys(task for task, share in shares if share))
    return OneMoreShelf(minutes=minutes, amount=priced(minutes, hourly), tasks=tasks)


def _share(work: Work, mine: set[str], areas: dict[str, int]) -> Decimal:
    """Minutes of a work that fall to these parts: by area, or alike for each part."""
    sides = {part for part in work.of if part.rpartition("/")[2].startswith("side-")}
    of = [part for part in work.of if work.task != "glue-up" or part not in sides]
    by_area = TASKS[work.task].per == "m2"
    weights = {part: areas.get(part, 0) if by_area else 1 for part in of}
    whole = sum(weights.values())
    if not whole:
        return Decimal(0)
    return work.minutes * sum(weights[one] for one in of if one in mine) / whole
