"""The schedule as a CP-SAT model, in minutes of working time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from solver.steps.network import Clock, earliest, fitted
from solver.work import After, Step


@dataclass
class Model:
    """Variables of a schedule.

    Attributes
    ----------
    start
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
    finish: cp_model.IntVar
    horizon: int
    moments: dict[str, tuple[cp_model.IntVar, cp_model.IntVar]] = field(default_factory=dict)


def made(steps: Sequence[Step], people: int, clock: Clock) -> Model:
    """Make the model: precedence with waits, so many people, nights.

    A step that wants more people than there are takes all of them.
    """
    cp = cp_model.CpModel()
    horizon = by_hand(steps, clock)
    soonest = earliest(steps, clock)
    start = {step.key: cp.new_int_var(soonest[step.key], horizon, step.key) for step in steps}
    finish = cp.new_int_var(0, horizon, "finish")
    model = Model(cp, start, finish, horizon)
    minutes = {step.key: step.minutes for step in steps}
    for step in steps:
        cp.add(finish >= start[step.key] + step.minutes)
        for one in step.after:
            _after(model, step, one, minutes[one.step], clock)
        if step.in_one_go and step.minutes <= clock.day:
            _within_a_day(model, step, clock)
    cp.add_cumulative(
        [
            cp.new_fixed_size_interval_var(start[step.key], step.minutes, f"{step.key} done")
            for step in steps
        ],
        [min(step.people, people) for step in steps],
        people,
    )
    return model


def by_hand(steps: Sequence[Step], clock: Clock) -> int:
    """End of the last step where one is done after the other, in order [min]: a bound."""
    at: dict[str, int] = {}
    now = 0
    for step in steps:
        ready = [clock.ready(at[one.step], one.wait) for one in step.after]
        begin = fitted(max([now, *ready]), step, clock)
        now = at[step.key] = begin + step.minutes
    return now


def _after(model: Model, step: Step, one: After, minutes: int, clock: Clock) -> None:
    begin = model.start[step.key]
    end = model.start[one.step] + minutes
    if not one.wait:
        model.cp.add(begin >= end)
        return
    day, minute = _moment(model, one.step, minutes, clock)
    table = [clock.ready(into, one.wait) for into in range(clock.day + 1)]
    ready = model.cp.new_int_var(min(table), max(table), f"{one.step} and {one.wait}")
    model.cp.add_element(minute, table, ready)
    model.cp.add(begin >= day * clock.day + ready)


def _moment(
    model: Model, key: str, minutes: int, clock: Clock
) -> tuple[cp_model.IntVar, cp_model.IntVar]:
    """Day and minute of the day at which a step ends; minute 0 only on the first morning."""
    if key not in model.moments:
        day = model.cp.new_int_var(0, model.horizon // clock.day + 1, f"{key} ends on")
        minute = model.cp.new_int_var(0, clock.day, f"{key} ends at")
        first = model.cp.new_bool_var(f"{key} ends on the first day")
        model.cp.add(model.start[key] + minutes == day * clock.day + minute)
        model.cp.add(day == 0).only_enforce_if(first)
        model.cp.add(minute >= 1).only_enforce_if(~first)
        model.moments[key] = day, minute
    return model.moments[key]


def _within_a_day(model: Model, step: Step, clock: Clock) -> None:
    day = model.cp.new_int_var(0, model.horizon // clock.day + 1, f"{step.key} on")
    into = model.cp.new_int_var(0, clock.day - step.minutes, f"{step.key} from")
    model.cp.add(model.start[step.key] == day * clock.day + into)
