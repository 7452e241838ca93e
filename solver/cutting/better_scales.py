"""Covering rows of several pairs of conservative scales, mixed by a linear program.

Any weighted mix of pairs of scales is valid for a board, since each of them is. A part that may
turn counts the smaller of its two mixed worths, so that turning it does not pay. The linear
program chooses the best weights for the pairs found so far; its dual prices say how many of each
kind lie either way, and the next pair is sought for these numbers. On a square board this comes to
counting every part once in each way (Clautiaux, Jouglet and El Hayek 2007).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.conservative_scales import LEAST_GAIN, WHOLE, Pair, Scales, Values
from solver.cutting.dual_feasible_bounds import Row, longest, pairs, row_of
from solver.cutting.padded_sizes import PaddedProblem

CELLS_MOST = 4_000_000
"""Largest table of a knapsack; longer lists go without these rows [-]."""

STARTS = 12
"""Different starts tried for one mix [-]."""

AGAIN = 3
"""How often all starts are tried where parts may turn [-]."""

STALE_MOST = 6
"""Starts one after the other that may improve nothing [-]."""

SHARES = 10_000
"""Weights of a mix are whole numbers of 1/SHARES."""


def mixed_scale_rows(
    padded: PaddedProblem, work: float, enough: Callable[[Row], bool]
) -> list[Row]:
    """Return rows that need more and more boards, until one is `enough` or `work` is spent.

    Parameters
    ----------
    work
        Cells of tables that may be filled [-].
    enough
        Whether a row proves all that is needed.
    """
    scales = Scales(padded)
    if sum(side.line.cells for side in scales.sides) > CELLS_MOST:
        return []
    counts = _evenly(padded)
    known: list[Pair] = []
    rows: list[Row] = []
    top, stale = 0.0, 0
    starts = list(_starts(padded))
    rounds = len(starts) * (1 if _fixed(padded) else AGAIN)
    for tried in range(rounds):
        if scales.work > work:
            break
        held, axis = starts[tried % len(starts)]
        pair = scales.better(counts, held, axis)
        if not pair.top or pair in known:
            continue
        mirror = _mirrored(padded, pair)
        known += [pair, *mirror]
        row, against = _mixed(padded, known)
        if not mirror:
            counts = _between(counts, against, 1 / (tried + 2))
        boards = row.need / max(row.capacity) if max(row.capacity) else 0.0
        stale = 0 if boards > top * (1 + LEAST_GAIN) else stale + 1
        if boards > top:
            top = boards
            rows.append(row)
        if stale > STALE_MOST or (rows and enough(rows[-1])):
            break
    return rows[-2:]


def _mirrored(padded: PaddedProblem, pair: Pair) -> list[Pair]:
    """Return the pair with its scales exchanged, where boards and parts look alike both ways."""
    square = all(board.length == board.width for board in padded.boards)
    free = all(len(kind.lies) == 2 or kind.lies[0][0] == kind.lies[0][1] for kind in padded.kinds)
    if not (square and free) or _fixed(padded):
        return []
    return [Pair(tuple(own[::-1] for own in pair.worth), pair.capacity)]


def _between(one: Values, other: Values, share: float) -> Values:
    """Go a share of the way from one to the other, so that rounds do not oscillate."""
    return [
        [a + (b - a) * share for a, b in zip(own, by, strict=True)]
        for own, by in zip(one, other, strict=True)
    ]


def _fixed(padded: PaddedProblem) -> bool:
    return all(len(kind.lies) == 1 for kind in padded.kinds)


def _evenly(padded: PaddedProblem) -> Values:
    """Return counts by which every kind lies as often one way as the other."""
    return [[kind.count / len(kind.lies)] * len(kind.lies) for kind in padded.kinds]


def _starts(padded: PaddedProblem) -> Iterator[tuple[Values, int]]:
    """Yield values to fix first, and the direction to improve, from the best dual functions."""
    sides = longest(padded)
    seen: list[tuple[Values, int]] = []
    for f, g in pairs(padded, 300):
        for axis, held in ((0, g), (1, f)):
            whole = held(sides[1 - axis])
            values = [[held(lie[1 - axis]) / whole for lie in kind.lies] for kind in padded.kinds]
            if (values, axis) in seen:
                continue
            seen.append((values, axis))
            yield values, axis
            if len(seen) == STARTS:
                return


def _mixed(padded: PaddedProblem, known: Sequence[Pair]) -> tuple[Row, Values]:
    """Return the row of the best mix, and how many of each kind lie each way against it."""
    if _fixed(padded):
        best = max(known, key=lambda pair: _row(padded, [pair], [1]).need / pair.top)
        return _row(padded, [best], [1]), _evenly(padded)
    program: Any = pywraplp.Solver.CreateSolver("GLOP")
    program.SuppressOutput()
    endless = program.infinity()
    shares = [program.NumVar(0, 1, "") for _ in known]
    program.Add(sum(shares) == 1)
    belows = []
    program.Objective().SetMaximization()
    for i, kind in enumerate(padded.kinds):
        least = program.NumVar(0, endless, "")
        program.Objective().SetCoefficient(least, kind.count)
        for way in range(len(kind.lies)):
            below = program.Constraint(-endless, 0)
            below.SetCoefficient(least, 1)
            for share, pair in zip(shares, known, strict=True):
                below.SetCoefficient(share, -pair.worth[i][way] / pair.top)
            belows.append(below)
    if program.Solve() != pywraplp.Solver.OPTIMAL:
        return _row(padded, known[-1:], [1]), _evenly(padded)
    weights = [int(share.solution_value() * SHARES) for share in shares]
    prices = iter([max(0.0, below.dual_value()) for below in belows])
    counts = [[next(prices) for _ in kind.lies] for kind in padded.kinds]
    return _row(padded, known, weights), counts


def _row(padded: PaddedProblem, pairs_mixed: Sequence[Pair], weights: Sequence[int]) -> Row:
    """Mix pairs, each scaled to about the same capacity, in whole numbers."""
    used = [
        (pair, weight * WHOLE * WHOLE // pair.top)
        for pair, weight in zip(pairs_mixed, weights, strict=True)
        if weight
    ]
    sizes = [
        min(
            sum(weight * pair.worth[i][way] for pair, weight in used)
            for way in range(len(kind.lies))
        )
        for i, kind in enumerate(padded.kinds)
    ]
    capacity = [
        sum(weight * pair.capacity[board] for pair, weight in used)
        for board in range(len(padded.boards))
    ]
    return row_of(padded, sizes, capacity)
