"""Blocks of pieces put together edge to edge, and the sheet that they are cut from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.cutting.padded import Board
from solver.cutting.tree import CROSSCUT, INNER, RIP, WASTE, Node


@dataclass(frozen=True)
class Block:
    """A piece, or blocks joined: those that a rip parts lie side by side across the sheet.

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


def draw(block: Block, board: Board, first: int | None) -> Node | None:
    """Return the tree of a sheet whose first cuts go in the direction `first`, if any is asked.

    None where the block is larger than the board.
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
