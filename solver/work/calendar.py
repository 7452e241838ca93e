"""The order of the work with its calendars: who does what when, and how far each step may slip."""

from __future__ import annotations

from collections.abc import Sequence

from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.work import Calendar, OrderOfWork, ScheduledStep, Step
from solver.work.build_steps import build_steps
from solver.work.critical_path import Clock, calendar_steps, latest_ends
from solver.work.schedule import ListSchedule, people_needed, solve


def order_of_work(job: Job, option: Option, people: Sequence[int] = (1, 2)) -> OrderOfWork:
    """Return every step of an option and its calendars, one for each number of people."""
    steps = build_steps(job, option)
    clock = Clock(int(job.terms.hours_a_day * 60))
    return OrderOfWork(
        option=option.name,
        steps=steps,
        calendars=tuple(calendar(steps, some, clock) for some in people),
    )


def calendar(steps: Sequence[Step], people: int, clock: Clock) -> Calendar:
    """Put the steps in time for so many people."""
    dated = calendar_steps(steps)
    solved, bound = solve(dated, people, clock)
    persons = _assigned(dated, solved, people)
    minutes = {step.key: solved.end[step.key] - solved.start[step.key] for step in dated}
    latest_end = latest_ends(dated, minutes, clock, solved.finish)
    placed = [
        _placed(step, solved, clock, latest_end[step.key], persons[step.key]) for step in dated
    ]
    placed.sort(key=lambda one: one.start)
    return Calendar(
        people=people,
        day=clock.day,
        placed=tuple(placed),
        minutes=solved.finish,
        bound=bound,
        proven=bound >= solved.finish,
        days=-(-solved.finish // clock.day),
        work=sum(minutes[step.key] * len(persons[step.key]) for step in dated),
        alone=tuple(step.key for step in dated if step.people > people),
    )


def _placed(
    step: Step, solved: ListSchedule, clock: Clock, late: int, persons: tuple[int, ...]
) -> ScheduledStep:
    start, end = solved.start[step.key], solved.end[step.key]
    return ScheduledStep(
        step=step.key,
        start=start,
        end=end,
        starts_on=start // clock.day + 1,
        ends_on=max(1, -(-end // clock.day)),
        slack=late - end,
        persons=persons,
    )


def _assigned(
    steps: Sequence[Step], solved: ListSchedule, people: int
) -> dict[str, tuple[int, ...]]:
    """Give each step its persons: whoever is free, the lowest number first."""
    free_at = dict.fromkeys(range(1, people + 1), 0)
    given: dict[str, tuple[int, ...]] = {}
    for step in sorted(steps, key=lambda one: (solved.start[one.key], solved.end[one.key])):
        start = solved.start[step.key]
        free = [person for person, at in free_at.items() if at <= start]
        end = solved.end[step.key]
        mine = tuple(free[: people_needed(step, end - start, people)])
        free_at.update(dict.fromkeys(mine, end))
        given[step.key] = mine
    return given
