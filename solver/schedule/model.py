"""The schedule as a CP-SAT model, in minutes of working time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from solver.cp_sat import cp_model
from solver.steps.network import Clock, earliest, fitted, least_minutes
from solver.work import After, Step


@dataclass
class Model:
    """Variables of a schedule.

    Attributes
    ----------
    start, end
        Of each step [min].
    finish
        End of the last step [min].
    horizon
        Where no step need end later [min].
    moments
        Day and minute at which a step ends, of the steps that something waits after.
    """

    cp: cp_model.CpModel
    start: dict[str, cp_model.IntVar]
    end: dict[str, cp_model.IntVar]
    finish: cp_model.IntVar
    horizon: int
    moments: dict[str, tuple[cp_model.IntVar, cp_model.IntVar]] = field(default_factory=dict)


def made(steps: Sequence[Step], people: int, clock: Clock) -> Model:
    """Make the model: precedence with waits, so many people, nights.

    A step that wants more people than there are takes all of them; one that can be shared is
    done by one person, or by all of them in less time.
    """
    cp = cp_model.CpModel()
    horizon = by_hand(steps, clock)
    soonest = earliest(steps, least_minutes(steps, people), clock)
    start = {step.key: cp.new_int_var(soonest[step.key], horizon, step.key) for step in steps}
    end = {step.key: cp.new_int_var(0, horizon, f"{step.key} done") for step in steps}
    finish = cp.new_int_var(0, horizon, "finish")
    model = Model(cp, start, end, finish, horizon)
    taken: list[tuple[cp_model.IntervalVar, int]] = []
    for step in steps:
        taken += _done(model, step, people)
        cp.add(finish >= end[step.key])
        for one in step.after:
            _after(model, step, one, clock)
        if step.in_one_go and step.minutes <= clock.day:
            _within_a_day(model, step, clock)
    cp.add_cumulative([one for one, _ in taken], [count for _, count in taken], people)
    return model


def by_hand(steps: Sequence[Step], clock: Clock) -> int:
    """End of the last step where one is done after the other, in order [min]: a bound."""
    at: dict[str, int] = {}
    now = 0
    for step in steps:
        ready = [clock.ready(at[one.step], one.wait) for one in step.after]
        begin = fitted(max([now, *ready]), step, step.minutes, clock)
        now = at[step.key] = begin + step.minutes
    return now


def _done(model: Model, step: Step, people: int) -> list[tuple[cp_model.IntervalVar, int]]:
    """Tie end to start, by one person or by all; return who is taken when."""
    cp, begin, end = model.cp, model.start[step.key], model.end[step.key]
    least = step.minutes_for(people)
    if least == step.minutes:
        cp.add(end == begin + step.minutes)
        count = min(step.people, people)
        return [(cp.new_fixed_size_interval_var(begin, step.minutes, f"{step.key} on"), count)]
    shared = cp.new_bool_var(f"{step.key} shared")
    intervals = []
    for minutes, count, chosen in ((least, people, shared), (step.minutes, 1, ~shared)):
        cp.add(end == begin + minutes).only_enforce_if(chosen)
        one = cp.new_optional_fixed_size_interval_var(
            begin, minutes, chosen, f"{step.key} by {count}"
        )
        intervals.append((one, count))
    return intervals


def _after(model: Model, step: Step, one: After, clock: Clock) -> None:
    begin = model.start[step.key]
    if not one.wait:
        model.cp.add(begin >= model.end[one.step])
        return
    day, minute = _moment(model, one.step, clock)
    table = [clock.ready(into, one.wait) for into in range(clock.day + 1)]
    ready = model.cp.new_int_var(min(table), max(table), f"{one.step} and {one.wait}")
    model.cp.add_element(minute, table, ready)
    model.cp.add(begin >= day * clock.day + ready)


def _moment(model: Model, key: str, clock: Clock) -> tuple[cp_model.IntVar, cp_model.IntVar]:
    """Day and minute of the day at which a step ends; minute 0 only on the first morning."""
    if key not in model.moments:
        day = model.cp.new_int_var(0, model.horizon // clock.day + 1, f"{key} ends on")
        minute = model.cp.new_int_var(0, clock.day, f"{key} ends at")
        first = model.cp.new_bool_var(f"{key} ends on the first day")
        model.cp.add(model.end[key] == day * clock.day + minute)
        model.cp.add(day == 0).only_enforce_if(first)
        model.cp.add(minute >= 1).only_enforce_if(~first)
        model.moments[key] = day, minute
    return model.moments[key]


def _within_a_day(model: Model, step: Step, clock: Clock) -> None:
    day = model.cp.new_int_var(0, model.horizon // clock.day + 1, f"{step.key} on")
    into = model.cp.new_int_var(0, clock.day - step.minutes, f"{step.key} from")
    model.cp.add(model.start[step.key] == day * clock.day + into)
