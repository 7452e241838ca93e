"""Searching for the schedule: soonest end first, then every step as soon as it can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from solver.errors import CasewrightError
from solver.schedule.model import Model, made
from solver.steps.network import Clock
from solver.work import Step

EFFORT = 10.0
"""Deterministic limit of each of the two searches, so that a schedule repeats."""
BACKSTOP = 30.0
"""Wall-clock limit of each [s]."""


@dataclass(frozen=True)
class Solved:
    """Starts of the steps [min], the end of the last one, and its proven least [min]."""

    start: dict[str, int]
    finish: int
    bound: int


def solve(steps: Sequence[Step], people: int, clock: Clock) -> Solved:
    """Return the schedule that ends soonest; of those one with all starts early.

    Within the limits: `bound` says what is proven.
    """
    model = made(steps, people, clock)
    model.cp.minimize(model.finish)
    solver = _run(model)
    bound = round(solver.best_objective_bound)
    finish = solver.value(model.finish)
    starts = {key: solver.value(one) for key, one in model.start.items()}
    model.cp.add(model.finish <= finish)
    for key, one in model.start.items():
        model.cp.add_hint(one, starts[key])
    model.cp.minimize(sum(model.start.values()))
    early = _run(model)
    return Solved({key: early.value(one) for key, one in model.start.items()}, finish, bound)


def _run(model: Model) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = EFFORT
    solver.parameters.max_time_in_seconds = BACKSTOP
    status = solver.solve(model.cp)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        msg = "no schedule was found by the limit"
        raise CasewrightError(msg)
    return solver
