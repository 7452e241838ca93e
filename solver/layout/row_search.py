"""The best order of a row: mirrored halves by rule, then exchanges; up to six, every order.

What is ordered are units: a piece, or a whole kind where kinds stand whole. Units that look alike
are one number, so that no two orders tried are the same row.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from solver.layout.composition_score import CompositionScore, score
from solver.layout.row_gaps import Piece, RowSpace, spaced
from solver.layout.row_rules import RowRules
from solver.units import Ticks

EVERY = 6
"""Up to so many units every order is tried [-]."""
EFFORT = 1_200
"""Pieces that are stood up in exchanges, at most [-]: some 5 ms."""

Unit = tuple[Piece, ...]
Order = tuple[int, ...]
"""Numbers of units, from left to right."""
Key = tuple[tuple[int, ...], Ticks, CompositionScore, int, int]


@dataclass(frozen=True)
class RowSearch:
    """Orders of units compared.

    Attributes
    ----------
    space, rules
        What the row stands in, and what the client said of it.
    units
        One of each look.
    hinge
        -1 where the case hangs on its left side, 1 on its right, 0 where it does not [-].
    whole
        Whether kinds stand whole: what is left of a mirror image then comes after the tallest in
        the middle.
    """

    space: RowSpace
    rules: RowRules
    units: tuple[Unit, ...]
    hinge: int = 0
    whole: bool = False

    def row(self, order: Order) -> list[Piece]:
        """Return the pieces of an order."""
        return [piece for unit in order for piece in self.units[unit]]

    def key(self, order: Order) -> Key | None:
        """What orders are compared by, less is better; None where it is too wide."""
        row = self.row(order)
        if not self.space.takes(row):
            return None
        edges = spaced(self.space, row, self.rules.hero_at(row))
        looks = score(self.space.width, row, edges)
        missed, first = self.rules.missed(row), looks.rises if self.whole else 0
        return missed, first, looks, self._lean(row, edges), self._reach(row, edges)

    def best(self, starts: Sequence[Order]) -> Order:
        """Return the best order found; the last start where none is narrow enough."""
        if len(starts[-1]) <= EVERY:
            return self._of_all(starts[-1])
        keyed = [(key, start) for start in starts if (key := self.key(start)) is not None]
        if not keyed:
            return starts[-1]
        key, order = min(keyed)
        return order if self._perfect(key, order) else self._improved(key, order)

    def _perfect(self, key: Key, order: Order) -> bool:
        """Whether a row is a mirror image that falls from the middle in as few blocks as can be."""
        row, looks = self.row(order), key[2]
        if any(key[0]) or any(piece.family is not None for piece in row):
            return False
        least = 2 * len({piece.kind for piece in row}) - 1
        return looks <= CompositionScore(0, 0, least, 0)

    def _of_all(self, start: Order) -> Order:
        turn = not self.rules.sided and not self.hinge
        orders = (o for o in sorted(set(permutations(start))) if not turn or o <= o[::-1])
        keyed = ((key, order) for order in orders if (key := self.key(order)) is not None)
        return min(keyed, default=(None, start))[1]

    def _improved(self, best: Key, order: Order) -> Order:
        """Take the first exchange that is better, again and again, while effort is left."""
        tried, effort = {order}, 0
        beside = self._beside(order)
        while effort < EFFORT and (other := next(beside, None)) is not None:
            if other not in tried:
                tried.add(other)
                effort += len(other)
                key = self.key(other)
                if key is not None and key < best:
                    best, order, beside = key, other, self._beside(other)
        return order

    def _beside(self, order: Order) -> Iterator[Order]:
        """Orders one exchange away: two mirrored pairs, two units, one unit moved."""
        for change in (_pairs, _two, _one):
            for other in change(order):
                mended = self.mended(other)
                if mended != order:
                    yield mended

    def mended(self, order: Order) -> Order:
        """Return an order with series and places held as far as can be by moving units."""
        if not self.rules.sided:
            return order
        firsts = {id(unit[0]): number for number, unit in enumerate(self.units)}
        return tuple(firsts[id(p)] for p in self.rules.mended([self.units[u][0] for u in order]))

    def _lean(self, row: Sequence[Piece], edges: Sequence[int]) -> int:
        """Mass times its way from the hinge's side, without what does not change."""
        if not self.hinge:
            return 0
        pairs = zip(row, edges, strict=True)
        return -self.hinge * sum(piece.mass * (edge + piece.width) for piece, edge in pairs)

    def _reach(self, row: Sequence[Piece], edges: Sequence[int]) -> int:
        """Heights times their way from the middle: of rows alike the tall stand nearest to it."""
        middle = self.space.width
        pairs = zip(row, edges, strict=True)
        return sum(p.height * abs(edge + p.width - middle) for p, edge in pairs)


def halves(
    units: Sequence[Unit], order: Order, outside: Callable[[Unit], tuple[int, ...]]
) -> Order:
    """Mirrored pairs, those that come first by `outside` at the ends, the last odd one amid.

    Other odd ones are paired by what comes next to them.
    """

    def by(unit: int) -> tuple[int, ...]:
        return *outside(units[unit]), unit

    counts = Counter(order)
    pairs = [(unit, unit) for unit, count in counts.items() for _ in range(count // 2)]
    odd = sorted((unit for unit, count in counts.items() if count % 2), key=by)
    amid = [odd.pop()] if len(odd) % 2 else []
    pairs += zip(odd[::2], odd[1::2], strict=True)
    pairs.sort(key=lambda pair: by(pair[1]))
    return (*(a for a, _ in pairs), *amid, *(b for _, b in reversed(pairs)))


def wholes(units: Sequence[Unit], order: Order) -> Order:
    """Kinds side by side, the tallest in the middle, the others on the narrower side so far."""
    kinds: dict[int, list[int]] = {}
    for unit in sorted(order, key=lambda u: (-units[u][0].height, u)):
        kinds.setdefault(units[unit][0].kind, []).append(unit)
    blocks = sorted(kinds.values(), key=lambda block: (-units[block[0]][0].height, block[0]))
    sides: tuple[list[list[int]], list[list[int]]] = ([], [])
    for block in blocks[1:]:
        taken = [sum(p.width for b in side for u in b for p in units[u]) for side in sides]
        sides[taken[1] < taken[0]].append(block)
    return tuple(u for block in (*reversed(sides[0]), blocks[0], *sides[1]) for u in block)


def _pairs(order: Order) -> Iterator[Order]:
    half = len(order) // 2
    for i in range(half):
        for j in range(i + 1, half):
            row = list(order)
            row[i], row[j], row[~i], row[~j] = row[j], row[i], row[~j], row[~i]
            yield tuple(row)


def _two(order: Order) -> Iterator[Order]:
    for i in range(len(order)):
        for j in range(i + 1, len(order)):
            if order[i] != order[j]:
                yield (*order[:i], order[j], *order[i + 1 : j], order[i], *order[j + 1 :])


def _one(order: Order) -> Iterator[Order]:
    for i in range(len(order)):
        rest = order[:i] + order[i + 1 :]
        for j in range(len(order)):
            if j != i:
                yield (*rest[:j], order[i], *rest[j:])
