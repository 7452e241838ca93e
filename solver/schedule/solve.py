"""Searching for the schedule that ends soonest."""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model

from solver.schedule.listed import Listed, by_list
from solver.schedule.model import Model, made
from solver.steps.network import Clock, earliest, latest, least_minutes
from solver.work import Step

EFFORT = 10.0
"""Deterministic limit of the search, so that a schedule repeats."""
BACKSTOP = 30.0
"""Wall-clock limit [s]."""


def solve(steps: Sequence[Step], people: int, clock: Clock) -> tuple[Listed, int]:
    """Return the schedule that ends soonest, and the proven least end [min].

    First from a list, most urgent step first: where that is as short as the longest chain, or
    as the work of everybody, nothing can be shorter. Else by CP-SAT from there on, within the
    limits; its answer is moved forward by the list of its own starts.
    """
    least = least_minutes(steps, people)
    begun = earliest(steps, least, clock)
    chain = max((begun[step.key] + least[step.key] for step in steps), default=0)
    work = sum(step.minutes * min(step.people, people) for step in steps)
    bound = max(chain, -(-work // people))
    urgent = latest(steps, least, clock, chain)
    first = by_list(_in_order(steps, urgent), people, clock)
    if first.finish <= bound:
        return first, bound
    return _better(steps, people, clock, first, bound)


def _in_order(steps: Sequence[Step], urgency: dict[str, int]) -> list[Step]:
    """Return the steps most urgent first, none before what it waits for."""
    left, done, order = list(steps), set[str](), []
    while left:
        ready = [step for step in left if all(one.step in done for one in step.after)]
        step = min(ready, key=lambda one: urgency[one.key])
        order.append(step)
        done.add(step.key)
        left.remove(step)
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
