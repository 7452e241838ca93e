"""A sheet as a tree of edge-to-edge cuts, in which pieces are placed.

An inner node is cut into its children by parallel cuts; the cuts of its inner children
run the other way. So the depth of a node is the number of the cutting stage that frees
it, and stage limits are limits on depth. The order of the children is free, so all that
is left over in one node is kept as one waste child.
"""

from __future__ import annotations

RIP, CROSSCUT = 0, 1
WASTE, INNER = -1, -2


class Node:
    """A rectangle of a sheet: waste, a piece, or an inner node cut into children.

    `kind` is the index of the piece's kind, WASTE or INNER. `split` is the direction of
    the cuts between the children, `level` the stage of the cuts that free this node
    (0: the sheet itself). Sizes are padded [tick].
    """

    __slots__ = ("children", "kind", "length", "level", "parent", "split", "turned", "width")

    def __init__(self, length: int, width: int, level: int, parent: Node | None) -> None:
        self.length = length
        self.width = width
        self.level = level
        self.parent = parent
        self.kind = WASTE
        self.turned = False
        self.split = RIP
        self.children: list[Node] = []

    def leaves(self) -> list[Node]:
        """Return the waste and piece leaves below, or the node itself."""
        found, waiting = [], [self]
        while waiting:
            node = waiting.pop()
            if node.kind == INNER:
                waiting += node.children
            else:
                found.append(node)
        return found

    def pieces(self) -> list[Node]:
        """Return the piece leaves below."""
        return [leaf for leaf in self.leaves() if leaf.kind >= 0]


def place(waste: Node, kind: int, lie: tuple[int, int, bool], direction: int) -> list[Node]:
    """Cut a piece out of a corner of `waste`; the first cut runs in `direction`.

    Below the sheet itself there must be something to cut off in that direction, unless
    the piece fills the waste: a cut that frees nothing would take up a stage.

    Returns
    -------
    list[Node]
        New waste; `waste` itself is waste no longer, or smaller, possibly without any size.
    """
    parent = waste.parent
    if waste.length == lie[0] and waste.width == lie[1]:
        waste.kind, waste.turned = kind, lie[2]
        return []
    if parent is not None and parent.split == direction:
        return _end(_slice(parent, waste, lie, direction), kind, lie, direction)
    waste.kind, waste.split = INNER, direction
    rest = Node(waste.length, waste.width, waste.level + 1, waste)
    waste.children = [rest]
    strip = _slice(waste, rest, lie, direction)
    return [rest, *_end(strip, kind, lie, direction)]


def _slice(parent: Node, waste: Node, lie: tuple[int, int, bool], direction: int) -> Node:
    """Cut a slice as wide as the piece off `waste`, which shrinks or goes; return the slice."""
    if direction == RIP:
        strip = Node(waste.length, lie[1], waste.level, parent)
        waste.width -= lie[1]
        gone = waste.width == 0
    else:
        strip = Node(lie[0], waste.width, waste.level, parent)
        waste.length -= lie[0]
        gone = waste.length == 0
    children = parent.children
    if gone:
        children[children.index(waste)] = strip
    else:
        children.insert(children.index(waste), strip)
    return strip


def _end(strip: Node, kind: int, lie: tuple[int, int, bool], direction: int) -> list[Node]:
    """Cut the piece off the end of its strip, across `direction`; return what is left of it."""
    if strip.length == lie[0] and strip.width == lie[1]:
        strip.kind, strip.turned = kind, lie[2]
        return []
    other = CROSSCUT if direction == RIP else RIP
    strip.kind, strip.split = INNER, other
    rest = Node(strip.length, strip.width, strip.level + 1, strip)
    strip.children = [rest]
    piece = _slice(strip, rest, lie, other)
    piece.kind, piece.turned = kind, lie[2]
    return [rest]
