"""The pricing problem: the pattern of a board that is worth most, and the blocks it is drawn from.

`Patterns` is what :mod:`solver.cutting.refute` asks for patterns. A block is a piece, or blocks put
together edge to edge; `draw` turns a block into the tree of a sheet.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

from solver.cutting.cut_tree import CROSSCUT, INNER, RIP, WASTE, Node
from solver.cutting.dual_feasible_bounds import Row
from solver.cutting.padded_sizes import Board, PaddedProblem
from solver.cutting.sheet_master import Counts

if TYPE_CHECKING:
    from solver.cutting.strip_knapsack import Whole

W = TypeVar("W")


@dataclass(frozen=True)
class PatternResult:
    """The result of a search for a pattern.

    Attributes
    ----------
    state
        0: found; above 0: there is none; below 0: not known [-].
    counts
        How many of each kind the pattern holds [-].
    drawn
        Draws the sheet; returns None where the pattern fits only in rounded units.
    """

    state: int
    counts: Whole
    drawn: Callable[[], Node | None] = lambda: None


class Patterns(Protocol[W]):
    """Searches the patterns of a board that keep to the stages asked for.

    Attributes
    ----------
    padded
        The problem.
    steps
        Work left for its searches and for the programs: cells of tables, and kinds and rows
        that a node looks at [-].
    ways
        Ways of cutting, searched one after the other.
    """

    padded: PaddedProblem
    steps: int
    ways: Sequence[W]

    def search(self, way: W, board: int, worth: Whole, above: int, most: Counts) -> PatternResult:
        """Search the patterns of one way for one worth more than `above`."""


def pattern_worth_more(
    patterns: Patterns[W], board: int, values: Sequence[int], above: int, most: Counts
) -> Counts | bool:
    """Return a pattern worth more than `above`; True where none is, False if not known.

    It holds at most `most` of each kind.
    """
    worth = np.array(values, dtype=np.int64)
    for way in patterns.ways:
        result = patterns.search(way, board, worth, above, most)
        if result.state <= 0:
            return tuple(int(n) for n in result.counts) if result.state == 0 else False
    return True


def sheet_of_parts(patterns: Patterns[W], board: int, counts: Counts) -> Node | None:
    """Return a sheet of exactly these parts, or None where none is found."""
    worth = np.array([kind.area for kind in patterns.padded.kinds], dtype=np.int64)
    above = int(worth @ np.array(counts, dtype=np.int64)) - 1
    for way in patterns.ways:
        result = patterns.search(way, board, worth, above, counts)
        if result.state == 0:
            return result.drawn()
    return None


def shares_and_orders(
    rows: Sequence[Row], board: int, worth: Whole
) -> tuple[NDArray[np.float64], Whole]:
    """Return each kind's share of a board by each covering row, and the kinds by worth per share.

    A search that these rows show to be hopeless ends early.
    """
    shares = np.array(
        [
            [size / row.capacity[board] for size in row.sizes]
            for row in rows
            if row.sizes and row.capacity[board]
        ]
    )
    return shares, np.argsort(-worth / np.maximum(shares, 1e-12), axis=1, kind="stable")


@dataclass(frozen=True)
class Block:
    """A piece, or blocks joined; blocks divided by a rip lie side by side across the sheet.

    Attributes
    ----------
    length, width
        Padded extents [tick].
    kind, turned
        Of a piece; the kind is WASTE where blocks are joined.
    split, children
        Direction of the cuts between joined blocks, none of which is joined the same way.
    """

    length: int
    width: int
    kind: int
    turned: bool = False
    split: int = RIP
    children: tuple[Block, ...] = ()


def piece(kind: int, lie: tuple[int, int, bool]) -> Block:
    """Return a block of one piece."""
    return Block(lie[0], lie[1], kind, lie[2])


def joined(blocks: Sequence[Block], split: int) -> Block:
    """Join blocks by cuts in one direction."""
    if len(blocks) == 1:
        return blocks[0]
    flat: list[Block] = []
    for block in blocks:
        flat += block.children if block.children and block.split == split else (block,)
    lengths, widths = [b.length for b in flat], [b.width for b in flat]
    if split == RIP:
        return Block(max(lengths), sum(widths), WASTE, False, split, tuple(flat))
    return Block(sum(lengths), max(widths), WASTE, False, split, tuple(flat))


def sheet_tree(block: Block, board: Board, first: int | None) -> Node | None:
    """Return the tree of a sheet with a block; None where the block is larger than the board.

    The first cuts go in the direction `first`, where one is given.
    """
    if block.length > board.length or block.width > board.width:
        return None
    root = Node(board.length, board.width, 0, None)
    if first is None and not block.children:
        first = RIP
    _fill(root, block, first)
    return root


def _fill(node: Node, block: Block, first: int | None = None) -> None:
    """Cut a block out of the corner of a node."""
    alike = (node.length, node.width) == (block.length, block.width)
    if alike and not block.children:
        node.kind, node.turned = block.kind, block.turned
        return
    node.kind = INNER
    if first is not None:
        node.split = first
    elif block.children:
        node.split = block.split
    else:
        node.split = RIP if block.width < node.width else CROSSCUT
    same = bool(block.children) and block.split == node.split
    left_length, left_width = node.length, node.width
    for child in block.children if same else (block,):
        length, width = left_length, left_width
        if node.split == RIP:
            width, left_width = child.width, left_width - child.width
        else:
            length, left_length = child.length, left_length - child.length
        part = Node(length, width, node.level + 1, node)
        node.children.append(part)
        _fill(part, child)
    if left_length and left_width:
        node.children.append(Node(left_length, left_width, node.level + 1, node))
