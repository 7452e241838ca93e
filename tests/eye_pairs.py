"""Contents on marks: all layouts of a tiny job that are best in the stages before the rhythm.

The scores of contents are worked out here on arrays; :mod:`tests.eye_wishes` has them again, one
layout at a time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.layout.layout_problem import Kind, LayoutProblem
from tests.eye_contents import Array, Contents
from tests.eye_layout import Layout, floor_of, kept_empty, spots
from tests.eye_wishes import HERO, families, spread, twice_centres, wished_opening

MOST_CELLS = 2_000_000
"""Most pairs of contents and marks that are looked at in one go [-]."""
NEVER = np.int64(2**62)

FIRST = ("asked", "empty", "mirrored", "headings", "together", "alone")
"""Stages of what stands where, which come before the rhythm."""


@dataclass
class Pairs:
    """Contents and marks of the best layouts so far, pair by pair, for certain things left out."""

    problem: LayoutProblem
    marks: list[Layout]
    high: Array
    contents: Contents
    first: tuple[int, ...]
    n: Array
    m: Array

    @staticmethod
    def least(
        problem: LayoutProblem, marks: list[Layout], high: Array, contents: Contents
    ) -> Pairs | None:
        """All layouts that are best in the stages before the rhythm."""
        fixed = _fixed(problem, contents)
        radix = [int(column.max()) + 1 for column in fixed[1:]]
        weights = [int(np.prod(radix[i:], dtype=object)) for i in range(len(radix))] + [1]
        code: Array = np.sum([w * one for w, one in zip(weights, fixed, strict=True)], axis=0)
        order = np.argsort(code, kind="stable")
        lowest = NEVER
        n: list[Array] = []
        m: list[Array] = []
        size = max(1, MOST_CELLS // len(high))
        for start in range(0, len(order), size):
            rows = order[start : start + size]
            if code[rows[0]] > lowest:
                break
            some = contents.chosen(rows)
            fits = (some.need[:, None] <= high[None]).all(axis=2)
            whole = code[rows][:, None] + weights[0] * _asked_of_marks(problem, some, marks)
            whole = np.where(fits, whole, NEVER)
            if whole.min() < lowest:
                lowest, n, m = whole.min(), [], []
            if lowest < NEVER:
                at, marked = np.nonzero(whole == lowest)
                n.append(rows[at])
                m.append(marked)
        if lowest == NEVER:
            return None
        rows, values, rest = np.concatenate(n), [], int(lowest)
        for weight in weights:
            values.append(rest // weight)
            rest %= weight
        return Pairs(problem, marks, high, contents, tuple(values), rows, np.concatenate(m))

    def of_marks(self, value: Callable[[LayoutProblem, Layout], int]) -> Array:
        """A score of the marks alone, by pair."""
        found = {m: value(self.problem, self.marks[m]) for m in np.unique(self.m)}
        return np.array([found[m] for m in self.m], dtype=np.int64)

    def kept(self, which: NDArray[np.bool_]) -> Pairs:
        """Only some of the pairs."""
        rest = (self.problem, self.marks, self.high, self.contents, self.first)
        return Pairs(*rest, self.n[which], self.m[which])

    def figure(self, name: str) -> list[Array]:
        """A figure of each kind, by pair and opening."""
        some = self.contents.chosen(self.n)
        return [some.of(k, name) for k in range(len(self.problem.kinds))]

    def layout(self, pair: int) -> Layout:
        """One of the layouts."""
        places = self.contents.places(int(self.n[pair]))
        there = dict(zip(spots(self.problem), places, strict=True))
        left = dict(enumerate(self.contents.left))
        return Layout(self.marks[self.m[pair]].marks, there, left)


def _fixed(problem: LayoutProblem, contents: Contents) -> list[Array]:
    """Scores of contents in the order of `FIRST`, without what depends on the marks."""
    kinds, where = problem.kinds, spots(problem)
    things = [contents.of(k, "things") for k in range(len(kinds))]
    counted = np.array([spot not in kept_empty(problem) for spot in where])
    nothing = (sum(things) == 0) & counted
    odd = sum(contents.of(k, "odd") for k in range(len(kinds)))
    used = [some > 0 for some in things]
    lone = np.zeros(len(contents), dtype=np.int64)
    asked = np.zeros(len(contents), dtype=np.int64)
    for kind, here in zip(kinds, things, strict=True):
        total = here.sum(axis=1)
        if kind.count >= 3:
            lone += ((here == 1) & (total > 1)[:, None]).sum(axis=1)
        if kind.together:
            asked += total - here.max(axis=1)
        if kind.where is not None and kind.where != "eye":
            asked += here[:, [not _is_wished(problem, kind, b, k) for b, k in where]].sum(axis=1)
    return [
        asked,
        nothing.sum(axis=1),
        np.maximum(0, odd - 1).sum(axis=1),
        _headings(problem, used, len(contents)),
        np.sum([np.maximum(0, some.sum(axis=1) - 1) for some in used], axis=0),
        lone,
    ]


def _is_wished(problem: LayoutProblem, kind: Kind, bay: int, opening: int) -> bool:
    return opening == {"low": 0, "top": problem.bays[bay].shelves}.get(str(kind.where), kind.where)


def _headings(problem: LayoutProblem, used: list[NDArray[np.bool_]], count: int) -> Array:
    total, where = np.zeros(count, dtype=np.int64), spots(problem)
    for kinds in families(problem):
        on = np.any([used[k] for k in kinds], axis=0)
        rows, back = np.unique(on, axis=0, return_inverse=True)
        spreads = [spread([s for s, one in zip(where, row, strict=True) if one]) for row in rows]
        total += np.array(spreads, dtype=np.int64)[back.reshape(-1)]
    return total


def _asked_of_marks(problem: LayoutProblem, contents: Contents, marks: list[Layout]) -> Array:
    """Things that miss what depends on the marks: eye level, heroes, fragile; by content, marks."""
    total = np.zeros((len(contents), len(marks)), dtype=np.int64)
    if not any(k.where == "eye" or k.hero or k.fragile for k in problem.kinds):
        return total
    where, floor = spots(problem), [floor_of(problem, one) for one in marks]
    high = np.array([[one[spot] for spot in where] for one in floor])
    for k, kind in enumerate(problem.kinds):
        here = contents.of(k, "things")
        if kind.fragile:
            total += here @ (high < problem.wishes.fragile_floor).T.astype(np.int64)
        if kind.where == "eye":
            eye = [[wished_opening(problem, m, kind, b) for b, _ in where] for m in marks]
            total += here @ (np.array(eye) != [n for _, n in where]).T.astype(np.int64)
        if kind.hero:
            total += _heroes_missed(contents, k, high)
    return total


def _heroes_missed(contents: Contents, kind: int, high: Array) -> Array:
    """Things of a kind with their middles elsewhere than at eye level, by content and marks."""
    table = contents.tables[kind]
    missed = np.zeros((len(table.bundles), len(high)), dtype=np.int64)
    for s, split in enumerate(table.bundles):
        for o, bundle in enumerate(split):
            for form, count in bundle.places:
                for twice in twice_centres(form, count):
                    at = 2 * high[:, o] + twice
                    missed[s] += (at < 2 * HERO[0]) | (at > 2 * HERO[1])
    return missed[contents.splits[:, kind]]
