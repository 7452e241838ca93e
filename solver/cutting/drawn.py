"""From a tree of cuts to a sheet of the plan: where pieces lie and the cuts in order."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from solver.cutting.layout import Filled
from solver.cutting.padded import Board, Padded
from solver.cutting.problem import CuttingProblem
from solver.cutting.tree import INNER, RIP, WASTE, Node
from solver.plan import Cut, Piece, Sheet

CutKind = Literal["trim", "rip", "crosscut"]


@dataclass
class _Drawing:
    """One sheet being drawn: padded places are taken back to the sheet's own.

    `far_length` and `far_width` are where the sheet ends after its far edges are trimmed;
    they are trimmed only where a piece reaches them.
    """

    problem: CuttingProblem
    board: Board
    far_length: int
    far_width: int
    pieces: list[tuple[int, int, Node]] = field(default_factory=list)
    cuts: list[tuple[CutKind, int, int, int]] = field(default_factory=list)

    def walk(self, node: Node, x: int, y: int) -> None:
        """Draw a node whose near corner is at padded (x, y): its cuts, then its children."""
        if node.kind >= 0:
            self.pieces.append((x, y, node))
        if node.kind != INNER:
            return
        places, at = [], 0
        for child in _in_order(node):
            places.append((child, x, y + at) if node.split == RIP else (child, x + at, y))
            at += child.width if node.split == RIP else child.length
            self._cut(node, x, y, at)
        for child, left, low in places:
            self.walk(child, left, low)

    def _cut(self, node: Node, x: int, y: int, at: int) -> None:
        """Cut `node` at padded distance `at` from its near edge, unless that is its far edge."""
        trim, kerf = self.problem.edge_trim, self.problem.kerf
        if node.split == RIP and at < node.width:
            end = self._end(x + node.length, self.board.length, self.far_length)
            self.cuts.append(("rip", trim + y + at - kerf, trim + x, end))
        elif node.split != RIP and at < node.length:
            end = self._end(y + node.width, self.board.width, self.far_width)
            self.cuts.append(("crosscut", trim + x + at - kerf, trim + y, end))

    def _end(self, padded: int, room: int, far: int) -> int:
        """Far end of a cut: at an earlier cut, or at the far edge."""
        trim, kerf = self.problem.edge_trim, self.problem.kerf
        return trim + padded - kerf if padded < room else far


def _in_order(node: Node) -> list[Node]:
    """Children from the largest slice to the smallest, waste last."""
    if node.split == RIP:
        return sorted(node.children, key=lambda c: (c.kind == WASTE, -c.width, -c.length))
    return sorted(node.children, key=lambda c: (c.kind == WASTE, -c.length, -c.width))


def draw(
    problem: CuttingProblem, padded: Padded, filled: Filled, ids: dict[int, list[str]]
) -> Sheet:
    """Return the plan's sheet for a filled one; takes the names of its pieces from `ids`."""
    stock = problem.sheets[filled.board.source]
    far_length, far_width = _far_edges(problem, filled)
    drawing = _Drawing(problem, filled.board, far_length, far_width)
    drawing.walk(filled.root, 0, 0)
    pieces = tuple(_piece(problem, padded, place, ids) for place in drawing.pieces)
    cuts = _trims(problem, drawing) + drawing.cuts
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
        pieces=pieces,
        cuts=tuple(
            Cut(number=i, kind=kind, at=at, start=start, end=end)
            for i, (kind, at, start, end) in enumerate(cuts, start=1)
        ),
    )


def _first_cut(problem: CuttingProblem, filled: Filled) -> Literal["rip", "crosscut"]:
    """Direction of the first stage; for a piece that fills the sheet, the one asked for."""
    if problem.first_cut != "either":
        return problem.first_cut
    return "rip" if filled.root.split == RIP else "crosscut"


def _piece(
    problem: CuttingProblem, padded: Padded, place: tuple[int, int, Node], ids: dict[int, list[str]]
) -> Piece:
    x, y, node = place
    extra = problem.kerf + problem.margin
    lie = next(lie for lie in padded.kinds[node.kind].lies if lie[2] == node.turned)
    return Piece(
        part=ids[node.kind].pop(0),
        x=problem.edge_trim + x,
        y=problem.edge_trim + y,
        length=lie[0] - extra,
        width=lie[1] - extra,
        turned=node.turned,
    )


def _far_edges(problem: CuttingProblem, filled: Filled) -> tuple[int, int]:
    """Where the sheet ends: at its trimmed far edges where a piece reaches them."""
    stock, trim = problem.sheets[filled.board.source], problem.edge_trim
    along, across = _reach(filled.root)
    return (
        stock.length - (trim if along == filled.board.length else 0),
        stock.width - (trim if across == filled.board.width else 0),
    )


def _reach(node: Node) -> tuple[int, int]:
    """How far the pieces of a node reach from its near corner, in drawing order [tick, tick]."""
    if node.kind >= 0:
        return node.length, node.width
    along, across, at = 0, 0, 0
    for child in _in_order(node):
        length, width = _reach(child)
        if length:
            along = max(along, length + (0 if node.split == RIP else at))
            across = max(across, width + (at if node.split == RIP else 0))
        at += child.width if node.split == RIP else child.length
    return along, across


def _trims(problem: CuttingProblem, drawing: _Drawing) -> list[tuple[CutKind, int, int, int]]:
    """Trim the factory edges, the long ones first; a far edge only where a piece reaches it."""
    trim, board = problem.edge_trim, problem.sheets[drawing.board.source]
    if trim == 0:
        return []
    near = trim - problem.kerf  # the blade may overhang the factory edge
    trims: list[tuple[CutKind, int, int, int]] = [("trim", near, 0, board.length)]
    if drawing.far_width < board.width:
        trims.append(("trim", drawing.far_width, 0, board.length))
    trims.append(("trim", near, trim, drawing.far_width))
    if drawing.far_length < board.length:
        trims.append(("trim", drawing.far_length, trim, drawing.far_width))
    return trims
