"""Ruin and recreate with a goal: fit all parts on cheaper sheets than the best answer's.

After Gardeyn and Wauters (goal-driven ruin and recreate): the sheets are fixed, some parts
are left over; again and again a few neighbouring pieces are taken off and they and the
leftover parts are placed anew, until nothing is left over or the work is spent.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import TypeAlias

from solver.cutting.construct import ORDERS
from solver.cutting.layout import Layout, Saved, rules_of
from solver.cutting.padded import Board
from solver.cutting.tree import Node
from solver.outcome import Limits

Kept: TypeAlias = dict[int, Saved]
"""Sheets as they were before a step, by their place in the layout."""


class Repair:
    """One search for a layout of given sheets.

    Attributes
    ----------
    left
        Kinds that are not placed yet [-].
    """

    def __init__(self, layout: Layout, left: list[int], chance: random.Random) -> None:
        self.layout = layout
        self.left = left
        self.chance = chance
        kinds = layout.padded.kinds
        self._areas = [kind.area / layout.padded.largest for kind in kinds]
        self._keys = [
            [
                float(sum(w * x for w, x in zip((1.0, 1e-6), key(kind), strict=False)))
                for kind in kinds
            ]
            for key in ORDERS
        ]

    def run(self, trials_most: int, limits: Limits) -> bool:
        """Search until nothing is left over, or the trials are spent."""
        layout, heat = self.layout, 0.05
        start = layout.trials
        now = self.cost(self.left)
        steps = 0
        while self.left and layout.trials - start < trials_most:
            steps += 1
            if steps % 32 == 0 and limits.over:
                return False
            share = (layout.trials - start) / trials_most
            saved, before = self._ruin(), list(self.left)
            self._recreate(saved)
            then = self.cost(self.left)
            if then <= now + heat * (1 - share) * self.chance.random() ** 2:
                now = then
            else:
                self._undo(saved, before)
        return not self.left

    def cost(self, left: Sequence[int]) -> float:
        """What the leftover parts amount to, in largest sheets [-]."""
        return sum(self._areas[kind] for kind in left)

    def _ruin(self) -> Kept:
        """Take some pieces off one or two sheets; they join the leftover parts."""
        saved: Kept = {}
        wanted = 1 + int(self.chance.expovariate(1 / 5))
        sheets = self.layout.sheets
        self._new: list[int] = []
        for _ in range(6):
            if len(self._new) >= wanted:
                break
            if not saved or self.chance.random() < 0.4:
                at = self.chance.randrange(len(sheets))
            sheet = sheets[at]
            pieces = list(sheet.root.pieces())
            if not pieces:
                continue
            if at not in saved:
                saved[at] = self.layout.save(sheet)
            node: Node = self.chance.choice(pieces)
            while node.parent is not None and self.chance.random() < 0.45:
                node = node.parent
            self._new += self.layout.remove(sheet, node)
        return saved

    def _recreate(self, saved: Kept) -> None:
        """Place what is left over and what was taken off, in an order drawn anew."""
        waiting = self.left + self._new
        keys = self.chance.choice(self._keys)
        noise = self.chance.choice((0.0, 0.2, 0.6))
        draw = self.chance.random
        waiting.sort(key=lambda kind: -keys[kind] * (1 - noise * draw()))
        self.left = []
        failed: set[int] = set()
        for kind in waiting:
            if kind in failed:
                self.left.append(kind)
            elif not self._insert(kind, saved):
                failed.add(kind)
                self.left.append(kind)

    def _insert(self, kind: int, saved: Kept) -> bool:
        sheets = self.layout.sheets
        found = self.layout.find(kind, sheets, self.chance)
        if found is None:
            return False
        sheet = found[0]
        at = next(i for i, s in enumerate(sheets) if s is sheet)
        if at not in saved:
            saved[at] = self.layout.save(sheet)
        self.layout.put(kind, found)
        return True

    def _undo(self, saved: Kept, before: list[int]) -> None:
        for at, state in saved.items():
            self.layout.restore(self.layout.sheets[at], state)
        self.left = before


def with_boards(best: Layout, boards: Sequence[Board]) -> tuple[Layout, list[int]]:
    """Return a copy of a layout on other boards, and the kinds that are left over.

    The fullest sheets of each board are kept; boards that the layout has not are empty.
    """
    layout = Layout(best.padded, rules_of(best.padded))
    wanted = list(boards)
    left: list[int] = []
    for sheet in sorted(best.sheets, key=lambda s: -s.used / s.board.area):
        if sheet.board in wanted:
            wanted.remove(sheet.board)
            kept = layout.open(sheet.board)
            layout.restore(kept, layout.save(sheet))
        else:
            left += [piece.kind for piece in sheet.root.pieces()]
    for board in wanted:
        layout.open(board)
    return layout, left
