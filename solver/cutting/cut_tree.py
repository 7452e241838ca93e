"""A sheet as a tree of edge-to-edge cuts, and a layout: sheets that are being filled.

An inner node is cut into its children by parallel cuts; the cuts of its inner children
run the other way. So the depth of a node is the number of the cutting stage that frees
it, and stage limits are limits on depth. The order of the children is free, so all that
is left over in one node is kept as one waste child.

A piece goes where most is left: each free rectangle is worth the square of its share of the largest
sheet, or nothing where no part fits into it. This prefers tight rectangles and large offcuts, for
the choice of the place and of the direction of the first cut alike.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TypeAlias

from solver.cutting.padded_sizes import Board, PaddedProblem

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
        leaves_below, waiting = [], [self]
        while waiting:
            node = waiting.pop()
            if node.kind == INNER:
                waiting += node.children
            else:
                leaves_below.append(node)
        return leaves_below

    def pieces(self) -> list[Node]:
        """Return the piece leaves below."""
        return [leaf for leaf in self.leaves() if leaf.kind >= 0]


def cut_piece(waste: Node, kind: int, lie: tuple[int, int, bool], direction: int) -> list[Node]:
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


FREE_DEPTH = 1 << 30
"""Depth limit where any number of stages is allowed [-]."""

REFUSED = -1e30
"""Score of a place that the rules do not allow."""


@dataclass(frozen=True)
class Rules:
    """The cutting rules as limits on depth.

    Attributes
    ----------
    deepest
        Last stage in which a cut may be made [-].
    usable
        Last stage whose waste may be cut into further pieces [-].
    roots
        Directions of the first cuts.
    """

    deepest: int
    usable: int
    roots: tuple[int, ...]


def rules_of(padded: PaddedProblem) -> Rules:
    """Return the depth limits of a problem.

    "2" makes its third cuts only to trim a piece to width; so what they cut off is no
    longer used. "3" uses it, but only for pieces that need no fourth cut.
    """
    roots = {"rip": (RIP,), "crosscut": (CROSSCUT,), "either": (RIP, CROSSCUT)}[padded.first_cut]
    if padded.stages == "any":
        return Rules(FREE_DEPTH, FREE_DEPTH, roots)
    if padded.stages == "3":
        return Rules(3, 3, roots)
    return Rules(3 if padded.trimming else 2, 2, roots)


class FilledSheet:
    """One sheet with the pieces placed on it.

    Attributes
    ----------
    wastes
        Free rectangles that some part may fit into.
    used
        Area of the pieces [tick2].
    """

    __slots__ = ("board", "pieces", "root", "roots", "used", "wastes")

    def __init__(self, board: Board, roots: tuple[int, ...]) -> None:
        self.board = board
        self.roots = roots
        self.root = Node(board.length, board.width, 0, None)
        self.wastes = [self.root]
        self.used = 0
        self.pieces = 0


Place: TypeAlias = tuple[FilledSheet, Node, tuple[int, int, bool], int]
"""A sheet, a free rectangle of it, how the piece lies and the direction of the first cut."""


class Layout:
    """A list of sheets and the parts that are on them.

    Attributes
    ----------
    opened
        How many sheets of each board there are [-].
    trials
        How many free rectangles have been tried: the measure of work done [-].
    """

    def __init__(self, padded: PaddedProblem, rules: Rules) -> None:
        self.padded = padded
        self.rules = rules
        self.sheets: list[FilledSheet] = []
        self.opened: Counter[Board] = Counter()
        self.trials = 0
        self._inverse = 1.0 / padded.largest
        self._least_length, self._least_width = padded.least

    def open(self, board: Board) -> FilledSheet:
        """Add an empty sheet."""
        sheet = FilledSheet(board, self.rules.roots)
        self.sheets.append(sheet)
        self.opened[board] += 1
        return sheet

    def worth(self, length: int, width: int, level: int) -> float:
        """Return what a free rectangle is worth; 0 where nothing fits [-]."""
        if length < self._least_length or width < self._least_width or level > self.rules.usable:
            return 0.0
        share = length * width * self._inverse
        return share * share

    def insert(self, kind: int, sheets: list[FilledSheet]) -> bool:
        """Place one part of `kind` where most worth is kept; False where it fits nowhere."""
        best = self.find(kind, sheets)
        if best is not None:
            self.put(kind, best)
        return best is not None

    def find(self, kind: int, sheets: list[FilledSheet]) -> Place | None:
        """Return the place that keeps most worth."""
        best, best_place = REFUSED, None
        for lie in self.padded.kinds[kind].lies:
            a, b, _ = lie
            for sheet in sheets:
                self.trials += 1 + len(sheet.wastes)
                for waste in sheet.wastes:
                    if waste.length < a or waste.width < b:
                        continue
                    direction, score = self._judge(sheet, waste, a, b)
                    if score > best:
                        best, best_place = score, (sheet, waste, lie, direction)
        return best_place

    def _judge(self, sheet: FilledSheet, waste: Node, a: int, b: int) -> tuple[int, float]:
        """Return the better direction of the first cut and the worth that it keeps."""
        length, width, level, parent = waste.length, waste.width, waste.level, waste.parent
        was = length * width * self._inverse
        if length == a and width == b:
            return sheet.roots[0], -was * was
        best, direction = REFUSED, RIP
        for way in (RIP, CROSSCUT) if parent is not None else sheet.roots:
            first = level if parent is not None and parent.split == way else level + 1
            end, side = (length != a, width != b) if way == RIP else (width != b, length != a)
            if not side and (parent is not None or len(sheet.roots) == 2):
                continue
            if first + end > self.rules.deepest:
                continue
            if way == RIP:
                score = self.worth(length, width - b, first) + self.worth(length - a, b, first + 1)
            else:
                score = self.worth(length - a, width, first) + self.worth(a, width - b, first + 1)
            if score > best:
                best, direction = score, way
        return direction, best - was * was

    def put(self, kind: int, at: Place) -> None:
        """Place a part at a place that :meth:`find` returned."""
        sheet, waste, lie, direction = at
        fresh = cut_piece(waste, kind, lie, direction)
        sheet.used += self.padded.kinds[kind].area
        sheet.pieces += 1
        if not self._usable(waste):
            sheet.wastes.remove(waste)
        sheet.wastes += [node for node in fresh if self._usable(node)]

    def _usable(self, node: Node) -> bool:
        """True where a node is waste that some part may fit into."""
        return (
            node.kind == WASTE
            and node.length >= self._least_length
            and node.width >= self._least_width
            and node.level <= self.rules.usable
        )
