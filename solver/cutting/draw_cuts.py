"""From a tree of cuts to a sheet of the plan: where pieces lie and the cuts that free them.

The tree is made simple first: slices are as narrow as their pieces allow, and blocks that are
divided alike are divided at once, never in more stages. The largest slices are drawn first, so
that equal settings come in the same order on every sheet; all that is left over stands last.
A setting is the size of what comes off. The margin is room behind it, so what is left grows by the
margins not used, and a last slice is cut to size like the others.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from solver.cutting.cut_tree import INNER, RIP, FilledSheet, Node
from solver.cutting.cutting_problem import CuttingProblem
from solver.cutting.padded_sizes import Board, PaddedProblem
from solver.plan.saw_cuts import Cut, Direction
from solver.plan.stocked import Piece, Sheet
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
    slices: list[Slice] = []
    for part in parts:
        inner = part if on_sheet else _within(part, across)
        whole = inner.size[1 - axis] == across or on_sheet
        if inner.kind == INNER and inner.split == split and whole:
            slices += inner.parts
        elif inner.kind == INNER and _alike(inner):
            slices += _rows(inner)
        else:
            slices.append(inner)
    slices.sort(key=lambda piece: (-piece.size[axis], -piece.size[1 - axis]))
    along = sum(piece.size[axis] for piece in slices)
    size = (across, along) if axis == Y else (along, across)
    return Slice(INNER, turned=False, split=split, size=size, parts=tuple(slices))


def _within(part: Slice, across: Ticks) -> Slice:
    """Return the only slice of a part, where it takes all the room there is; else the part."""
    if part.kind == INNER and len(part.parts) == 1 and part.size[part.axis] == across:
        return part.parts[0]
    return part


def _alike(part: Slice) -> bool:
    """Whether blocks beside each other have equal rows, as far as each has rows."""
    sizes = [tuple(row.size[1 - part.axis] for row in _rows_of(b, part)) for b in part.parts]
    longest = max(sizes, key=len)
    return len(sizes) > 1 < len(longest) and all(s == longest[: len(s)] for s in sizes)


def _rows_of(block: Slice, part: Slice) -> tuple[Slice, ...]:
    """Return the rows that a block of `part` is divided into; an undivided block is one row."""
    return block.parts if block.kind == INNER and block.split != part.split else (block,)


def _rows(part: Slice) -> list[Slice]:
    """Divide blocks with equal rows into rows first; each row is then divided."""
    blocks = [_rows_of(block, part) for block in part.parts]
    count = max(map(len, blocks))
    rows = [[block[at] for block in blocks if at < len(block)] for at in range(count)]
    return [_joined(part.split, row) for row in rows]


Rect: TypeAlias = tuple[Ticks, Ticks, Ticks, Ticks]
Sized: TypeAlias = tuple[Ticks | None, Ticks | None]
DIRECTION: dict[int, Direction] = {X: "crosscut", Y: "rip"}
"""A crosscut divides x, a rip y."""


@dataclass
class _Drawing:
    """One sheet being drawn, in its own coordinates [tick]."""

    problem: CuttingProblem
    pieces: list[tuple[Ticks, Ticks, Slice]] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)

    def walk(self, node: Slice, panel: Rect, sized: Sized) -> None:
        """Draw a node that lies on a panel; `sized` is the padded size it was cut to already."""
        if node.kind >= 0:
            self.pieces.append((panel[X], panel[Y], node))
            self._to_size(node, panel, sized)
        if node.kind != INNER:
            return
        axis, children = node.axis, node.parts
        places: list[tuple[Slice, Rect]] = []
        for child in children:
            at = self._slice(child, panel, axis, sized[axis] if len(children) == 1 else None)
            places.append((child, _till(panel, axis, at)))
            panel = _after(panel, axis, at + self._behind(at, panel, axis))
        for child, place in places:
            size = child.size[axis]
            self.walk(child, place, (sized[X], size) if axis == Y else (size, sized[Y]))

    def _behind(self, at: Ticks, panel: Rect, axis: int) -> Ticks:
        return self.problem.kerf if at < panel[axis + 2] else 0

    def _to_size(self, node: Slice, panel: Rect, sized: Sized) -> None:
        """Cut a piece to size in the directions in which no slice was."""
        for axis in (Y, X):
            if sized[axis] is None:
                panel = _till(panel, axis, self._slice(node, panel, axis, None))

    def _slice(self, node: Slice, panel: Rect, axis: int, sized: Ticks | None) -> Ticks:
        """Cut a slice for `node` off the near side of a panel; return where it ends.

        A slice that takes all of the panel is still cut to size where margins may have left
        more, unless it was already cut to that size (`sized`).
        """
        margin, far = self.problem.margin, panel[axis + 2]
        size = node.size[axis] - self.problem.kerf - margin
        at = panel[axis] + size + margin
        if at >= far:
            if margin == 0 or node.size[axis] == sized:
                return far
            at = panel[axis] + size
        self._cut(DIRECTION[axis], DIRECTION[axis], panel, (at, size))
        return at

    def trim(self, axis: int, panel: Rect, at: Ticks) -> None:
        """Trim a factory edge."""
        self._cut("trim", DIRECTION[axis], panel, (at, self.problem.edge_trim))

    def _cut(
        self,
        kind: Literal["trim", "rip", "crosscut"],
        direction: Direction,
        panel: Rect,
        at: tuple[Ticks, Ticks],
    ) -> None:
        along = X if direction == "rip" else Y
        self.cuts.append(
            Cut(
                number=len(self.cuts) + 1,
                kind=kind,
                direction=direction,
                at=at[0],
                start=panel[along],
                end=panel[along + 2],
                setting=at[1],
            )
        )


def _till(panel: Rect, axis: int, at: Ticks) -> Rect:
    return (panel[0], panel[1], at, panel[3]) if axis == X else (*panel[:3], at)


def _after(panel: Rect, axis: int, at: Ticks) -> Rect:
    return (at, *panel[1:]) if axis == X else (panel[0], at, panel[2], panel[3])


def drawn_sheet(
    problem: CuttingProblem, padded: PaddedProblem, filled: FilledSheet, ids: dict[int, list[str]]
) -> Sheet:
    """Return the plan's sheet for a filled one; takes the names of its pieces from `ids`."""
    stock = problem.sheets[filled.board.source]
    drawing, root = _Drawing(problem), straightened(filled.root)
    panel = _trimmed(drawing, (0, 0, stock.length, stock.width), filled.board, root.size)
    sized = root.size if problem.margin == 0 else (None, None)
    drawing.walk(root, panel, sized)
    return Sheet(
        stock=stock.stock,
        material=stock.material,
        length=stock.length,
        width=stock.width,
        edge_trim=problem.edge_trim,
        kerf=problem.kerf,
        margin=problem.margin,
        price=stock.price,
        on_hand=filled.board.free,
        first_cut=_first_cut(problem, filled),
        pieces=tuple(_piece(problem, padded, place, ids) for place in drawing.pieces),
        cuts=tuple(drawing.cuts),
    )


def _trimmed(drawing: _Drawing, panel: Rect, board: Board, needs: tuple[Ticks, Ticks]) -> Rect:
    """Trim the factory edges, the long ones first; return what is left of the sheet.

    A far edge is trimmed only where a piece ends at it; where a margin is kept, the cut
    that brings that piece to size takes the edge off with it.
    """
    trim, kerf = drawing.problem.edge_trim, drawing.problem.kerf
    if trim == 0:
        return panel
    rooms = board.length, board.width
    for axis in (Y, X):
        drawing.trim(axis, panel, trim - kerf)  # the blade may overhang the factory edge
        panel = _after(panel, axis, trim)
        if needs[axis] == rooms[axis] and drawing.problem.margin == 0:
            at = panel[axis + 2] - trim
            drawing.trim(axis, panel, at)
            panel = _till(panel, axis, at)
    return panel


def _first_cut(problem: CuttingProblem, filled: FilledSheet) -> Direction:
    """Direction of the first stage; for a piece that fills the sheet, the one asked for."""
    if problem.first_cut != "either":
        return problem.first_cut
    return "rip" if filled.root.split == RIP else "crosscut"


def _piece(
    problem: CuttingProblem,
    padded: PaddedProblem,
    place: tuple[Ticks, Ticks, Slice],
    ids: dict[int, list[str]],
) -> Piece:
    x, y, node = place
    extra = problem.kerf + problem.margin
    lie = next(lie for lie in padded.kinds[node.kind].lies if lie[2] == node.turned)
    return Piece(
        part=ids[node.kind].pop(0),
        x=x,
        y=y,
        length=lie[0] - extra,
        width=lie[1] - extra,
        turned=node.turned,
    )
