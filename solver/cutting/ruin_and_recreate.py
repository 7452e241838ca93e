"""One run of ruin and recreate: its arrays from a problem, and a layout from its arrays."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from typing import Literal, TypeAlias

import numpy as np

from solver.cutting.compiled_place import LEFT, Known, Parts, State
from solver.cutting.compiled_search import run
from solver.cutting.compiled_tree import (
    CHILD,
    FIELDS,
    KIND,
    LENGTH,
    NEXT,
    NODES_A_PIECE,
    NONE,
    SPLIT,
    TURNED,
    WIDTH,
    Limits2D,
    Trees,
    list_all_open,
    new_node,
)
from solver.cutting.constructive_cutting import ORDERS, sorted_kinds
from solver.cutting.cut_tree import FREE_DEPTH, INNER, Layout, Node, Rules, rules_of
from solver.cutting.padded_sizes import Board, Kind, PaddedProblem

CELLS_MOST = 50_000_000
"""Cells of all sheets' arrays at most; beyond it, sheets get room for fewer pieces [-]."""
SEED_STEP = 0x9E3779B97F4A7C15
"""Spreads small seeds over 64 bits (the golden ratio, as in splitmix64)."""


Lying: TypeAlias = Literal["any", "along", "across"]
"""How parts that may turn are laid: either way, or the longer side along or across the sheet
wherever it fits. Where parts are long, good layouts often have them all in one direction."""


class Attempt:
    """A search for a layout of `boards` that holds all parts.

    Starts from empty sheets: the first step places all parts, largest first by one of
    ORDERS, each seed by another. `rules` may be stricter than those of the problem.
    """

    def __init__(
        self,
        padded: PaddedProblem,
        boards: Sequence[Board],
        seed: int,
        lying: Lying = "any",
        rules: Rules | None = None,
    ) -> None:
        self.padded, self.boards = padded, boards
        self._rules = rules_of(padded) if rules is None else rules
        self._parts, self._limits = parts_of(padded, lying), _limits_of(padded, self._rules)
        trees = _empty(padded, boards, self._limits)
        kinds, sheets = len(padded.kinds), len(boards)
        order = sorted_kinds(padded, ORDERS[seed % len(ORDERS)])
        left = np.repeat(order, [padded.demand[kind] for kind in order])
        self._state = State(
            trees=trees,
            saved=Trees(np.zeros_like(trees.nodes), np.zeros_like(trees.counts)),
            known=Known(
                np.zeros((kinds, sheets)),
                np.zeros((kinds, sheets, 3), np.int64),
                np.full((kinds, sheets), -1, np.int64),
                np.zeros((2, sheets), np.int64),
            ),
            left=left.astype(np.int64),
            at=np.array([len(left), 0, 0], np.int64),
            cost=np.zeros(1),
            worth=np.zeros((2, sheets)),
            chance=np.array([((seed + 1) * SEED_STEP) % (1 << 64) or 1], np.uint64),
        )

    def run(self, done: int, chunk: int, whole: int) -> int:
        """Search on for `chunk` tries, after `done` of `whole`; return the tries made [-]."""
        return run(self._state, self._parts, self._limits, done, chunk, whole)

    @property
    def solved(self) -> bool:
        """True where all parts are placed."""
        return bool(self._state.at[LEFT] == 0)

    @property
    def left(self) -> list[int]:
        """Kinds of the parts that are left over, one for each part."""
        return [int(kind) for kind in self._state.left[: self._state.at[LEFT]]]

    def layout(self) -> Layout:
        """Return the sheets as a layout; nothing more is placed on them."""
        layout = Layout(self.padded, self._rules)
        for s, board in enumerate(self.boards):
            sheet = layout.open(board)
            sheet.root, sheet.wastes = self._node(s, 0, 0, None), []
            pieces = sheet.root.pieces()
            sheet.pieces = len(pieces)
            sheet.used = sum(self.padded.kinds[piece.kind].area for piece in pieces)
        return layout

    def _node(self, s: int, index: int, level: int, parent: Node | None) -> Node:
        cells = self._state.trees.nodes[s, :, index]
        node = Node(int(cells[LENGTH]), int(cells[WIDTH]), level, parent)
        node.kind, node.turned = int(cells[KIND]), bool(cells[TURNED])
        node.split = int(cells[SPLIT])
        child = int(cells[CHILD]) if node.kind == INNER else NONE
        while child != NONE:
            node.children.append(self._node(s, child, level + 1, node))
            child = int(self._state.trees.nodes[s, NEXT, child])
        return node


@lru_cache(maxsize=8)
def parts_of(padded: PaddedProblem, lying: Lying) -> Parts:
    """Return the parts of a problem in arrays."""
    kinds = padded.kinds
    chosen = [_lies(kind, lying) for kind in kinds]
    lies = np.zeros((len(kinds), 2, 3), np.int64)
    for i, ways in enumerate(chosen):
        for way, lie in enumerate(ways):
            lies[i, way] = lie
    orders = [
        [float(sum(w * x for w, x in zip((1.0, 1e-6), key(kind), strict=False))) for kind in kinds]
        for key in ORDERS
    ]
    return Parts(
        lies=lies,
        ways=np.array([len(ways) for ways in chosen], np.int64),
        areas=np.array([kind.area / padded.largest for kind in kinds]),
        orders=np.array(orders),
    )


def _lies(kind: Kind, lying: Lying) -> tuple[tuple[int, int, bool], ...]:
    """Return the ways in which a kind may lie: only the wanted one, where two are possible."""
    wanted = tuple(lie for lie in kind.lies if (lie[0] > lie[1]) == (lying == "along"))
    return wanted if lying != "any" and wanted else kind.lies


def _limits_of(padded: PaddedProblem, rules: Rules) -> Limits2D:
    return Limits2D(
        *padded.least,
        deepest=min(rules.deepest, FREE_DEPTH),
        usable=min(rules.usable, FREE_DEPTH),
        first=sum(1 << root for root in rules.roots),
        share=1.0 / padded.largest,
    )


def _empty(padded: PaddedProblem, boards: Sequence[Board], limits: Limits2D) -> Trees:
    """Return empty sheets, each with room for as many pieces as its area could hold."""
    areas = sorted(kind.area for kind in padded.kinds for _ in range(kind.count))
    pieces = sum(total <= padded.largest for total in accumulate(areas))
    room = min(NODES_A_PIECE * pieces + 8, CELLS_MOST // (FIELDS * len(boards)))
    trees = Trees(
        np.zeros((len(boards), FIELDS, room), np.int32), np.zeros((len(boards), 4), np.int64)
    )
    for s, board in enumerate(boards):
        new_node(trees, s, board.length, board.width, 0, NONE)
        list_all_open(trees, s, limits)
    return trees
