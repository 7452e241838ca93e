"""The search for something cheaper: which boards to try, and how hard."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence

from solver.cutting.construct import ORDERS, Stock, build, sorted_kinds
from solver.cutting.goals import cheaper
from solver.cutting.improve import Repair, with_boards
from solver.cutting.layout import Layout, rules_of
from solver.cutting.padded import Board
from solver.cutting.search import Search
from solver.outcome import Limits

TRIALS = 200_000
"""Places tried for each unit of work [-]."""

GOALS_TRIED = 3
"""Choices of boards that are searched hard before the search gives up [-]."""

LEAST_TRIALS = 1000


def improve(search: Search, limits: Limits) -> None:
    """Try to do with less, while there is a gap and work left."""
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    left = int(TRIALS * limits.work)
    while search.best is not None and search.goes_on(limits) and left > LEAST_TRIALS:
        goals, _ = cheaper(search)
        spent, better = _quick(search, goals, left // 4, limits) if len(goals) > 1 else (0, False)
        left -= spent
        if not better:
            spent, better = _hard(search, goals[:GOALS_TRIED], left, chance, limits)
            left -= spent
        if not better:
            return


def rescue(search: Search, limits: Limits) -> None:
    """Where the first answers all ran out of stock: fit the parts on all of it, if they do."""
    padded = search.padded
    layout = Layout(padded, rules_of(padded))
    for board in padded.boards:
        for _ in range(
            min(padded.part_count, padded.part_count if board.most is None else board.most)
        ):
            layout.open(board)
    left = [kind for kind, count in enumerate(padded.demand) for _ in range(count)]
    chance = random.Random(limits.seed)  # noqa: S311  # a repeatable search, no secret
    if Repair(layout, left, chance).run(int(TRIALS * limits.work), limits):
        search.offer(layout)


def _quick(
    search: Search, goals: Sequence[Sequence[Board]], trials_most: int, limits: Limits
) -> tuple[int, bool]:
    """Build on the cheapest choices first; return the trials spent and whether one did."""
    padded, spent = search.padded, 0
    orders = [sorted_kinds(padded, key) for key in ORDERS[:3]]
    for boards in reversed(goals):
        counts = Counter(padded.boards.index(board) for board in boards)
        stock = Stock(tuple((padded.boards[i], n) for i, n in sorted(counts.items())))
        for order in orders:
            found = build(padded, rules_of(padded), order, stock)
            spent += found.trials if isinstance(found, Layout) else padded.part_count * 20
            if isinstance(found, Layout) and search.offer(found):
                return spent, True
            if spent > trials_most or limits.over:
                return spent, False
    return spent, False


def _hard(
    search: Search,
    goals: Sequence[Sequence[Board]],
    trials_most: int,
    chance: random.Random,
    limits: Limits,
) -> tuple[int, bool]:
    """Ruin and recreate on each choice, the roomiest first."""
    spent = 0
    for tried, boards in enumerate(goals):
        if limits.over or search.best is None:
            break
        layout, over = with_boards(search.best, boards)
        share = (trials_most - spent) // (len(goals) - tried)
        solved = Repair(layout, over, chance).run(share, limits)
        spent += layout.trials
        if solved and search.offer(layout):
            return spent, True
    return spent, False
