"""Whole sheets or sticks chosen out of those that were seen, so that all parts are covered."""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model

from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.outcome import Limits


def choose(
    padded: Padded,
    columns: Sequence[Column],
    limits: Limits,
    work: float,
    less_than: tuple[int, int] | None = None,
) -> list[Column] | None:
    """Choose columns that cover the demand at least cost, then with the fewest sheets.

    Parameters
    ----------
    work
        Deterministic work allowed [CP-SAT units].
    less_than
        (cost, bought sheets) that the choice must improve on.

    Returns
    -------
    list[Column] | None
        The columns, each as often as it is used; None where none is found.
    """
    model = cp_model.CpModel()
    demand = padded.demand
    use = [
        model.new_int_var(0, _most(padded, column), f"use[{i}]") for i, column in enumerate(columns)
    ]
    for kind, wanted in enumerate(demand):
        model.add(sum(u * c[1][kind] for u, c in zip(use, columns, strict=True)) >= wanted)
    for index, board in enumerate(padded.boards):
        if board.most is not None:
            own = [u for u, c in zip(use, columns, strict=True) if c[0] == index]
            model.add(sum(own) <= board.most)
    bought = [(u, padded.boards[c[0]]) for u, c in zip(use, columns, strict=True)]
    costs = sum(u * board.cost for u, board in bought)
    number = sum(u for u, board in bought if not board.free)
    weight = padded.part_count + 1
    total = costs * weight + number
    if less_than is not None:
        model.add(total <= less_than[0] * weight + less_than[1] - 1)
    model.minimize(total)
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = limits.seed
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = work
    solver.parameters.max_time_in_seconds = max(0.01, limits.seconds_left)
    key = limits.stopper.register(solver.stop_search)
    status = solver.solve(model)
    limits.stopper.forget(key)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return [c for u, c in zip(use, columns, strict=True) for _ in range(solver.value(u))]


def _most(padded: Padded, column: Column) -> int:
    """How often a column can be of use: until it alone covers what it holds."""
    enough = max(
        -(-wanted // count) for wanted, count in zip(padded.demand, column[1], strict=True) if count
    )
    most = padded.boards[column[0]].most
    return enough if most is None else min(enough, most)
