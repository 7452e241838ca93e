"""Proof that nothing cheaper suffices: stronger bounds, then every cheaper choice refuted."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from solver.cutting.cut_tree import Layout, rules_of
from solver.cutting.dual_feasible_bounds import Row, lower_bounds
from solver.cutting.goals import cheaper_choices
from solver.cutting.pricing_problem import sheet_of_parts
from solver.cutting.search_state import SearchState
from solver.outcome import Limits

if TYPE_CHECKING:
    from solver.cutting.refute import Refuter

CELLS = 5 * 10**8
"""Cells of tables that the search for covering rows may fill for each unit of work [-]."""

STEPS = 4 * 10**9
"""Steps that searches for patterns may take for each unit of work [-]."""

KINDS_MOST = 250
"""Most kinds for which choices are refuted: with more, one program takes too long [-]."""


def prove(search: SearchState, limits: Limits, work: float) -> None:
    """Raise the bounds as far as they go, up to the best answer.

    Parameters
    ----------
    work
        Deterministic work allowed [CP-SAT units].
    """
    if search.score is None or limits.over:
        return
    _tighten(search, work)
    if search.goes_on(limits) and len(search.padded.kinds) <= KINDS_MOST:
        _refute(search, limits, work)


def _tighten(search: SearchState, work: float) -> None:
    """Raise the bounds by rows of conservative scales."""
    from solver.cutting.better_scales import mixed_scale_rows

    padded, score = search.padded, search.score
    assert score is not None

    def enough(row: Row) -> bool:
        return lower_bounds(padded, [*search.rows, row]) >= score[:2]

    search.rows += mixed_scale_rows(padded, CELLS * work, enough)
    _raise(search, *lower_bounds(padded, search.rows))


def _raise(search: SearchState, cost: int, count: int) -> None:
    search.cost_bound = max(search.cost_bound, cost)
    search.count_bound = max(search.count_bound, count)


def _refute(search: SearchState, limits: Limits, work: float) -> None:
    """Refute the cheapest choices one after the other, or all choices cheaper than the best.

    A choice that turns out to suffice is offered to the search.
    """
    from solver.cutting.refute import Refuter, patterns_for  # loads the compiler

    padded = search.padded
    steps = int(STEPS * work)
    refuter = Refuter(padded, patterns_for(padded, search.rows, steps), _patterns_of_best(search))
    if len(padded.boards) == 1:
        cost = padded.boards[0].cost
        while search.goes_on(limits) and refuter.refuted({0: search.count_bound}, limits):
            _raise(search, (search.count_bound + 1) * cost, search.count_bound + 1)
        _offer(search, refuter)
        return
    while search.goes_on(limits):
        goals, complete = cheaper_choices(search)
        counts = [Counter(padded.boards.index(board) for board in boards) for boards in goals]
        if complete and all(refuter.refuted(goal, limits) for goal in counts):
            search.settle()
        elif not _offer(search, refuter):
            return


def _offer(search: SearchState, refuter: Refuter) -> bool:
    """Offer the patterns that the refuter filled boards with; return whether that was better."""
    padded = search.padded
    if refuter.filled is None or (padded.stages == "2" and not padded.trimming):
        return False  # its strips hold pieces that are trimmed to width
    layout = Layout(padded, rules_of(padded))
    left = list(padded.demand)
    for board, counts in refuter.filled:
        held = tuple(min(n, wanted) for n, wanted in zip(counts, left, strict=True))
        left = [wanted - n for n, wanted in zip(held, left, strict=True)]
        if not any(held):
            continue
        root = sheet_of_parts(refuter.patterns, board, held)
        if root is None:
            return False
        sheet = layout.open(padded.boards[board])
        sheet.root, sheet.pieces = root, sum(held)
        sheet.used = sum(n * kind.area for n, kind in zip(held, padded.kinds, strict=True))
    return search.offer(layout)


def _patterns_of_best(search: SearchState) -> list[tuple[int, tuple[int, ...]]]:
    """Return the patterns of the best answer, with their boards."""
    assert search.best is not None
    patterns = []
    for sheet in search.best.sheets:
        held = Counter(piece.kind for piece in sheet.root.pieces())
        board = search.padded.boards.index(sheet.board)
        patterns.append((board, tuple(held[kind] for kind in range(len(search.padded.kinds)))))
    return patterns
