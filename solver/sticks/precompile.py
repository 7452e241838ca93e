"""Compile all loops beforehand: ``python -m solver.sticks.precompile``, once after installing.

What is not compiled beforehand is compiled where it is first needed, which then takes some
ten seconds longer; nothing else differs.
"""

from __future__ import annotations

from solver.cutting.constructive_cutting import ORDERS, StockOrder, build_layout, sorted_kinds
from solver.cutting.cut_tree import rules_of
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    Stages,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.goal_search import race
from solver.cutting.padded_sizes import pad
from solver.cutting.prove import prove
from solver.cutting.refute import Refuter, patterns_for
from solver.cutting.search_state import SearchState
from solver.outcome import Limits
from solver.sticks.solve_sticks import solve_sticks

SIZES = ((51, 26), (31, 22), (45, 13), (17, 38))
"""Parts of which eight take two sheets of 100 x 50, but not by their area [tick]."""
LENGTHS = (44, 35, 31, 27, 19)
"""Pieces for which first answers do not meet the bound, so that all loops are run [tick]."""


def warm_up() -> None:
    """Run every compiled loop once, on lists so small that only the compiling takes time."""
    limits = Limits(work=0.01)
    stages: tuple[Stages, ...] = ("2", "any")
    for stage_limit in stages:
        parts = tuple(
            CutPart(f"{i}#{n}", a, b, i % 2 == 1) for i, (a, b) in enumerate(SIZES) for n in (1, 2)
        )
        sheet = CutSheet("sheet", "ply", 100, 50, None)
        padded = pad(CuttingProblem(parts, (sheet,), kerf=1, stages=stage_limit))
        search = SearchState(padded)
        boards = StockOrder(((padded.boards[0], None),))
        search.offer(
            build_layout(padded, rules_of(padded), sorted_kinds(padded, ORDERS[0]), boards)
        )
        race(padded, [padded.boards[0]] * 2, 1000, 1, limits)
        prove(search, limits, 0.01)
        patterns = patterns_for(padded, search.rows, 1_000_000)
        Refuter(padded, patterns, []).refuted({0: 2}, limits)
    pieces = tuple(StickPart(f"{a}#{n}", a) for a in LENGTHS for n in range(9))
    solve_sticks(StickProblem(pieces, (StickStock("stick", 100, None),), kerf=1), limits)


if __name__ == "__main__":
    warm_up()
