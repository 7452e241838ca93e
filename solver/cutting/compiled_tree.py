"""Trees of edge-to-edge cuts in arrays, for the compiled search.

The same trees as in :mod:`solver.cutting.cut_tree`, where the rules are explained. Every sheet has
its own block of nodes, so that a sheet is saved and restored by copying one block; node 0 is
the sheet itself.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from solver.cutting.compiled import compiled
from solver.cutting.cut_tree import INNER, RIP, WASTE

Ints: TypeAlias = npt.NDArray[np.int64]
Cells: TypeAlias = npt.NDArray[np.int32]

LENGTH, WIDTH, PARENT, CHILD, NEXT, KIND, TURNED, SPLIT, LEVEL, SPARE, OPEN = range(11)
"""Rows of a block. CHILD and NEXT link children; SPARE lists nodes to use again, and OPEN
the waste that may be cut further."""
FIELDS = 11

TOP, SPARES, OPENS, PIECES = range(4)
COUNTS = 4
"""Counts of a sheet: nodes ever used, spare nodes, open waste, pieces on it."""

NONE, UNUSED = -1, -3
NODES_A_PIECE = 4
"""Nodes that placing one piece adds at most [-]."""


class Trees(NamedTuple):
    """All sheets: `nodes` is (sheet, row, node) [tick, -], `counts` (sheet, count) [-]."""

    nodes: Cells
    counts: Ints


class Limits2D(NamedTuple):
    """The depth limits of :class:`solver.cutting.cut_tree.Rules`, and what waste is open.

    `least_length`, `least_width` [tick]: less than any part. `first` has bit 1 << RIP and
    1 << CROSSCUT for the first cuts allowed. `share` is one over the largest sheet's area
    [1/tick2].
    """

    least_length: int
    least_width: int
    deepest: int
    usable: int
    first: int
    share: float


@compiled
def new_node(trees: Trees, s: int, length: int, width: int, level: int, parent: int) -> int:
    """Return a fresh waste node of sheet `s`, not linked to its parent yet."""
    counts, nodes = trees.counts, trees.nodes
    if counts[s, SPARES] > 0:
        counts[s, SPARES] -= 1
        node = nodes[s, SPARE, counts[s, SPARES]]
    else:
        node = counts[s, TOP]
        counts[s, TOP] += 1
    nodes[s, LENGTH, node], nodes[s, WIDTH, node] = length, width
    nodes[s, PARENT, node], nodes[s, LEVEL, node] = parent, level
    nodes[s, CHILD, node], nodes[s, NEXT, node] = NONE, NONE
    nodes[s, KIND, node], nodes[s, TURNED, node], nodes[s, SPLIT, node] = WASTE, 0, RIP
    return int(node)


@compiled
def release_node(trees: Trees, s: int, node: int) -> None:
    """Put a node on the list of those to use again."""
    trees.nodes[s, KIND, node] = UNUSED
    trees.nodes[s, SPARE, trees.counts[s, SPARES]] = node
    trees.counts[s, SPARES] += 1


@compiled
def link(trees: Trees, s: int, parent: int, node: int) -> None:
    """Make a node a child of `parent`."""
    nodes = trees.nodes
    nodes[s, NEXT, node] = nodes[s, CHILD, parent]
    nodes[s, CHILD, parent] = node
    nodes[s, PARENT, node] = parent


@compiled
def unlink(trees: Trees, s: int, node: int) -> None:
    """Take a node out of its parent's children."""
    nodes = trees.nodes
    parent = nodes[s, PARENT, node]
    before = nodes[s, CHILD, parent]
    if before == node:
        nodes[s, CHILD, parent] = nodes[s, NEXT, node]
        return
    while nodes[s, NEXT, before] != node:
        before = nodes[s, NEXT, before]
    nodes[s, NEXT, before] = nodes[s, NEXT, node]


@compiled
def is_open(trees: Trees, s: int, node: int, limits: Limits2D) -> bool:
    """True where a node is waste that some part may fit into."""
    nodes = trees.nodes
    return bool(
        nodes[s, KIND, node] == WASTE
        and nodes[s, LENGTH, node] >= limits.least_length
        and nodes[s, WIDTH, node] >= limits.least_width
        and nodes[s, LEVEL, node] <= limits.usable
    )


@compiled
def list_if_open(trees: Trees, s: int, node: int, limits: Limits2D) -> None:
    """Add a node to the open waste, if it is open."""
    if is_open(trees, s, node, limits):
        trees.nodes[s, OPEN, trees.counts[s, OPENS]] = node
        trees.counts[s, OPENS] += 1


@compiled
def list_all_open(trees: Trees, s: int, limits: Limits2D) -> None:
    """List the open waste of a sheet anew."""
    trees.counts[s, OPENS] = 0
    for node in range(trees.counts[s, TOP]):
        list_if_open(trees, s, node, limits)


@compiled
def unlist(trees: Trees, s: int, node: int) -> None:
    """Take a node out of the open waste."""
    nodes, counts = trees.nodes, trees.counts
    for i in range(counts[s, OPENS]):
        if nodes[s, OPEN, i] == node:
            counts[s, OPENS] -= 1
            nodes[s, OPEN, i] = nodes[s, OPEN, counts[s, OPENS]]
            return


@compiled
def cut_slice(trees: Trees, s: int, waste: int, length: int, width: int, way: int) -> int:
    """Cut a slice as wide as the piece off `waste`, which shrinks or goes; return the slice."""
    nodes = trees.nodes
    parent, level = nodes[s, PARENT, waste], nodes[s, LEVEL, waste]
    if way == RIP:
        strip = new_node(trees, s, nodes[s, LENGTH, waste], width, level, parent)
        nodes[s, WIDTH, waste] -= width
        gone = nodes[s, WIDTH, waste] == 0
    else:
        strip = new_node(trees, s, length, nodes[s, WIDTH, waste], level, parent)
        nodes[s, LENGTH, waste] -= length
        gone = nodes[s, LENGTH, waste] == 0
    link(trees, s, parent, strip)
    if gone:
        unlink(trees, s, waste)
        release_node(trees, s, waste)
    return strip


@compiled
def make_inner(trees: Trees, s: int, node: int, way: int) -> int:
    """Make a node an inner one with one waste child of its size; return the child."""
    nodes = trees.nodes
    nodes[s, KIND, node], nodes[s, SPLIT, node] = INNER, way
    length, width = nodes[s, LENGTH, node], nodes[s, WIDTH, node]
    rest = new_node(trees, s, length, width, nodes[s, LEVEL, node] + 1, node)
    link(trees, s, node, rest)
    return rest


@compiled
def put(trees: Trees, s: int, waste: int, kind: int, lie: Ints, way: int, limits: Limits2D) -> None:
    """Cut a piece out of `waste`; the first cut runs in direction `way`. See cut_tree.place."""
    nodes = trees.nodes
    length, width, turned = lie[0], lie[1], lie[2]
    unlist(trees, s, waste)
    trees.counts[s, PIECES] += 1
    piece = waste
    if nodes[s, LENGTH, waste] != length or nodes[s, WIDTH, waste] != width:
        parent = nodes[s, PARENT, waste]
        if parent == NONE or nodes[s, SPLIT, parent] != way:
            waste = make_inner(trees, s, waste, way)
        piece = cut_slice(trees, s, waste, length, width, way)
        list_if_open(trees, s, waste, limits)
        if nodes[s, LENGTH, piece] != length or nodes[s, WIDTH, piece] != width:
            rest = make_inner(trees, s, piece, 1 - way)
            piece = cut_slice(trees, s, rest, length, width, 1 - way)
            list_if_open(trees, s, rest, limits)
    nodes[s, KIND, piece], nodes[s, TURNED, piece] = kind, turned


@compiled
def merge_waste(trees: Trees, s: int, node: int) -> None:
    """Turn a node into waste and join it with the waste beside it, up the tree."""
    nodes = trees.nodes
    while True:
        nodes[s, KIND, node], nodes[s, CHILD, node] = WASTE, NONE
        parent = nodes[s, PARENT, node]
        if parent == NONE:
            return
        beside, other, child = 0, NONE, nodes[s, CHILD, parent]
        while child != NONE:
            beside += 1
            if child != node and nodes[s, KIND, child] == WASTE:
                other = child
            child = nodes[s, NEXT, child]
        if other != NONE:
            side = WIDTH if nodes[s, SPLIT, parent] == RIP else LENGTH
            nodes[s, side, node] += nodes[s, side, other]
            unlink(trees, s, other)
            release_node(trees, s, other)
            beside -= 1
        if beside > 1:
            return
        unlink(trees, s, node)
        release_node(trees, s, node)
        node = parent


@compiled
def take_off(
    trees: Trees, s: int, node: int, taken: Ints, count: int, waiting: Ints, limits: Limits2D
) -> int:
    """Take all pieces under `node` off; append their kinds to `taken`, return the new count.

    `waiting` is room for as many nodes as a sheet has.
    """
    nodes = trees.nodes
    waiting[0], waits = node, 1
    while waits > 0:
        waits -= 1
        below = waiting[waits]
        if nodes[s, KIND, below] >= 0:
            taken[count] = nodes[s, KIND, below]
            count += 1
            trees.counts[s, PIECES] -= 1
        child = nodes[s, CHILD, below]
        while child != NONE:
            waiting[waits] = child
            waits += 1
            child = nodes[s, NEXT, child]
        if below != node:
            release_node(trees, s, below)
    merge_waste(trees, s, node)
    list_all_open(trees, s, limits)
    return count


@compiled
def copy_sheet(source: Trees, target: Trees, s: int) -> None:
    """Copy one sheet's block."""
    for field in range(FIELDS):
        for node in range(source.counts[s, TOP]):
            target.nodes[s, field, node] = source.nodes[s, field, node]
    for count in range(COUNTS):
        target.counts[s, count] = source.counts[s, count]
