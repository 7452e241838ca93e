"""The problem as the search sees it: kinds of identical parts, and no kerf.

Adding kerf and margin to both sides of every part, and one kerf to both sides of the
trimmed sheet, turns cutting with a kerf into cutting without one. For edge-to-edge cuts
this is exact: n parts in a row take n - 1 kerfs between them, and n padded parts fit a
padded room exactly when the parts and their n - 1 kerfs fit the room.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from math import gcd
from typing import Protocol

from solver.cutting.cutting_problem import CuttingProblem, FirstCut, Stages, StickProblem


class Stocked(Protocol):
    """The fields that sheets and sticks have in common."""

    @property
    def price(self) -> Decimal | None:
        """Price of one."""

    @property
    def on_hand(self) -> int:
        """How many are there [-]."""

    @property
    def limit(self) -> int | None:
        """How many may be bought [-]."""


@dataclass(frozen=True)
class Kind:
    """Identical parts.

    Attributes
    ----------
    lies
        The ways it may lie: (along the sheet, across it, turned), padded [tick, tick, -].
    ids
        The parts of this kind; their number is the demand.
    area
        Padded area [tick2].
    """

    lies: tuple[tuple[int, int, bool], ...]
    ids: tuple[str, ...]
    area: int

    @property
    def count(self) -> int:
        """How many are wanted [-]."""
        return len(self.ids)


@dataclass(frozen=True)
class Board:
    """One size of sheet, trimmed and padded; a stick is a board one tick wide.

    Attributes
    ----------
    length, width
        Padded room [tick].
    cost
        What one costs, in cents, or square ticks where prices are missing; 0 on hand.
    most
        How many there are; None is any number [-].
    source
        Index of the sheet or stick in the problem.
    free
        True for sheets on hand.
    """

    length: int
    width: int
    cost: int
    most: int | None
    source: int
    free: bool

    @property
    def area(self) -> int:
        """Padded area [tick2]."""
        return self.length * self.width


@dataclass(frozen=True)
class PaddedProblem:
    """Kinds and boards of one problem."""

    kinds: tuple[Kind, ...]
    boards: tuple[Board, ...]
    stages: Stages
    trimming: bool
    first_cut: FirstCut
    priced: bool

    @cached_property
    def least(self) -> tuple[int, int]:
        """Smallest extents of any part along and across the sheet [tick]."""
        lies = [lie for kind in self.kinds for lie in kind.lies]
        return min(a for a, _, _ in lies), min(b for _, b, _ in lies)

    @cached_property
    def largest(self) -> int:
        """Area of the largest board [tick2]."""
        return max(board.area for board in self.boards)

    @cached_property
    def demand(self) -> list[int]:
        """How many of each kind are wanted [-]."""
        return [kind.count for kind in self.kinds]

    @property
    def part_count(self) -> int:
        """How many parts there are [-]."""
        return sum(self.demand)


def pad(problem: CuttingProblem) -> PaddedProblem:
    """Group the parts into kinds and make the boards; parts must fit some board."""
    boards = _boards(problem)
    extra = problem.kerf + problem.margin
    groups: dict[tuple[int, int, bool], list[str]] = defaultdict(list)
    for part in problem.parts:
        turns = part.may_turn and part.length != part.width
        groups[part.length + extra, part.width + extra, turns].append(part.id)
    kinds = [
        Kind(lies=_lies(a, b, turns, boards), ids=tuple(ids), area=a * b)
        for (a, b, turns), ids in groups.items()
    ]
    kinds.sort(key=lambda kind: (-kind.area, kind.lies, kind.ids))
    priced = all_priced(problem.sheets)
    return PaddedProblem(
        tuple(kinds), boards, problem.stages, problem.trimming, problem.first_cut, priced
    )


def pad_sticks(problem: StickProblem) -> PaddedProblem:
    """Take sticks as sheets one tick wide: each piece and each stick gets one kerf longer.

    Each piece gets the margin too, so that a stick has at least that left for each.
    """
    lengths = [stick.length for stick in problem.sticks]
    rooms = [(length + problem.kerf, 1) for length in lengths]
    boards = stock_boards(problem.sticks, rooms, lengths)
    groups: dict[int, list[str]] = defaultdict(list)
    for piece in problem.pieces:
        groups[piece.length + problem.margin + problem.kerf].append(piece.id)
    kinds = [
        Kind(lies=((length, 1, False),), ids=tuple(ids), area=length)
        for length, ids in sorted(groups.items(), reverse=True)
    ]
    return PaddedProblem(tuple(kinds), boards, "any", True, "crosscut", all_priced(problem.sticks))


def room(problem: CuttingProblem, size: int) -> int:
    """Padded room of a sheet's side of `size`: trimmed at both edges, one kerf more [tick]."""
    return size - 2 * problem.edge_trim + problem.kerf


def _boards(problem: CuttingProblem) -> tuple[Board, ...]:
    """Return boards with their padded rooms; a sheet without any room is left out."""
    rooms = [(room(problem, s.length), room(problem, s.width)) for s in problem.sheets]
    areas = [sheet.length * sheet.width for sheet in problem.sheets]
    return stock_boards(problem.sheets, rooms, areas)


def stock_boards(
    stock: Sequence[Stocked], rooms: list[tuple[int, int]], areas: list[int]
) -> tuple[Board, ...]:
    """Return boards on hand first, smallest first, since they cost nothing; then those to buy.

    Where any price of what may be bought is missing, all cost their areas instead.
    """
    priced = all_priced(stock)
    unit = gcd(*areas) or 1
    boards = []
    for index, (one, (length, width)) in enumerate(zip(stock, rooms, strict=True)):
        if length <= 0 or width <= 0:
            continue
        if one.on_hand:
            boards.append(Board(length, width, 0, one.on_hand, index, free=True))
        if one.limit != 0:
            cost = (
                int(one.price * 100) if one.price is not None and priced else areas[index] // unit
            )
            boards.append(Board(length, width, cost, one.limit, index, free=False))
    return tuple(sorted(boards, key=lambda b: (not b.free, b.area if b.free else 0, b.source)))


def alike_priced(stock: Sequence[Stocked]) -> bool:
    """True where all that may be bought has a price, or none of it."""
    return len({one.price is None for one in stock if one.limit != 0}) <= 1


def all_priced(stock: Sequence[Stocked]) -> bool:
    """True where everything that may be bought has a price."""
    return all(one.price is not None for one in stock if one.limit != 0)


def _lies(
    a: int, b: int, turns: bool, boards: tuple[Board, ...]
) -> tuple[tuple[int, int, bool], ...]:
    """Return the ways to lie that some board has room for; all of them where none has."""
    lies = ((a, b, False), (b, a, True)) if turns else ((a, b, False),)
    fitting = tuple(
        lie for lie in lies if any(lie[0] <= s.length and lie[1] <= s.width for s in boards)
    )
    return fitting or lies
