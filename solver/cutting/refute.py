"""Refuting a choice of boards: no patterns that the shop can cut give all parts from them.

The linear program over patterns (:mod:`solver.cutting.sheet_master`) leaves the least area of parts
uncut. Its dual prices are made whole numbers. If no pattern of a board is worth more at these
than a limit, and the limits of all boards together are less than all parts are worth, the
choice is refuted, in whole numbers, whatever the program's tolerances (Farley's bound). The
limits share out what the program left uncut, so a pattern must be clearly worth more than
its board to count; patterns hold no more parts than there are.

Where the program leaves nothing uncut, the choice is branched on: one board is told from
its like as the one that holds the largest part not yet assigned, and what it holds of each
kind is halved, until each half is refuted or the boards are filled.

`StripPatterns` finds two-stage patterns: strips in one direction or the other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from solver.cutting.cut_tree import CROSSCUT, RIP, Node
from solver.cutting.dual_feasible_bounds import Row
from solver.cutting.padded_sizes import PaddedProblem
from solver.cutting.pricing_problem import (
    Block,
    PatternResult,
    Patterns,
    joined,
    pattern_worth_more,
    piece,
    shares_and_orders,
    sheet_tree,
)
from solver.cutting.sheet_master import Counts, Group, PatternProgram
from solver.cutting.strip_knapsack import Whole, best_strips, in_units
from solver.outcome import Limits

ROUNDS_MOST = 400
"""Patterns that are added to one program at most [-]."""

NODES_MOST = 300
"""Nodes of the search tree of one choice at most [-]."""

NEAR = 1e-6
"""Uses of patterns that are nearer than this to a whole number count as whole [-]."""

SOLVE, CELL = 300_000, 100
"""Work of solving a program, in steps: for each time, and for each cell of its table [-]."""


def patterns_for(padded: PaddedProblem, rows: Sequence[Row], steps: int) -> Patterns[Any]:
    """Return the pricing problem for the stages asked for; `steps` limits its work [-]."""
    if padded.stages == "2":
        return StripPatterns(padded, rows, steps)
    from solver.cutting.block_generation import BlockPatterns

    return BlockPatterns(padded, rows, steps)


class Refuter:
    """Refutes choices of boards; patterns found for one serve the next.

    Parameters
    ----------
    patterns
        Finds patterns by their worth.
    start
        Patterns known beforehand, with their boards [-].

    Attributes
    ----------
    filled
        Patterns that give all parts from the last choice, where it was not refuted
        because of them; else None.
    """

    def __init__(
        self, padded: PaddedProblem, patterns: Patterns[Any], start: Sequence[tuple[int, Counts]]
    ) -> None:
        self.padded = padded
        self.patterns = patterns
        self.filled: list[tuple[int, Counts]] | None = None
        self._seen = dict.fromkeys(start)

    def refuted(self, boards: Mapping[int, int], limits: Limits) -> bool:
        """Return True where it is proven that so many of each board are not enough."""
        self.filled = None
        most = tuple(self.padded.demand)
        none = (0,) * len(most)
        waiting = [[Group(board, n, none, most) for board, n in boards.items() if n]]
        for _ in range(NODES_MOST):
            if not waiting:
                return True
            groups = waiting.pop()
            program = PatternProgram(self.padded, groups, self._seen)
            done = self._refuted(program, limits)
            if done is None or (not done and self._is_filled(program)):
                return False
            if not done:
                parts = _split(self.padded, program)
                if not parts:
                    return False
                waiting += parts
        return not waiting

    def _refuted(self, program: PatternProgram, limits: Limits) -> bool | None:
        """Return whether something must stay uncut, by column generation; None where not known."""
        for _ in range(ROUNDS_MOST):
            self.patterns.steps -= SOLVE + CELL * program.size
            if limits.over or self.patterns.steps <= 0:
                return None
            prices = program.prices()
            if prices.spare < 0:
                return False
            fresh = []
            for i, group in enumerate(program.groups):
                found = pattern_worth_more(
                    self.patterns, group.board, prices.values[i], prices.limits[i], group.most
                )
                if found is False:
                    return None
                if not isinstance(found, bool):
                    fresh.append((i, found))
            if not fresh:
                return True
            for i, counts in fresh:
                self._seen[program.groups[i].board, counts] = None
                program.add(i, counts)
        return None

    def _is_filled(self, program: PatternProgram) -> bool:
        """Return True where the program uses whole patterns only; keep them."""
        used = program.used()
        if any(abs(share - round(share)) > NEAR for _, _, share in used):
            return False
        self.filled = [
            (program.groups[i].board, counts)
            for i, counts, share in used
            for _ in range(round(share))
        ]
        return True


def _split(padded: PaddedProblem, program: PatternProgram) -> list[list[Group]]:
    """Branch: return choices that together allow all that the groups allow, but the answer."""
    groups = program.groups
    used = program.used()
    best, at = 0.0, (-1, -1, -1)
    for i, group in enumerate(groups):
        if group.copies > 1:
            continue
        own = [(counts, share) for j, counts, share in used if j == i]
        for kind in range(len(padded.kinds)):
            amount = sum(counts[kind] * share for counts, share in own)
            low = int(amount + NEAR)
            # How much of the kind is used beyond the whole number below.
            excess = sum(share * max(0, counts[kind] - low) for counts, share in own)
            if min(excess, 1.0) * padded.kinds[kind].area > best:
                best, at = min(excess, 1.0) * padded.kinds[kind].area, (i, kind, low)
    if at[0] >= 0:
        i, kind, low = at
        halves = (groups[i].at_most(kind, low), groups[i].at_least(kind, low + 1))
        return [[*groups[:i], half, *groups[i + 1 :]] for half in halves if half is not None]
    return _one_apart(padded, groups)


def _one_apart(padded: PaddedProblem, groups: Sequence[Group]) -> list[list[Group]]:
    """Branch on which board holds the largest part not yet assigned; it is told from its like."""
    held = [
        sum(group.least[kind] for group in groups if group.copies == 1)
        for kind in range(len(padded.kinds))
    ]
    short = [k for k, n in enumerate(padded.demand) if held[k] < n]
    alike = [i for i, group in enumerate(groups) if group.copies > 1]
    singles = [i for i, group in enumerate(groups) if group.copies == 1]
    if not short or not alike:
        return []
    kind = short[0]
    choices = []
    for i in singles:
        more = groups[i].at_least(kind, groups[i].least[kind] + 1)
        if more is not None:
            choices.append([*groups[:i], more, *groups[i + 1 :]])
    for i in alike:
        rest = [g if j in alike else g.at_most(kind, g.least[kind]) for j, g in enumerate(groups)]
        one = groups[i].alone().at_least(kind, 1)
        if one is None or any(g is None for g in rest):
            continue
        fewer = [g for g in rest if g is not None]
        fewer[i] = groups[i].fewer()
        choices.append([*fewer, one])
    return choices


CELLS_MOST = 20_000_000
"""Largest table; where it would be larger the answer is "not known" [-]."""


@dataclass(frozen=True)
class _Way:
    """Strips along one direction: pieces by falling width, in units of the divided sides."""

    kinds: Whole
    lengths: Whole
    widths: Whole
    rooms: tuple[tuple[int, int], ...]
    lies: Whole
    axis: int


class StripPatterns:
    """Finds two-stage patterns: sheets of strips."""

    def __init__(self, padded: PaddedProblem, rows: Sequence[Row], steps: int) -> None:
        self.padded, self.steps, self._rows = padded, steps, rows
        axes = {"rip": (0,), "crosscut": (1,), "either": (0, 1)}[padded.first_cut]
        self.ways: Sequence[_Way] = [_way(padded, axis) for axis in axes]

    def search(
        self, way: _Way, board: int, worth: Whole, above: int, most: Counts
    ) -> PatternResult:
        """Search the patterns of one way for one worth more than `above`."""
        demand = np.array(most, dtype=np.int64)
        room, wide = way.rooms[board]
        if len(way.kinds) * max(room, wide) > CELLS_MOST or self.steps <= 0:
            return PatternResult(-1, demand)
        shares, orders = shares_and_orders(self._rows, board, worth)
        node = len(way.kinds) + shares.size
        state, counts, nodes, pieces, opens = best_strips(
            way.kinds,
            way.lengths,
            way.widths,
            room,
            wide,
            worth,
            demand,
            shares,
            orders,
            above,
            self.steps // node,
        )
        cells = int(np.minimum(demand[way.kinds], room // np.maximum(way.lengths, 1)).sum()) * room
        self.steps -= nodes * node + cells
        return PatternResult(state, counts, lambda: self._drawn(way, board, pieces, opens))

    def _drawn(self, way: _Way, board: int, pieces: Whole, opens: NDArray[np.bool_]) -> Node | None:
        """Draw a sheet of strips; None where it only fits rounded."""
        along, across = (RIP, CROSSCUT) if way.axis == 0 else (CROSSCUT, RIP)
        strips: list[list[Block]] = []
        for number, first in zip(pieces, opens, strict=True):
            kind = int(way.kinds[number])
            block = piece(kind, self.padded.kinds[kind].lies[int(way.lies[number])])
            if first:
                strips.append([])
            strips[-1].append(block)
        sheet = joined([joined(strip, across) for strip in strips], along)
        return sheet_tree(sheet, self.padded.boards[board], along)


def _way(padded: PaddedProblem, axis: int) -> _Way:
    """Strips along `axis`."""
    boards = [(board.length, board.width) for board in padded.boards]
    along, rooms = in_units(
        [[lie[axis] for lie in k.lies] for k in padded.kinds], [b[axis] for b in boards]
    )
    across, wide = in_units(
        [[lie[1 - axis] for lie in k.lies] for k in padded.kinds], [b[1 - axis] for b in boards]
    )
    pieces = sorted(
        (
            (-across[kind][way], -along[kind][way], kind, way)
            for kind in range(len(padded.kinds))
            for way in range(len(along[kind]))
        ),
    )
    return _Way(
        kinds=np.array([kind for _, _, kind, _ in pieces], dtype=np.int64),
        lengths=np.array([-a for _, a, _, _ in pieces], dtype=np.int64),
        widths=np.array([-b for b, _, _, _ in pieces], dtype=np.int64),
        rooms=tuple(zip(rooms, wide, strict=True)),
        lies=np.array([lie for *_, lie in pieces], dtype=np.int64),
        axis=axis,
    )
