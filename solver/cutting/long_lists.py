"""Long lists: first answers by the compiled rule, then some sheets at a time done better."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from solver.cutting.construct import ORDERS, ways
from solver.cutting.goal_search import Ladder, completed, improve
from solver.cutting.layout import Filled, Layout, rules_of
from solver.cutting.padded import Padded
from solver.cutting.search import Search
from solver.outcome import Limits

GROUP = 60
"""Sheets done better together: enough that their waste makes up a sheet or two [-]."""

LADDER: Ladder = ((3_000_000, 4), (10_000_000, 2))


def long_answers(search: Search, limits: Limits) -> None:
    """Build answers to a long list by every order and first cut, on the best answer's boards."""
    from solver.cutting.attempt import Attempt  # loads the compiler

    padded = search.padded
    for rules in reversed(ways(rules_of(padded))):
        for seed in range(len(ORDERS)):
            if search.best is None or not search.goes_on(limits):
                return
            boards = [sheet.board for sheet in search.best.sheets]
            attempt = Attempt(padded, boards, seed, rules=rules)
            attempt.run(0, 1, 1)
            found = completed(padded, attempt)
            if found is not None:
                search.offer(found)


def improve_groups(search: Search, limits: Limits, share: float) -> None:
    """Do groups of sheets better, each by itself, while that helps and there is work left.

    `share` is the share of all work that may be spent [-].
    """
    better = True
    while better and search.best is not None and search.goes_on(limits):
        groups = _groups(search.best.sheets)
        layout = Layout(search.padded, rules_of(search.padded))
        for sheets in groups:
            for sheet in _done_better(search.padded, sheets, limits, share / len(groups)):
                layout.sheets.append(sheet)
                layout.opened[sheet.board] += 1
        better = search.offer(layout)


def _groups(sheets: list[Filled]) -> list[list[Filled]]:
    """Deal the sheets out, full and empty ones alike to each group."""
    number = max(1, round(len(sheets) / GROUP))
    dealt = sorted(sheets, key=lambda sheet: -sheet.used / sheet.board.area)
    return [dealt[i::number] for i in range(number)]


def _done_better(
    padded: Padded, sheets: list[Filled], limits: Limits, share: float
) -> list[Filled]:
    """Return sheets for the parts of these sheets: the same ones, or cheaper ones."""
    layout = Layout(padded, rules_of(padded))
    layout.sheets = list(sheets)
    search = Search(_part_of(padded, sheets))
    search.offer(layout)
    search.sharpen()
    improve(search, limits, LADDER, share)
    assert search.best is not None
    boards = {(board.source, board.free): board for board in padded.boards}
    for sheet in search.best.sheets:
        sheet.board = boards[sheet.board.source, sheet.board.free]
    return search.best.sheets


def _part_of(padded: Padded, sheets: list[Filled]) -> Padded:
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
