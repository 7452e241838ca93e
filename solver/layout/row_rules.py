"""What the client said of a row: places held, a series, a hero, things that stand apart.

These go before how the row looks, in that order. Where one cannot be kept, a sentence says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from solver.layout.layout_problem import LayoutProblem, ThingsHeld
from solver.layout.row_gaps import Piece


class RowRules:
    """The client's words on the row of one opening."""

    def __init__(
        self, problem: LayoutProblem, kinds: set[int], held: Sequence[ThingsHeld] = ()
    ) -> None:
        self._kinds = problem.kinds
        self._held = [
            (one.kind, one.place) for one in held if one.place is not None and one.kind in kinds
        ]
        numbers = ((kind, problem.kinds[kind].order) for kind in kinds)
        self._series = {kind: number for kind, number in numbers if number is not None}
        self._heroes = {kind for kind in kinds if problem.kinds[kind].hero}
        self._apart = {
            pair
            for kind in kinds
            for other in problem.kinds[kind].apart
            for pair in ((kind, other), (other, kind))
        }
        self.sided = bool(self._held or self._series)
        """Whether a row may be kept and its mirror image not."""
        self.any = self.sided or bool(self._heroes or self._apart)

    def missed(self, row: Sequence[Piece]) -> tuple[int, int, int, int]:
        """How far places held, series, heroes and things apart are not as they were asked [-]."""
        if not self.any:
            return 0, 0, 0, 0
        steps, near = self._steps(row), self._too_near(row)
        return len(list(self._not_held(row))), len(steps), self._off_middle(row), len(near)

    def hero_at(self, row: Sequence[Piece]) -> int | None:
        """Index of the one piece of a hero where it stands in the middle of its row."""
        heroes = [i for i, piece in enumerate(row) if piece.kind in self._heroes]
        return heroes[0] if len(heroes) == 1 and not self._off_middle(row) else None

    def mended(self, row: Sequence[Piece]) -> list[Piece]:
        """Put series in order, each on the places its things have, then kinds on places held."""
        mended = list(row)
        slots = [i for i, piece in enumerate(row) if piece.kind in self._series]
        pieces = sorted((row[i] for i in slots), key=lambda piece: self._series[piece.kind])
        for i, piece in zip(slots, pieces, strict=True):
            mended[i] = piece
        for kind, number in self._held:
            to = _covering(mended, number)
            there = [i for i, piece in enumerate(mended) if piece.kind == kind]
            if to is not None and there and mended[to].kind != kind:
                at = min(there, key=lambda i: abs(i - to))
                mended[at], mended[to] = mended[to], mended[at]
        return mended

    def sentences(self, row: Sequence[Piece]) -> Iterator[str]:
        """What could not be kept of it, in plain sentences."""
        name = [kind.name for kind in self._kinds]
        for kind, number in self._not_held(row):
            yield f"{name[kind]!r} does not stand at place {number} of its row"
        for a, b in self._steps(row):
            yield f"{name[a]!r} stands left of {name[b]!r}, which comes before it in their series"
        if self._off_middle(row):
            heroes = " and ".join(repr(name[kind]) for kind in sorted(self._heroes))
            yield f"{heroes} cannot stand in the middle of the row"
        for a, b in sorted(set(self._too_near(row))):
            two = f"two of {name[a]!r}" if a == b else f"{name[a]!r} and {name[b]!r}"
            yield f"{two} stand side by side, since there is too little to stand between them"

    def _not_held(self, row: Sequence[Piece]) -> Iterator[tuple[int, int]]:
        for kind, number in self._held:
            at = _covering(row, number)
            if at is None or row[at].kind != kind:
                yield kind, number

    def _steps(self, row: Sequence[Piece]) -> list[tuple[int, int]]:
        """Neighbours in the series that stand the wrong way round."""
        kinds = [piece.kind for piece in row if piece.kind in self._series]
        return [(a, b) for a, b in pairwise(kinds) if self._series[a] > self._series[b]]

    def _off_middle(self, row: Sequence[Piece]) -> int:
        """Half places that the heroes stand farther from the middle than they would have to."""
        count = len(row)
        ways = [abs(2 * i - count + 1) for i, piece in enumerate(row) if piece.kind in self._heroes]
        return sum(ways) - sum(sorted(abs(2 * i - count + 1) for i in range(count))[: len(ways)])

    def _too_near(self, row: Sequence[Piece]) -> list[tuple[int, int]]:
        pairs = ((min(a.kind, b.kind), max(a.kind, b.kind)) for a, b in pairwise(row))
        return [pair for pair in pairs if pair in self._apart]


def _covering(row: Sequence[Piece], number: int) -> int | None:
    """Index of the piece that covers a place number, counted from 1 at the left."""
    before = 0
    for i, piece in enumerate(row):
        before += len(piece.places)
        if before >= number:
            return i
    return None
