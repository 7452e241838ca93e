"""Among equally cheap answers, the one that is least work and leaves the largest offcut.

Equal lengths are cut with one setting of the stop, so each stick is picked up once for each
length on it. Pieces are moved and exchanged between sticks while that makes fewer pick-ups,
or else leaves a larger single offcut, or else larger offcuts rather than many small ones.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

from solver.cutting.master import Column
from solver.cutting.padded import Padded
from solver.outcome import Limits

TRIES = 10_000
"""Moves and exchanges looked at for each unit of work [-]."""
STICKS_MOST = 40
"""Longest list of sticks that is tidied: beyond a shop's, nobody asks [-]."""

Worth: TypeAlias = tuple[int, int, int]
"""Pick-ups; largest offcut and sum of all offcuts' squares, both negative: less is better."""


@dataclass(frozen=True)
class Bar:
    """One stick: its room, and how many of each kind it holds; kinds that it lacks are left out."""

    board: int
    room: int
    held: tuple[tuple[int, int], ...]

    def changed(self, gives: tuple[int, int], gets: tuple[int, int], lengths: Sequence[int]) -> Bar:
        """Return the stick with (kind, number) given away and got; its room may be negative."""
        held = dict(self.held)
        held[gives[0]] = held.get(gives[0], 0) - gives[1]
        held[gets[0]] = held.get(gets[0], 0) + gets[1]
        room = self.room + gives[1] * lengths[gives[0]] - gets[1] * lengths[gets[0]]
        kept = tuple(sorted((kind, n) for kind, n in held.items() if n))
        return Bar(self.board, room, kept)


def tidied(padded: Padded, columns: Sequence[Column], limits: Limits) -> list[Column]:
    """Return an answer of the same price with fewer pick-ups and a larger offcut, if one is near.

    Parameters
    ----------
    columns
        The sticks that are cut; none is added.
    """
    lengths = [kind.lies[0][0] for kind in padded.kinds]
    bars = [_bar(padded, column, lengths) for column in columns]
    left = int(TRIES * limits.work) if len(bars) <= STICKS_MOST else 0
    found = True
    while found and left > 0 and not limits.over:
        found = False
        for a, b in combinations(range(len(bars)), 2):
            worth = _worth(bars)
            for one, other in _exchanges(bars[a], bars[b], lengths):
                left -= 1
                if _better(bars, (a, one), (b, other), worth):
                    bars[a], bars[b] = one, other
                    found = True
                    break
            if left <= 0:
                break
    return [_column(padded, bar) for bar in bars if bar.held]


def _bar(padded: Padded, column: Column, lengths: Sequence[int]) -> Bar:
    board, counts = column
    used = sum(n * length for n, length in zip(counts, lengths, strict=True))
    held = tuple((kind, n) for kind, n in enumerate(counts) if n)
    return Bar(board, padded.boards[board].length - used, held)


def _column(padded: Padded, bar: Bar) -> Column:
    held = dict(bar.held)
    return bar.board, tuple(held.get(kind, 0) for kind in range(len(padded.kinds)))


def _worth(bars: Sequence[Bar]) -> Worth:
    return (
        sum(len(bar.held) for bar in bars),
        -max((bar.room for bar in bars), default=0),
        -sum(bar.room**2 for bar in bars),
    )


def _better(bars: Sequence[Bar], one: tuple[int, Bar], other: tuple[int, Bar], than: Worth) -> bool:
    """True where both sticks have room, and all together are worth more."""
    if min(one[1].room, other[1].room) < 0:
        return False
    was = len(bars[one[0]].held) + len(bars[other[0]].held)
    if len(one[1].held) + len(other[1].held) > was:
        return False
    changed = dict((one, other))
    return _worth([changed.get(i, bar) for i, bar in enumerate(bars)]) < than


def _exchanges(one: Bar, other: Bar, lengths: Sequence[int]) -> Iterator[tuple[Bar, Bar]]:
    """Yield both sticks after each move of alike pieces, and each exchange of two kinds."""
    for gives in _lots(one):
        for gets in _lots(other):
            if gives[0] != gets[0] and (gives[1] or gets[1]):
                yield one.changed(gives, gets, lengths), other.changed(gets, gives, lengths)


def _lots(bar: Bar) -> list[tuple[int, int]]:
    """Nothing, or any number of one kind: (kind, number)."""
    return [(-1, 0), *((kind, n) for kind, most in bar.held for n in range(1, most + 1))]
