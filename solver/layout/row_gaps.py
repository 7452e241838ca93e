"""The gaps of a row: between kinds twice those within, the ends as between kinds.

A row of one kind has all gaps alike, ends too, lest a sparse one huddle in the middle; so has a row
where a kind's own gaps would otherwise differ.

A row fills its shelf's width, each gap at least what it has to be. One thing in the middle stands
truly there, and the gaps on both its sides are shared out by themselves. Positions are found in
half ticks, so that a row and its mirror image stand exactly alike; where they end up as whole
ticks, blocks start on whole sixteenths of an inch, or millimetres, as room allows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from operator import ge

from solver.layout.composition_score import Front
from solver.layout.layout_problem import Place
from solver.units import Grams, Ticks

STRETCH = 2
"""How much wider gaps on one side of the middle may be, lest a thing near it be centred [-]."""
NEAR = 2
"""How much wider one of two that answer each other may be to stand at mirrored places [-]."""


@dataclass(frozen=True, slots=True)
class Piece(Front):
    """What stands as one in a row: a place, or places of a kind without gaps between them.

    Pieces of one `look` (kind, forms and things) are each other's mirror image; `gap` is the
    kind's own [tick].
    """

    look: int
    gap: Ticks
    mass: Grams
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class RowSpace:
    """What a row has to stand in: widths and least gaps [tick].

    `run` is the most that things and the least gaps between them may take, `step` what blocks
    start on whole multiples of.
    """

    width: Ticks
    margin: Ticks
    gap: Ticks
    run: Ticks
    step: Ticks

    def between(self, a: Piece, b: Piece) -> Ticks:
        """Least gap between two neighbours [tick]."""
        return a.gap if a.kind == b.kind else self.gap

    def takes(self, row: Sequence[Piece]) -> bool:
        """Whether a row can stand in it with its least gaps."""
        gaps = sum([self.between(a, b) for a, b in pairwise(row)])
        return sum([piece.width for piece in row]) + gaps <= self.run

    def keeps(self, row: Sequence[Piece], edges: Sequence[Ticks]) -> bool:
        """Whether a row with these left edges [tick] has its least gaps and its margins."""
        if not row:
            return True
        ends = [edge + piece.width for edge, piece in zip(edges, row, strict=True)]
        apart = (b - a for a, b in zip(ends, edges[1:], strict=False))
        within = self.margin <= edges[0] and ends[-1] <= self.width - self.margin
        needs = (self.between(a, b) for a, b in pairwise(row))
        return within and self.takes(row) and all(map(ge, apart, needs))


def spaced(space: RowSpace, row: Sequence[Piece], hero: int | None = None) -> list[int]:
    """Left edges of the pieces of a row [1/2 tick].

    A piece and the one that answers it on the other side take as much width each, where their
    widths are near each other and there is room, so that they stand at mirrored places. `hero` is
    the index of the one piece that is to be centred; without it the middle one of an odd number
    is, or one that stands across the middle and is centred at little cost.
    """
    least, weights = _least(space, row)
    wide = [piece.width for piece in row]
    slots = [b if a < b <= NEAR * a else a for a, b in zip(wide, reversed(wide), strict=True)]
    if 2 * sum(slots) + sum(least) > 2 * space.width:
        slots = wide
    count = len(row)
    middle = hero if hero is not None else count // 2 if count % 2 else None
    free = 2 * (space.width - sum(slots))
    if middle is None:
        gaps = _level(least, weights, free, count // 2)
        middle = _across(space.width, slots, gaps, weights)
    if middle is not None:
        after = middle + 1
        left = _left_room(space.width, slots, middle)
        left = max(min(left, free - sum(least[after:])), sum(least[:after]))
        gaps = _level(least[:after], weights[:after], left, 0)
        gaps += _level(least[after:], weights[after:], free - left, -1)
    edges, x = [], 0
    for gap, slot, own in zip(gaps, slots, wide, strict=False):
        edges.append(x + gap + slot - own)
        x += gap + 2 * slot
    return edges


def settled(space: RowSpace, row: Sequence[Piece], halves: Sequence[int]) -> list[Ticks]:
    """Left edges in whole ticks: a mirror image stays one, blocks start on whole steps [tick]."""
    count, looks = len(row), [piece.look for piece in row]
    edges = [half // 2 for half in halves]
    alike = looks == looks[::-1] and all(
        halves[i] + halves[~i] + 2 * row[i].width == 2 * space.width for i in range(count)
    )
    start = 0
    for _, block in groupby(range(count), key=lambda i: row[i].kind):
        indices = list(block)
        start, end = indices[0], indices[-1]
        over_middle = halves[start] < space.width < halves[end] + 2 * row[end].width
        if not over_middle and not (alike and 2 * start >= count):
            shift = _shift(space, row, edges, (start, end))
            for i in indices:
                edges[i] += shift
    if alike:
        for i in range(count // 2):
            edges[~i] = space.width - edges[i] - row[i].width
    return edges


def _least(space: RowSpace, row: Sequence[Piece]) -> tuple[list[int], list[int]]:
    """Least gaps [1/2 tick] and weights [-], both ends included."""
    least, weights, between, count = [2 * space.margin], [2], 2 * space.gap, len(row)
    for a, b in pairwise(row):
        within = a.kind == b.kind
        least.append(2 * a.gap if within else between)
        weights.append(1 if within and a.gap else 2)
    if 1 in weights:
        # beside a true pair a gap is as wide as the one that answers it
        same = [a.look == b.look for a, b in zip(row, reversed(row), strict=True)]
        pairs = [max(weights[i], weights[count - i]) for i in range(1, count)]
        for i, weight in enumerate(pairs, start=1):
            if same[i - 1] or same[i]:
                weights[i] = weight
    weights.append(2)
    return [*least, 2 * space.margin], [1] * len(weights) if _uneven(row, weights) else weights


def _uneven(row: Sequence[Piece], weights: Sequence[int]) -> bool:
    """Whether a kind's own gaps would differ from each other, or, where it is alone, the ends'."""
    if len({piece.kind for piece in row}) == 1:
        return True
    within: dict[int, set[int]] = {}
    for (a, b), weight in zip(pairwise(row), weights[1:], strict=False):
        if a.kind == b.kind:
            within.setdefault(a.kind, set()).add(weight)
    return any(len(some) > 1 for some in within.values())


def _left_room(width: Ticks, slots: Sequence[Ticks], middle: int) -> int:
    """Free width to the left of a slot that is centred [1/2 tick]."""
    return width - slots[middle] - 2 * sum(slots[:middle])


def _across(
    width: Ticks, slots: Sequence[Ticks], gaps: Sequence[int], weights: Sequence[int]
) -> int | None:
    """The slot across the middle, where the gaps on both sides bear its being centred."""
    x = 0
    for i, slot in enumerate(slots):
        x += gaps[i] + 2 * slot
        if x > width:
            left = _left_room(width, slots, i)
            units = left * sum(weights[i + 1 :]), (sum(gaps) - left) * sum(weights[: i + 1])
            across = x - 2 * slot < width
            return i if across and max(units) <= STRETCH * min(units) else None
    return None


def _level(least: Sequence[int], weights: Sequence[int], room: int, rest: int) -> list[int]:
    """Share `room` by weight, none below its least; gap `rest` takes what does not divide."""
    left, total = room, sum(weights)
    gaps, open_ = list(least), list(range(len(least)))
    while short := [i for i in open_ if least[i] * total > weights[i] * left]:
        left -= sum(least[i] for i in short)
        total -= sum(weights[i] for i in short)
        open_ = [i for i in open_ if i not in short]
    for i in open_:
        gaps[i] = weights[i] * left // total
    gaps[rest] += room - sum(gaps)
    return gaps


def _shift(
    space: RowSpace, row: Sequence[Piece], edges: Sequence[Ticks], ends: tuple[int, int]
) -> Ticks:
    """How far to move a block to start on a whole step, nearest first; 0 without room [tick]."""
    start, end = ends
    over = edges[start] % space.step
    before = space.margin
    if start:
        a = row[start - 1]
        before = edges[start - 1] + a.width + space.between(a, row[start])
    after = space.width - space.margin
    if end + 1 < len(row):
        after = edges[end + 1] - space.between(row[end], row[end + 1])
    for shift in sorted((-over, space.step - over if over else 0), key=abs):
        if edges[start] + shift >= before and edges[end] + row[end].width + shift <= after:
            return shift
    return 0
