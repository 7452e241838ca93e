"""Proof that nothing cheaper will do: stronger bounds, then every cheaper choice refuted.

The stronger bounds are rows from conservative scales (dual feasible functions), mixed so that
turning a part does not pay.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

from solver.cutting.bounds import Row, bound, longest, pairs, row_of
from solver.cutting.goals import cheaper
from solver.cutting.layout import Layout, rules_of
from solver.cutting.padded import Padded
from solver.cutting.patterns import cut
from solver.cutting.scales import LEAST_GAIN, WHOLE, Pair, Scales, Values
from solver.cutting.search import Search
from solver.outcome import Limits

if TYPE_CHECKING:
    from solver.cutting.refute import Refuter

CELLS_MOST = 4_000_000
"""Largest knapsack's table; longer lists go without these rows [-]."""

STARTS = 12
"""Different starts tried for one mix [-]."""

AGAIN = 3
"""How often all starts are tried where parts may turn [-]."""

STALE_MOST = 6
"""Starts in a row that may bring nothing [-]."""

SHARES = 10_000
"""Weights of a mix are whole numbers of 1/SHARES."""


def tighter(padded: Padded, work: float, enough: Callable[[Row], bool]) -> list[Row]:
    """Return rows that ask for more and more boards, until one is `enough` or `work` is spent.

    Parameters
    ----------
    work
        Cells of tables that may be filled [-].
    enough
        Whether a row asks for all that could be hoped for.
    """
    scales = Scales(padded)
    if sum(side.line.cells for side in scales.sides) > CELLS_MOST:
        return []
    counts = _evenly(padded)
    found: list[Pair] = []
    rows: list[Row] = []
    top, stale = 0.0, 0
    starts = list(_starts(padded))
    rounds = len(starts) * (1 if _fixed(padded) else AGAIN)
    for tried in range(rounds):
        if scales.work > work:
            break
        held, axis = starts[tried % len(starts)]
        pair = scales.better(counts, held, axis)
        if not pair.top or pair in found:
            continue
        mirror = _mirrored(padded, pair)
        found += [pair, *mirror]
        row, against = _mixed(padded, found)
        if not mirror:
            counts = _between(counts, against, 1 / (tried + 2))
        asked = row.need / max(row.capacity) if max(row.capacity) else 0.0
        stale = 0 if asked > top * (1 + LEAST_GAIN) else stale + 1
        if asked > top:
            top = asked
            rows.append(row)
        if stale > STALE_MOST or (rows and enough(rows[-1])):
            break
    return rows[-2:]


def _mirrored(padded: Padded, pair: Pair) -> list[Pair]:
    """Return the pair with its scales exchanged, where boards and parts look alike both ways."""
    square = all(board.length == board.width for board in padded.boards)
    free = all(len(kind.lies) == 2 or kind.lies[0][0] == kind.lies[0][1] for kind in padded.kinds)
    if not (square and free) or _fixed(padded):
        return []
    return [Pair(tuple(own[::-1] for own in pair.worth), pair.capacity)]


def _between(one: Values, other: Values, share: float) -> Values:
    """Go a share of the way from one to the other, so that rounds do not swing."""
    return [
        [a + (b - a) * share for a, b in zip(own, by, strict=True)]
        for own, by in zip(one, other, strict=True)
    ]


def _fixed(padded: Padded) -> bool:
    return all(len(kind.lies) == 1 for kind in padded.kinds)


def _evenly(padded: Padded) -> Values:
    """Every kind lies as often one way as the other."""
    return [[kind.count / len(kind.lies)] * len(kind.lies) for kind in padded.kinds]


def _starts(padded: Padded) -> Iterator[tuple[Values, int]]:
    """Yield values to hold first, and the direction to better: from the best known functions."""
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


def _mixed(padded: Padded, found: Sequence[Pair]) -> tuple[Row, Values]:
    """Return the row of the best mix, and how many of each kind lie each way against it."""
    if _fixed(padded):
        best = max(found, key=lambda pair: _row(padded, [pair], [1]).need / pair.top)
        return _row(padded, [best], [1]), _evenly(padded)
    program: Any = pywraplp.Solver.CreateSolver("GLOP")
    program.SuppressOutput()
    endless = program.infinity()
    shares = [program.NumVar(0, 1, "") for _ in found]
    program.Add(sum(shares) == 1)
    belows = []
    program.Objective().SetMaximization()
    for i, kind in enumerate(padded.kinds):
        least = program.NumVar(0, endless, "")
        program.Objective().SetCoefficient(least, kind.count)
        for way in range(len(kind.lies)):
            below = program.Constraint(-endless, 0)
            below.SetCoefficient(least, 1)
            for share, pair in zip(shares, found, strict=True):
                below.SetCoefficient(share, -pair.worth[i][way] / pair.top)
            belows.append(below)
    if program.Solve() != pywraplp.Solver.OPTIMAL:
        return _row(padded, found[-1:], [1]), _evenly(padded)
    weights = [int(share.solution_value() * SHARES) for share in shares]
    prices = iter([max(0.0, below.dual_value()) for below in belows])
    counts = [[next(prices) for _ in kind.lies] for kind in padded.kinds]
    return _row(padded, found, weights), counts


def _row(padded: Padded, found: Sequence[Pair], weights: Sequence[int]) -> Row:
    """Mix pairs, each brought to about the same capacity, in whole numbers."""
    used = [
        (pair, weight * WHOLE * WHOLE // pair.top)
        for pair, weight in zip(found, weights, strict=True)
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


CELLS = 5 * 10**8
"""Cells of tables that the rows may fill for each unit of work [-]."""

STEPS = 4 * 10**9
"""Steps that searches for patterns may take for each unit of work [-]."""

KINDS_MOST = 250
"""Most kinds for which choices are refuted: beyond it one program takes too long [-]."""


def prove(search: Search, limits: Limits, work: float) -> None:
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


def _tighten(search: Search, work: float) -> None:
    """Raise the bounds by rows of conservative scales."""
    from solver.cutting.prove import tighter  # loads the compiler

    padded, score = search.padded, search.score
    assert score is not None

    def enough(row: Row) -> bool:
        return bound(padded, [*search.rows, row]) >= score[:2]

    search.rows += tighter(padded, CELLS * work, enough)
    _raise(search, *bound(padded, search.rows))


def _raise(search: Search, cost: int, count: int) -> None:
    search.cost_bound = max(search.cost_bound, cost)
    search.count_bound = max(search.count_bound, count)


def _refute(search: Search, limits: Limits, work: float) -> None:
    """Refute the cheapest choices one after the other, or all choices cheaper than the best.

    A choice that turns out to do is offered to the search.
    """
    from solver.cutting.refute import Refuter, patterns_for  # loads the compiler

    padded = search.padded
    steps = int(STEPS * work)
    refuter = Refuter(padded, patterns_for(padded, search.rows, steps), _seen(search))
    if len(padded.boards) == 1:
        cost = padded.boards[0].cost
        while search.goes_on(limits) and refuter.refuted({0: search.count_bound}, limits):
            _raise(search, (search.count_bound + 1) * cost, search.count_bound + 1)
        _offer(search, refuter)
        return
    while search.goes_on(limits):
        goals, complete = cheaper(search)
        counts = [Counter(padded.boards.index(board) for board in boards) for boards in goals]
        if complete and all(refuter.refuted(goal, limits) for goal in counts):
            search.settle()
        elif not _offer(search, refuter):
            return


def _offer(search: Search, refuter: Refuter) -> bool:
    """Offer what the refuter filled instead; return whether it was better."""
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
        root = cut(refuter.patterns, board, held)
        if root is None:
            return False
        sheet = layout.open(padded.boards[board])
        sheet.root, sheet.pieces = root, sum(held)
        sheet.used = sum(n * kind.area for n, kind in zip(held, padded.kinds, strict=True))
    return search.offer(layout)


def _seen(search: Search) -> list[tuple[int, tuple[int, ...]]]:
    """Return the patterns of the best answer, with their boards."""
    assert search.best is not None
    found = []
    for sheet in search.best.sheets:
        held = Counter(piece.kind for piece in sheet.root.pieces())
        board = search.padded.boards.index(sheet.board)
        found.append((board, tuple(held[kind] for kind in range(len(search.padded.kinds)))))
    return found
