"""The schedule that ends soonest: bounds, the CP-SAT model in minutes, and the search.

A schedule made step by step from a list: each as soon as its people are free.

Moving a step forward never delays another, since what waits is ready no later for it; so of
all schedules one made like this from some list ends soonest.
"""

from __future__ import annotations

import heapq
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from solver.cp_sat import cp_model
from solver.plan.work import After, Step
from solver.work.critical_path import Clock, earliest, fitted, latest, least_minutes


def least_finish(steps: Sequence[Step], people: int, clock: Clock, most: int) -> int:
    """Return a proven least end of the last step, at most `most`, by which it is known to go [min].

    For an end that is asked for, each step has an earliest start and a latest end. Where the
    steps that must be done between two times are more work than people have minutes, that end
    cannot be; a later end only gives more time, so the least that is not refuted is found by
    halving.
    """
    least = least_minutes(steps, people)
    begun = earliest(steps, least, clock)
    low = max((begun[step.key] + least[step.key] for step in steps), default=0)
    work = {step.key: step.minutes * min(step.people, people) for step in steps}
    high = max(low, most)
    while low < high:
        middle = (low + high) // 2
        ends = latest(steps, least, clock, middle)
        if _too_much(begun, ends, work, people):
            low = middle + 1
        else:
            high = middle
    return low


def _too_much(
    begun: Mapping[str, int], ends: Mapping[str, int], work: Mapping[str, int], people: int
) -> bool:
    """Whether some span of time has more work that must fall into it than it has minutes."""
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


EFFORT = 1.5
"""Deterministic limit of the search, so that a schedule repeats."""
BACKSTOP = 20.0
"""Wall-clock limit [s]."""
TRIES, TRIES_MOST = 600_000, 200
"""Lists that are tried before CP-SAT: the first figure over the square of the number of steps,
at most the second."""


def solve(steps: Sequence[Step], people: int, clock: Clock) -> tuple[Listed, int]:
    """Return the schedule that ends soonest, and the proven least end [min].

    First from lists, most urgent step first, then shuffled ones: where one is as short as the
    bound, nothing can be shorter. Else by CP-SAT from there on, within the limits; its answer
    is moved forward by the list of its own starts.
    """
    least = least_minutes(steps, people)
    begun = earliest(steps, least, clock)
    chain = max((begun[step.key] + least[step.key] for step in steps), default=0)
    urgent = latest(steps, least, clock, chain)
    first = by_list(_in_order(steps, urgent), people, clock)
    bound = least_finish(steps, people, clock, first.finish)
    if first.finish > bound:
        first = _shuffled(steps, people, clock, urgent, first, bound)
    if first.finish <= bound:
        return first, bound
    return _better(steps, people, clock, first, bound)


def _shuffled(
    steps: Sequence[Step],
    people: int,
    clock: Clock,
    urgent: dict[str, int],
    best: Listed,
    bound: int,
) -> Listed:
    """Try lists near the best one so far and near the most urgent first; the same each time."""
    draw = random.Random(0)  # noqa: S311 - to shuffle, not to hide
    lists = min(TRIES_MOST, max(8, TRIES // len(steps) ** 2))
    for number in range(lists):
        base = best.start if number % 2 else urgent
        spread = clock.day // (1 + number % 4)
        order = _in_order(steps, {key: at + draw.randrange(spread) for key, at in base.items()})
        made = by_list(order, people, clock)
        if made.finish < best.finish:
            best = made
        if best.finish <= bound:
            break
    return best


def _in_order(steps: Sequence[Step], urgency: dict[str, int]) -> list[Step]:
    """Return the steps most urgent first, none before what it waits for."""
    left = {step.key: len(step.after) for step in steps}
    next_of: dict[str, list[Step]] = {step.key: [] for step in steps}
    for step in steps:
        for one in step.after:
            next_of[one.step].append(step)
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


def _better(
    steps: Sequence[Step], people: int, clock: Clock, first: Listed, bound: int
) -> tuple[Listed, int]:
    model = build_model(steps, people, clock)
    for key, one in model.start.items():
        model.cp.add_hint(one, first.start[key])
        model.cp.add_hint(model.end[key], first.end[key])
    model.cp.add(model.finish <= first.finish)
    model.cp.add(model.finish >= bound)
    model.cp.minimize(model.finish)
    solver = _run(model)
    if solver is None:
        return first, bound
    start = {key: solver.value(one) for key, one in model.start.items()}
    minutes = {key: solver.value(one) - start[key] for key, one in model.end.items()}
    answer = by_list(_in_order(steps, start), people, clock, minutes)
    return answer, max(bound, round(solver.best_objective_bound))


def _run(model: Model) -> cp_model.CpSolver | None:
    """Search; None where the limit came before any answer."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = EFFORT
    solver.parameters.max_time_in_seconds = BACKSTOP
    status = solver.solve(model.cp)
    return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


@dataclass
class Listed:
    """Starts and ends of the steps that are placed, and who is taken when [min]."""

    start: dict[str, int] = field(default_factory=dict)
    end: dict[str, int] = field(default_factory=dict)
    taken: list[tuple[int, int, int]] = field(default_factory=list)

    @property
    def finish(self) -> int:
        """End of the last step [min]."""
        return max(self.end.values(), default=0)


def by_list(
    order: Sequence[Step], people: int, clock: Clock, minutes: Mapping[str, int] | None = None
) -> Listed:
    """Place the steps in the order given, each after what it waits for.

    Parameters
    ----------
    minutes
        How long each step takes; a shared step in less than one person's time takes everybody.
        Left out, a step that can be shared is, where it is done sooner by that [min].
    """
    made = Listed()
    for step in order:
        ready = max((clock.ready(made.end[one.step], one.wait) for one in step.after), default=0)
        ways = {step.minutes, step.minutes_for(people)} if minutes is None else {minutes[step.key]}
        found = [_soonest(made, step, way, ready, people, clock) for way in sorted(ways)]
        begin, end = min(found, key=lambda one: (one[1], -one[0]))
        made.start[step.key], made.end[step.key] = begin, end
        made.taken.append((begin, end, needed(step, end - begin, people)))
    return made


def needed(step: Step, minutes: int, people: int) -> int:
    """Return how many a step takes that lasts so long [-]."""
    return people if minutes < step.minutes else min(step.people, people)


def _soonest(
    made: Listed, step: Step, minutes: int, ready: int, people: int, clock: Clock
) -> tuple[int, int]:
    """Return the earliest start, and the end, at which enough people are free throughout [min]."""
    free = people - needed(step, minutes, people)
    begin = fitted(ready, step, minutes, clock)
    while True:
        busy = _until(made, begin, begin + minutes, free)
        if busy is None:
            return begin, begin + minutes
        begin = fitted(busy, step, minutes, clock)


def _until(made: Listed, begin: int, end: int, free: int) -> int | None:
    """Return until when too many are busy in a span of time; None where they never are [min]."""
    moments = [begin, *(one for one, _, _ in made.taken if begin < one < end)]
    for moment in sorted(moments):
        now = [(last, count) for first, last, count in made.taken if first <= moment < last]
        if sum(count for _, count in now) > free:
            return min(last for last, _ in now)
    return None
