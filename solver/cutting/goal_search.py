"""The search for a cheaper answer: which boards to try, how hard, and in what groups of sheets.

Long lists get first answers by the compiled rule; then groups of sheets are improved, each
group as a problem of its own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import chain, repeat
from typing import TYPE_CHECKING, TypeAlias

from solver.cutting.constructive_cutting import (
    ORDERS,
    build_layout,
    rule_variants,
    sorted_kinds,
    stock_orders,
)
from solver.cutting.cut_tree import CROSSCUT, FilledSheet, Layout, Rules, rules_of
from solver.cutting.goals import cheaper_choices
from solver.cutting.padded_sizes import Board, PaddedProblem
from solver.cutting.search_state import SearchState
from solver.outcome import Limits

if TYPE_CHECKING:
    from solver.cutting.ruin_and_recreate import Attempt, Lying

TRIES = 25_000_000
"""Places tried by each search for each unit of work: about a quarter of a second [-]."""
CHUNK = 2_000_000
"""Places tried between two looks at the clock [-]."""
SIDE_BY_SIDE = 2
"""Searches from different seeds that run at once, on any machine: the answer must not depend on
its number of cores [-]."""
TIDY_RACES = 2
"""Races by each stricter rule for an answer that is easier to cut [-]."""
LEAP = 4
"""Gap in sheets from which half of it is tried at once [-]."""

Ladder: TypeAlias = tuple[tuple[int, int], ...]
"""Steps of (places tried, choices of boards): first many choices with little work each, then few
with much."""
QUICK: Ladder = ((1_000_000, 40), (4_000_000, 10))
HARD: Ladder = ((25_000_000, 4), (100_000_000, 2), (400_000_000, 1))


def improve(search: SearchState, limits: Limits, ladder: Ladder, share: float) -> None:
    """Look for a cheaper answer, while there is a gap and work left.

    Parameters
    ----------
    ladder
        How hard each choice of boards is tried; its last step is repeated.
    share
        Share of all work that may be spent [-].
    """
    left, seed = int(TRIES * limits.work * share), limits.seed
    while search.best is not None and search.goes_on(limits) and left > 0:
        goals = [*_leap(search), *cheaper_choices(search)[0]]
        better = False
        for boards, tries in _steps(goals, ladder, left):
            layout, spent = race(search.padded, boards, tries, seed, limits)
            left, seed = left - spent, seed + SIDE_BY_SIDE
            better = layout is not None and search.offer(layout)
            if better or limits.over:
                break
        if not better:
            return


def _leap(search: SearchState) -> list[list[Board]]:
    """Return a choice half way to the bound, where one size is bought and the gap is wide."""
    bought = [board for board in search.padded.boards if not board.free]
    assert search.score is not None
    gap = search.score[1] - search.count_bound
    if len(bought) > 1 or gap < LEAP:
        return []
    free = [b for b in search.padded.boards if b.free for _ in range(b.most or 0)]
    return [[*free, *bought * (search.score[1] - gap // 2)]]


def rescue(search: SearchState, limits: Limits) -> None:
    """Look for a first answer on all of the stock, where the constructive rules ran out of it."""
    padded = search.padded
    boards = [
        board
        for board in padded.boards
        for _ in range(min(padded.part_count, board.most or padded.part_count))
    ]
    layout, _ = race(padded, boards, int(TRIES * limits.work), limits.seed, limits)
    if layout is not None:
        search.offer(layout)


def _steps(
    goals: Sequence[Sequence[Board]], ladder: Ladder, left: int
) -> Iterator[tuple[Sequence[Board], int]]:
    """Yield choices of boards and how many places to try for each, until `left` are spent."""
    for tries, many in chain(ladder, repeat(ladder[-1])):
        for boards in goals[:many]:
            yield boards, min(tries, left)
            left -= tries
            if left <= 0:
                return
        if not goals:
            return


def _lying(padded: PaddedProblem, seed: int) -> tuple[Lying, Lying]:
    """Return how the searches of one race lay parts that may turn; it differs from race to race."""
    if all(len(kind.lies) == 1 for kind in padded.kinds):
        return "any", "any"
    lyings: tuple[tuple[Lying, Lying], ...] = (
        ("any", "along"),
        ("any", "any"),
        ("any", "across"),
    )
    return lyings[seed // SIDE_BY_SIDE % len(lyings)]


def tidy(search: SearchState, limits: Limits, share: float) -> None:
    """Look for answers of the same price that are easier to cut, by stricter rules first.

    `share` is the share of all work that may be spent [-].
    """
    padded = search.padded
    rules = [*reversed(rule_variants(rules_of(padded)))]
    if len(rules_of(padded).roots) > 1:
        rules.insert(0, replace(rules[0], roots=(CROSSCUT,)))
    tries = int(TRIES * limits.work * share) // (TIDY_RACES * len(rules))
    for turn in range(TIDY_RACES):
        for stricter in rules:
            if search.best is None or limits.over:
                return
            boards = [sheet.board for sheet in search.best.sheets]
            seed = limits.seed + SIDE_BY_SIDE * turn
            layout, _ = race(padded, boards, tries, seed, limits, stricter)
            if layout is not None:
                search.offer(layout)


def race(
    padded: PaddedProblem,
    boards: Sequence[Board],
    tries: int,
    seed: int,
    limits: Limits,
    rules: Rules | None = None,
) -> tuple[Layout | None, int]:
    """Search from several seeds at once; return the first layout by seed, and the places tried.

    Where none holds all parts, what is left over goes on more sheets, if there are any.
    All searches stop after the same number of places, so the answer repeats.
    """
    from solver.cutting.ruin_and_recreate import Attempt

    lying = _lying(padded, seed)
    attempts = [Attempt(padded, boards, seed + i, lying[i], rules) for i in range(SIDE_BY_SIDE)]
    done = [0] * SIDE_BY_SIDE

    def go_on(i: int) -> None:
        end = min(tries, done[i] + CHUNK)
        done[i] += attempts[i].run(done[i], end - done[i], tries)

    with ThreadPoolExecutor(SIDE_BY_SIDE) as pool:
        while not any(a.solved for a in attempts) and min(done) < tries and not limits.over:
            list(pool.map(go_on, range(SIDE_BY_SIDE)))
    solved = [attempt for attempt in attempts if attempt.solved]
    best = solved[0] if solved else min(attempts, key=lambda a: len(a.left))
    return completed(padded, best), max(done)


def completed(padded: PaddedProblem, attempt: Attempt) -> Layout | None:
    """Return the layout, with the parts left over on further sheets; None where stock runs out."""
    demand = Counter(attempt.left)
    order = [kind for kind in sorted_kinds(padded, ORDERS[0]) if demand[kind]]
    layouts = (
        build_layout(padded, rules_of(padded), order, stock, demand, attempt.layout())
        for stock in stock_orders(padded)
    )
    return next((layout for layout in layouts if isinstance(layout, Layout)), None)


GROUP = 60
"""Sheets improved together: enough that their waste makes up a sheet or two [-]."""

LADDER: Ladder = ((3_000_000, 4), (10_000_000, 2))


def long_answers(search: SearchState, limits: Limits) -> None:
    """Offer answers to a long list by every order and first cut, on the best answer's boards."""
    from solver.cutting.ruin_and_recreate import Attempt

    padded = search.padded
    for rules in reversed(rule_variants(rules_of(padded))):
        for seed in range(len(ORDERS)):
            if search.best is None or not search.goes_on(limits):
                return
            boards = [sheet.board for sheet in search.best.sheets]
            attempt = Attempt(padded, boards, seed, rules=rules)
            attempt.run(0, 1, 1)
            layout = completed(padded, attempt)
            if layout is not None:
                search.offer(layout)


def improve_groups(search: SearchState, limits: Limits, share: float) -> None:
    """Improve groups of sheets, each by itself, while that helps and there is work left.

    `share` is the share of all work that may be spent [-].
    """
    better = True
    while better and search.best is not None and search.goes_on(limits):
        groups = _groups(search.best.sheets)
        layout = Layout(search.padded, rules_of(search.padded))
        for sheets in groups:
            for sheet in _improved(search.padded, sheets, limits, share / len(groups)):
                layout.sheets.append(sheet)
                layout.opened[sheet.board] += 1
        better = search.offer(layout)


def _groups(sheets: list[FilledSheet]) -> list[list[FilledSheet]]:
    """Deal the sheets out, full and empty ones alike to each group."""
    number = max(1, round(len(sheets) / GROUP))
    dealt = sorted(sheets, key=lambda sheet: -sheet.used / sheet.board.area)
    return [dealt[i::number] for i in range(number)]


def _improved(
    padded: PaddedProblem, sheets: list[FilledSheet], limits: Limits, share: float
) -> list[FilledSheet]:
    """Return sheets for the parts of these sheets: the same ones, or cheaper ones."""
    layout = Layout(padded, rules_of(padded))
    layout.sheets = list(sheets)
    search = SearchState(_part_of(padded, sheets))
    search.offer(layout)
    search.sharpen()
    improve(search, limits, LADDER, share)
    assert search.best is not None
    boards = {(board.source, board.free): board for board in padded.boards}
    for sheet in search.best.sheets:
        sheet.board = boards[sheet.board.source, sheet.board.free]
    return search.best.sheets


def _part_of(padded: PaddedProblem, sheets: list[FilledSheet]) -> PaddedProblem:
    """Return the problem of the parts and boards of these sheets; kinds keep their places."""
    held = Counter(piece.kind for sheet in sheets for piece in sheet.root.pieces())
    boards = Counter(sheet.board for sheet in sheets)
    kinds = (replace(k, ids=k.ids[: held[i]]) for i, k in enumerate(padded.kinds))
    return replace(
        padded,
        kinds=tuple(kinds),
        boards=tuple(
            replace(b, most=boards[b] if b.most is not None else None)
            for b in padded.boards
            if boards[b] or b.most is None
        ),
    )
