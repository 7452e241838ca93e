"""Proof that nothing cheaper will do, for short lists: every cheaper choice of boards refuted.

What is refuted is more than cutting: that the parts can lie on the boards at all without
overlap, edge to edge or not. So the proof holds for every `stages` and `first_cut`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ortools.sat.python import cp_model

from solver.cutting.bounds import Row, bound
from solver.cutting.goals import cheaper
from solver.cutting.padded import Board, Padded
from solver.cutting.search import Search
from solver.outcome import Limits

PARTS_MOST = 24
"""Longest list that a proof is tried for; beyond it the model stalls [-]."""
GOALS_MOST = 3
BOARDS_MOST = 3
CONFLICTS = 12_500
"""Conflicts allowed for each unit of work: propagation in two dimensions hardly counts as
deterministic time (0.05 units took 19 s), and slows down as conflicts mount up."""

CELLS = 10**9
"""Cells of tables that the rows may fill for each unit of work [-]."""


def prove(search: Search, limits: Limits, work: float) -> None:
    """Raise the bounds to the best answer where every cheaper choice is refuted.

    Parameters
    ----------
    work
        Deterministic work allowed for each choice [CP-SAT units].
    """
    if search.score is None:
        return
    _tighten(search, work)
    if search.done or search.padded.part_count > PARTS_MOST:
        return
    goals, complete = cheaper(search)
    few = len(goals) <= GOALS_MOST and all(len(boards) <= BOARDS_MOST for boards in goals)
    if complete and few and all(_refuted(search.padded, g, limits, work) for g in goals):
        search.settle()


def _tighten(search: Search, work: float) -> None:
    """Raise the bounds by rows of conservative scales."""
    from solver.cutting.tighter import tighter  # loads the compiler

    padded, score = search.padded, search.score
    assert score is not None

    def enough(row: Row) -> bool:
        return bound(padded, [*search.rows, row]) >= score[:2]

    search.rows += tighter(padded, CELLS * work, enough)
    cost, count = bound(padded, search.rows)
    search.cost_bound = max(search.cost_bound, cost)
    search.count_bound = max(search.count_bound, count)


def _refuted(padded: Padded, boards: Sequence[Board], limits: Limits, work: float) -> bool:
    """True where it is proven that the parts cannot lie on these boards."""
    if limits.over:
        return False
    model = cp_model.CpModel()
    lying: list[list[tuple[cp_model.IntervalVar, cp_model.IntervalVar]]] = [[] for _ in boards]
    areas: list[list[cp_model.LinearExprT]] = [[] for _ in boards]
    for kind, count in enumerate(padded.demand):
        chosen = [_part(model, padded, kind, number, boards, lying) for number in range(count)]
        for on in chosen:
            for at, here in enumerate(on):
                areas[at].append(padded.kinds[kind].area * sum(here))
        _in_order(model, chosen)
    for board, rects, sizes in zip(boards, lying, areas, strict=True):
        model.add_no_overlap_2d([x for x, _ in rects], [y for _, y in rects])
        model.add(sum(sizes) <= board.area)
    return _solve(model, limits, work) == cp_model.INFEASIBLE


def _part(
    model: cp_model.CpModel,
    padded: Padded,
    kind: int,
    number: int,
    boards: Sequence[Board],
    lying: list[list[tuple[cp_model.IntervalVar, cp_model.IntervalVar]]],
) -> list[list[cp_model.IntVar]]:
    """Add one part: on exactly one board, in one of its ways to lie; return those choices."""
    choices: list[list[cp_model.IntVar]] = []
    for at, board in enumerate(boards):
        here = []
        for way, (a, b, _) in enumerate(padded.kinds[kind].lies):
            if a > board.length or b > board.width:
                continue
            name = f"kind={kind},part={number},board={at},way={way}"
            is_here = model.new_bool_var(f"lies[{name}]")
            x = model.new_int_var(0, board.length - a, f"x[{name}]")
            y = model.new_int_var(0, board.width - b, f"y[{name}]")
            lying[at].append(
                (
                    model.new_optional_fixed_size_interval_var(x, a, is_here, f"along[{name}]"),
                    model.new_optional_fixed_size_interval_var(y, b, is_here, f"across[{name}]"),
                )
            )
            here.append(is_here)
        choices.append(here)
    model.add_exactly_one(choice for here in choices for choice in here)
    return choices


def _in_order(model: cp_model.CpModel, chosen: list[list[list[cp_model.IntVar]]]) -> None:
    """Alike parts take their boards in order, since it does not matter which is which."""
    numbers = [sum(at * sum(here) for at, here in enumerate(on)) for on in chosen]
    for one, other in pairwise(numbers):
        model.add(one <= other)


def _solve(model: cp_model.CpModel, limits: Limits, work: float) -> cp_model.CpSolverStatus:
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = limits.seed
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = work
    solver.parameters.max_number_of_conflicts = int(CONFLICTS * work)
    solver.parameters.max_time_in_seconds = max(0.01, limits.seconds_left)
    key = limits.stopper.register(solver.stop_search)
    try:
        return solver.solve(model)
    finally:
        limits.stopper.forget(key)
