"""Where a part goes best, compiled: the rule of :class:`solver.cutting.cut_tree.Layout`.

The best place of each kind on each sheet is remembered until that sheet changes.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from solver.cutting.compiled import compiled
from solver.cutting.compiled_tree import (
    LENGTH,
    LEVEL,
    NODES_A_PIECE,
    NONE,
    OPEN,
    OPENS,
    PARENT,
    PIECES,
    SPARES,
    SPLIT,
    TOP,
    WIDTH,
    Ints,
    Limits2D,
    Trees,
)
from solver.cutting.cut_tree import CROSSCUT, REFUSED, RIP

Floats: TypeAlias = npt.NDArray[np.float64]
Chance: TypeAlias = npt.NDArray[np.uint64]

OPENING = 1e6
"""What it costs to open a sheet in the first step: more than any place is worth."""

LEFT, STEPS, VERSION = range(3)
"""Counts of a search: parts left over, steps so far, the last version given to a sheet."""
WASTE_AT, WAY_AT, CUT_AT = range(3)
"""A place: the waste, the way to lie, the direction of the first cut."""
NOW, BEFORE = range(2)
"""Rows: values of a sheet now, and as they were before the step."""


class Parts(NamedTuple):
    """What is placed: kinds, their ways to lie, and what they are ordered by.

    `lies` is (kind, way, (along, across, turned)) [tick, tick, -], `ways` how many of these
    hold, `areas` in largest sheets [-], `orders` (order, kind) [-].
    """

    lies: Ints
    ways: Ints
    areas: Floats
    orders: Floats


class Known(NamedTuple):
    """Best place of each kind on each sheet, and the sheet's version that it was found for.

    `version` is (now or before the step, sheet): the places on a restored sheet are still known.
    """

    score: Floats
    place: Ints
    found: Ints
    version: Ints


class State(NamedTuple):
    """One search: the sheets, a copy to go back to, and the parts left over.

    `at` holds the counts named above, `cost` the present cost, `worth` (now or before the step,
    sheet) the worth of free waste, `chance` the state of the random numbers.
    """

    trees: Trees
    saved: Trees
    known: Known
    left: Ints
    at: Ints
    cost: Floats
    worth: Floats
    chance: Chance


@compiled
def random_number(chance: Chance) -> float:
    """Return a random number in [0, 1): xorshift (Marsaglia 2003)."""
    x = chance[0]
    x ^= x << np.uint64(13)
    x ^= x >> np.uint64(7)
    x ^= x << np.uint64(17)
    chance[0] = x
    return float(x >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@compiled
def worth(length: float, width: float, level: int, limits: Limits2D) -> float:
    """What a free rectangle is worth: the square of its share of a sheet; 0 if useless [-]."""
    if length < limits.least_length or width < limits.least_width or level > limits.usable:
        return 0.0
    share = length * width * limits.share
    return share * share


@compiled
def judge(trees: Trees, s: int, waste: int, a: int, b: int, limits: Limits2D) -> tuple[int, float]:
    """Return the better direction of the first cut and the worth that it keeps."""
    nodes = trees.nodes
    length, width = float(nodes[s, LENGTH, waste]), float(nodes[s, WIDTH, waste])
    level, parent = nodes[s, LEVEL, waste], nodes[s, PARENT, waste]
    was = length * width * limits.share
    if length == a and width == b:
        return RIP if limits.first & 1 else CROSSCUT, -was * was
    free = parent != NONE or limits.first == 3
    best, direction = REFUSED, RIP
    for way in range(2):
        if parent == NONE and not (limits.first >> way) & 1:
            continue
        if free and (width == b if way == RIP else length == a):
            continue  # nothing to cut off in this direction
        first = level if parent != NONE and nodes[s, SPLIT, parent] == way else level + 1
        if first + int(length != a if way == RIP else width != b) > limits.deepest:
            continue
        if way == RIP:
            kept = worth(length, width - b, first, limits)
            kept += worth(length - a, b, first + 1, limits)
        else:
            kept = worth(length - a, width, first, limits)
            kept += worth(a, width - b, first + 1, limits)
        if kept > best:
            best, direction = kept, way
    return direction, best - was * was


@compiled
def look(state: State, s: int, kind: int, parts: Parts, limits: Limits2D) -> int:
    """Find the best place of a kind on one sheet; return how many places were tried."""
    trees, known = state.trees, state.known
    best = REFUSED
    for way in range(parts.ways[kind]):
        a, b = parts.lies[kind, way, 0], parts.lies[kind, way, 1]
        for i in range(trees.counts[s, OPENS]):
            waste = trees.nodes[s, OPEN, i]
            if trees.nodes[s, LENGTH, waste] < a or trees.nodes[s, WIDTH, waste] < b:
                continue
            direction, score = judge(trees, s, waste, a, b, limits)
            if score > best:
                best = score
                known.place[kind, s, WASTE_AT] = waste
                known.place[kind, s, WAY_AT] = way
                known.place[kind, s, CUT_AT] = direction
    known.score[kind, s] = best
    known.found[kind, s] = known.version[NOW, s]
    return int(trees.counts[s, OPENS] * parts.ways[kind])


@compiled
def find(state: State, kind: int, parts: Parts, limits: Limits2D, blink: float) -> tuple[int, int]:
    """Return the sheet with the best place of a kind (NONE without one), and the places tried.

    In the first step (`blink` 0) an empty sheet is taken only where no other has a place.
    """
    trees, known = state.trees, state.known
    sheets, room = trees.counts.shape[0], trees.nodes.shape[2]
    best, at, tried = REFUSED, NONE, sheets
    for s in range(sheets):
        counts = trees.counts[s]
        if counts[OPENS] == 0 or counts[TOP] - counts[SPARES] + NODES_A_PIECE > room:
            continue
        if known.found[kind, s] != known.version[NOW, s]:
            tried += look(state, s, kind, parts, limits)
        score = known.score[kind, s]
        if blink == 0 and counts[PIECES] == 0:
            score -= OPENING
        if score > best and (blink == 0 or random_number(state.chance) >= blink):
            best, at = score, s
    return at, tried


@compiled
def worth_of(trees: Trees, s: int, limits: Limits2D) -> float:
    """What all open waste of a sheet is worth [-]."""
    total = 0.0
    for i in range(trees.counts[s, OPENS]):
        node = trees.nodes[s, OPEN, i]
        length, width = float(trees.nodes[s, LENGTH, node]), float(trees.nodes[s, WIDTH, node])
        share = length * width * limits.share
        total += share * share
    return total
