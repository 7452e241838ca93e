"""The schedule that ends soonest: list scheduling, a lower bound, and a CP-SAT model in minutes.

A list schedule takes the steps in the order of a list and starts each as soon as its people are
free (serial schedule generation). Moving a step forward never delays another, since what waits for
it is ready no later. So some list gives a schedule that ends soonest of all.
"""

from __future__ import annotations

import heapq
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from solver.cp_sat import cp_model
from solver.plan.work import Predecessor, Step
from solver.work.critical_path import (
    Clock,
    earliest_starts,
    latest_ends,
    shortest_durations,
    within_a_day,
)

EFFORT = 1.5
"""Deterministic limit of the search, so that a schedule repeats."""
BACKSTOP = 20.0
"""Wall-clock limit [s]."""
LISTS_TRIED, LISTS_MOST = 600_000, 200
"""Lists that are tried before CP-SAT: the first figure over the square of the number of steps,
at most the second."""


def solve(steps: Sequence[Step], people: int, clock: Clock) -> tuple[ListSchedule, int]:
    """Return the schedule that ends soonest, and the proven least end [min].

    The list with the most urgent step first is tried, then random lists. A schedule as short as
    the bound is the shortest. Otherwise CP-SAT starts from the best list, within its limits, and
    its answer is moved forward by list scheduling in the order of its starts.
    """
    least = shortest_durations(steps, people)
    begun = earliest_starts(steps, least, clock)
    chain = max((begun[step.key] + least[step.key] for step in steps), default=0)
    urgent = latest_ends(steps, least, clock, chain)
    first = list_schedule(_priority_list(steps, urgent), people, clock)
    bound = least_finish(steps, people, clock, first.finish)
    if first.finish > bound:
        first = _random_lists(steps, people, clock, urgent, first, bound)
    if first.finish <= bound:
        return first, bound
    return _by_cp_sat(steps, people, clock, first, bound)


def _random_lists(
    steps: Sequence[Step],
    people: int,
    clock: Clock,
    urgent: dict[str, int],
    best: ListSchedule,
    bound: int,
) -> ListSchedule:
    """Try random lists near the best so far and near the most urgent first; the seed is fixed."""
    draw = random.Random(0)  # noqa: S311 - to shuffle, not to hide
    lists = min(LISTS_MOST, max(8, LISTS_TRIED // len(steps) ** 2))
    for number in range(lists):
        base = best.start if number % 2 else urgent
        spread = clock.day // (1 + number % 4)
        order = _priority_list(
            steps, {key: at + draw.randrange(spread) for key, at in base.items()}
        )
        listed = list_schedule(order, people, clock)
        if listed.finish < best.finish:
            best = listed
        if best.finish <= bound:
            break
    return best


def _priority_list(steps: Sequence[Step], urgency: dict[str, int]) -> list[Step]:
    """Return the steps most urgent first, none before what it waits for."""
    left = {step.key: len(step.after) for step in steps}
    next_of: dict[str, list[Step]] = {step.key: [] for step in steps}
    for step in steps:
        for after in step.after:
            next_of[after.step].append(step)
    rank = {step.key: at for at, step in enumerate(steps)}
    by_key = {step.key: step for step in steps}
    ready = [(urgency[key], rank[key], key) for key, count in left.items() if not count]
    heapq.heapify(ready)
    order = []
    while ready:
        _, _, key = heapq.heappop(ready)
        order.append(by_key[key])
        for step in next_of[key]:
            left[step.key] -= 1
            if not left[step.key]:
                heapq.heappush(ready, (urgency[step.key], rank[step.key], step.key))
    return order


def _by_cp_sat(
    steps: Sequence[Step], people: int, clock: Clock, first: ListSchedule, bound: int
) -> tuple[ListSchedule, int]:
    model = build_model(steps, people, clock)
    for key, variable in model.start.items():
        model.cp.add_hint(variable, first.start[key])
        model.cp.add_hint(model.end[key], first.end[key])
    model.cp.add(model.finish <= first.finish)
    model.cp.add(model.finish >= bound)
    model.cp.minimize(model.finish)
    solver = _run_cp_sat(model)
    if solver is None:
        return first, bound
    start = {key: solver.value(variable) for key, variable in model.start.items()}
    minutes = {key: solver.value(variable) - start[key] for key, variable in model.end.items()}
    answer = list_schedule(_priority_list(steps, start), people, clock, minutes)
    return answer, max(bound, round(solver.best_objective_bound))


def _run_cp_sat(model: Model) -> cp_model.CpSolver | None:
    """Search; None where the limit came before any answer."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = EFFORT
    solver.parameters.max_time_in_seconds = BACKSTOP
    status = solver.solve(model.cp)
    return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


@dataclass
class ListSchedule:
    """A schedule: starts and ends of the steps placed so far, and when people are taken [min]."""

    start: dict[str, int] = field(default_factory=dict)
    end: dict[str, int] = field(default_factory=dict)
    taken: list[tuple[int, int, int]] = field(default_factory=list)

    @property
    def finish(self) -> int:
        """End of the last step [min]."""
        return max(self.end.values(), default=0)


def list_schedule(
    order: Sequence[Step], people: int, clock: Clock, minutes: Mapping[str, int] | None = None
) -> ListSchedule:
    """Place the steps in the order given, each after what it waits for.

    Parameters
    ----------
    minutes
        How long each step takes; a shared step that takes less than one person would need takes
        everybody. Left out, a step is shared where it ends sooner so [min].
    """
    schedule = ListSchedule()
    for step in order:
        ready = max(
            (clock.ready(schedule.end[one.step], one.wait) for one in step.after), default=0
        )
        ways = {step.minutes, step.minutes_for(people)} if minutes is None else {minutes[step.key]}
        slots = [_earliest_slot(schedule, step, way, ready, people, clock) for way in sorted(ways)]
        begin, end = min(slots, key=lambda one: (one[1], -one[0]))
        schedule.start[step.key], schedule.end[step.key] = begin, end
        schedule.taken.append((begin, end, people_needed(step, end - begin, people)))
    return schedule


def people_needed(step: Step, minutes: int, people: int) -> int:
    """Return how many people a step takes that lasts `minutes` [-]."""
    return people if minutes < step.minutes else min(step.people, people)


def _earliest_slot(
    schedule: ListSchedule, step: Step, minutes: int, ready: int, people: int, clock: Clock
) -> tuple[int, int]:
    """Return the earliest start, and the end, at which enough people are free throughout [min]."""
    free = people - people_needed(step, minutes, people)
    begin = within_a_day(ready, step, minutes, clock)
    while True:
        busy = _busy_until(schedule, begin, begin + minutes, free)
        if busy is None:
            return begin, begin + minutes
        begin = within_a_day(busy, step, minutes, clock)


def _busy_until(schedule: ListSchedule, begin: int, end: int, free: int) -> int | None:
    """Return until when too many people are busy in a span; None where they never are [min]."""
    moments = [begin, *(one for one, _, _ in schedule.taken if begin < one < end)]
    for moment in sorted(moments):
        now = [(last, count) for first, last, count in schedule.taken if first <= moment < last]
        if sum(count for _, count in now) > free:
            return min(last for last, _ in now)
    return None


def least_finish(steps: Sequence[Step], people: int, clock: Clock, most: int) -> int:
    """Return a proven lower bound of the end of the last step; `most` is a known end [min].

    For any end, each step has an earliest start and a latest end. Where the steps that must be done
    between two times are more work than people have minutes, that end is refuted. A later end only
    gives more time, so the least end that is not refuted is found by bisection.
    """
    least = shortest_durations(steps, people)
    begun = earliest_starts(steps, least, clock)
    low = max((begun[step.key] + least[step.key] for step in steps), default=0)
    work = {step.key: step.minutes * min(step.people, people) for step in steps}
    high = max(low, most)
    while low < high:
        middle = (low + high) // 2
        ends = latest_ends(steps, least, clock, middle)
        if _overloaded(begun, ends, work, people):
            low = middle + 1
        else:
            high = middle
    return low


def _overloaded(
    begun: Mapping[str, int], ends: Mapping[str, int], work: Mapping[str, int], people: int
) -> bool:
    """Whether more work must be done within some span of time than people have minutes in it."""
    by_end = sorted(ends, key=lambda key: ends[key])
    for first in sorted(set(begun.values())):
        together = 0
        for key in by_end:
            if begun[key] >= first:
                together += work[key]
                if together > people * (ends[key] - first):
                    return True
    return False


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


def build_model(steps: Sequence[Step], people: int, clock: Clock) -> Model:
    """Make the model: precedence with waits, a cumulative constraint on people, nights.

    A step that wants more people than there are takes all of them; one that can be shared is
    done by one person, or by all of them in less time.
    """
    cp = cp_model.CpModel()
    horizon = one_by_one(steps, clock)
    soonest = earliest_starts(steps, shortest_durations(steps, people), clock)
    start = {step.key: cp.new_int_var(soonest[step.key], horizon, step.key) for step in steps}
    end = {step.key: cp.new_int_var(0, horizon, f"{step.key} done") for step in steps}
    finish = cp.new_int_var(0, horizon, "finish")
    model = Model(cp, start, end, finish, horizon)
    taken: list[tuple[cp_model.IntervalVar, int]] = []
    for step in steps:
        taken += _intervals_of(model, step, people)
        cp.add(finish >= end[step.key])
        for after in step.after:
            _precedence(model, step, after, clock)
        if step.in_one_go and step.minutes <= clock.day:
            _within_a_day(model, step, clock)
    cp.add_cumulative([one for one, _ in taken], [count for _, count in taken], people)
    return model


def one_by_one(steps: Sequence[Step], clock: Clock) -> int:
    """End of the last step where the steps are done one after the other: an upper bound [min]."""
    at: dict[str, int] = {}
    now = 0
    for step in steps:
        ready = [clock.ready(at[after.step], after.wait) for after in step.after]
        begin = within_a_day(max([now, *ready]), step, step.minutes, clock)
        now = at[step.key] = begin + step.minutes
    return now


def _intervals_of(model: Model, step: Step, people: int) -> list[tuple[cp_model.IntervalVar, int]]:
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
        interval = cp.new_optional_fixed_size_interval_var(
            begin, minutes, chosen, f"{step.key} by {count}"
        )
        intervals.append((interval, count))
    return intervals


def _precedence(model: Model, step: Step, after: Predecessor, clock: Clock) -> None:
    begin = model.start[step.key]
    if not after.wait:
        model.cp.add(begin >= model.end[after.step])
        return
    day, minute = _end_by_day(model, after.step, clock)
    table = [clock.ready(into, after.wait) for into in range(clock.day + 1)]
    ready = model.cp.new_int_var(min(table), max(table), f"{after.step} and {after.wait}")
    model.cp.add_element(minute, table, ready)
    model.cp.add(begin >= day * clock.day + ready)


def _end_by_day(model: Model, key: str, clock: Clock) -> tuple[cp_model.IntVar, cp_model.IntVar]:
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
