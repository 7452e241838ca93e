"""Searching for the schedule that ends soonest."""

from __future__ import annotations

import heapq
import random
from collections.abc import Sequence

from solver.cp_sat import cp_model
from solver.schedule.bound import least_finish
from solver.schedule.listed import Listed, by_list
from solver.schedule.model import Model, made
from solver.steps.network import Clock, earliest, latest, least_minutes
from solver.work import Step

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
    model = made(steps, people, clock)
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
