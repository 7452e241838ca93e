"""A tree of cuts as simple as its pieces allow: narrow slices, and no cut that could be shared.

The search keeps trees as it grew them. Here slices shrink to what lies in them, what is
cut on in the same direction is cut at once, and blocks beside each other that are all
divided alike are divided before they are parted: two rows of three parts are two strips
crosscut, not three blocks ripped. Nothing takes more stages than it did.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.cutting.tree import INNER, RIP, Node
from solver.units import Ticks

X, Y = 0, 1


@dataclass(frozen=True)
class Slice:
    """A piece, or slices cut in one direction, and the padded size needed [tick].

    `kind` is that of a piece or INNER; `split` the direction of the cuts between `parts`,
    which stand from the largest to the smallest.
    """

    kind: int
    turned: bool
    split: int
    size: tuple[Ticks, Ticks]
    parts: tuple[Slice, ...] = ()

    @property
    def axis(self) -> int:
        """Axis that the cuts between the parts divide."""
        return Y if self.split == RIP else X


def straightened(node: Node) -> Slice:
    """Return the tree of a sheet, or of what lies in one of its nodes, made simple."""
    if node.kind != INNER:
        return Slice(node.kind, node.turned, node.split, (node.length, node.width))
    parts = [straightened(child) for child in node.children if child.pieces()]
    return _joined(node.split, parts, on_sheet=node.parent is None)


def _joined(split: int, parts: list[Slice], *, on_sheet: bool = False) -> Slice:
    """Return slices side by side; those that are cut the same way are cut at once.

    A strip of the sheet is not looked into: it is longer than it needs to be.
    """
    axis = Y if split == RIP else X
    across = max(part.size[1 - axis] for part in parts)
    found: list[Slice] = []
    for part in parts:
        inner = part if on_sheet else _within(part, across)
        whole = inner.size[1 - axis] == across or on_sheet
        if inner.kind == INNER and inner.split == split and whole:
            found += inner.parts
        elif inner.kind == INNER and _alike(inner):
            found += _rows(inner)
        else:
            found.append(inner)
    found.sort(key=lambda one: (-one.size[axis], -one.size[1 - axis]))
    along = sum(one.size[axis] for one in found)
    size = (across, along) if axis == Y else (along, across)
    return Slice(INNER, turned=False, split=split, size=size, parts=tuple(found))


def _within(part: Slice, across: Ticks) -> Slice:
    """Look through slices that hold one slice, which takes all the room there is."""
    if part.kind == INNER and len(part.parts) == 1 and part.size[part.axis] == across:
        return part.parts[0]
    return part


def _alike(part: Slice) -> bool:
    """Whether blocks beside each other have rows of the same sizes, as far as they have rows."""
    sizes = [tuple(row.size[1 - part.axis] for row in _rows_of(b, part)) for b in part.parts]
    longest = max(sizes, key=len)
    return len(sizes) > 1 < len(longest) and all(s == longest[: len(s)] for s in sizes)


def _rows_of(block: Slice, part: Slice) -> tuple[Slice, ...]:
    """Rows that a block of `part` is divided into; a block that is not is one row."""
    return block.parts if block.kind == INNER and block.split != part.split else (block,)


def _rows(part: Slice) -> list[Slice]:
    """Divide such blocks into rows first; each row is then parted."""
    blocks = [_rows_of(block, part) for block in part.parts]
    count = max(map(len, blocks))
    rows = [[block[at] for block in blocks if at < len(block)] for at in range(count)]
    return [_joined(part.split, row) for row in rows]
