"""Every way to share things among the openings of a tiny job, as arrays.

A *bundle* is what one kind may have in one opening, a *split* one bundle of a kind for each
opening, and *contents* are one split of each kind. All are tried, but for those that no marks
allow, and with the rules of :mod:`tests.eye_layout`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
from numpy.typing import NDArray

from solver.layout.layout_problem import Form, LayoutProblem, Spot, ThingsHeld
from tests.eye_late import front
from tests.eye_layout import Places, carries, kept_empty, needed, one_run, run, sags, spots

Array = NDArray[np.int64]
MOST_SPLITS = 6_000
MOST_STATES = 600_000


class TooLargeError(Exception):
    """The job is not tiny."""


FIGURES = ("things", "odd", "run", "wide", "need", "top", "front", "low", "places")
"""What is known of a bundle: things, places modulo two, run with one common gap, sum of widths,
clear height needed, highest top, fronts of the front row, sum of width times height of
places, number of places."""


@dataclass(frozen=True)
class Bundle:
    """Places of one kind in one opening, and their figures."""

    places: Places
    figures: tuple[int, ...]


@dataclass(frozen=True)
class Table:
    """Splits of one kind: `bundles` by split and opening, and an array for each figure."""

    bundles: list[tuple[Bundle, ...]]
    figures: Mapping[str, Array]

    @staticmethod
    def of(bundles: list[tuple[Bundle, ...]], openings: int) -> Table:
        """Make the arrays of a list of splits."""
        rows = [[bundle.figures for bundle in split] for split in bundles]
        cube = np.array(rows, dtype=np.int64).reshape(len(rows), openings, len(FIGURES))
        return Table(bundles, {name: cube[:, :, i] for i, name in enumerate(FIGURES)})


@dataclass(frozen=True)
class Contents:
    """Contents with certain numbers left out: split numbers by content and kind."""

    tables: tuple[Table, ...]
    splits: Array
    left: tuple[int, ...]

    def __len__(self) -> int:
        return len(self.splits)

    def of(self, kind: int, figure: str) -> Array:
        """A figure of a kind, by content and opening."""
        return self.tables[kind].figures[figure][self.splits[:, kind]]

    @cached_property
    def need(self) -> Array:
        """Clear height that each opening must have, by content and opening [tick]."""
        most: Array = np.max([self.of(k, "need") for k in range(len(self.tables))], axis=0)
        return most

    def chosen(self, rows: Array) -> Contents:
        """Only some of the contents."""
        return Contents(self.tables, self.splits[rows], self.left)

    def places(self, row: int) -> list[Places]:
        """The places of each opening."""
        splits = [t.bundles[s] for t, s in zip(self.tables, self.splits[row], strict=True)]
        return [tuple(p for bundle in some for p in bundle.places) for some in zip(*splits)]  # noqa: B905


class Sharing:
    """All contents of a problem, asked for by the numbers left out; `ceiling` by opening [tick]."""

    def __init__(self, problem: LayoutProblem, ceiling: Sequence[int]) -> None:
        self.problem, self.spots = problem, spots(problem)
        kept = kept_empty(problem)
        self._bundles = [
            [
                [NOTHING] if spot in kept else self._in_opening(k, spot, high)
                for spot, high in zip(self.spots, ceiling, strict=True)
            ]
            for k in range(len(problem.kinds))
        ]
        self._tables: dict[tuple[int, int], Table] = {}

    def losses(self) -> list[list[tuple[int, ...]]]:
        """Numbers left out by kind, those of the least loss first, equal ones together."""
        kinds = self.problem.kinds
        by_loss: dict[tuple[int, ...], list[tuple[int, ...]]] = {}
        for left in product(*(range(kind.count + 1) for kind in kinds)):
            area = [0, 0, 0]
            for kind, count in zip(kinds, left, strict=True):
                area[kind.keep] += kind.area * count
            by_loss.setdefault(tuple(area), []).append(left)
        return [by_loss[loss] for loss in sorted(by_loss)]

    def contents(self, left: tuple[int, ...]) -> Contents:
        """All contents that leave these numbers out."""
        tables = tuple(self._table(k, left[k]) for k in range(len(left)))
        bays = [self.problem.bays[b] for b, _ in self.spots]
        gap = self.problem.wishes.gap
        room = np.array([bay.run + gap for bay in bays])
        most = np.array([carries(bay, k) for bay, (_, k) in zip(bays, self.spots, strict=True)])
        splits = np.zeros((1, 0), dtype=np.int64)
        used = np.zeros((1, len(room)), dtype=np.int64)
        mass = used
        for table, kind in zip(tables, self.problem.kinds, strict=True):
            if len(splits) * len(table.bundles) > MOST_STATES:
                raise TooLargeError
            wide = used[:, None] + table.figures["run"][None]
            load = mass[:, None] + kind.mass * table.figures["things"][None]
            old, new = np.nonzero(((wide <= room) & (load <= most)).all(axis=2))
            splits = np.column_stack([splits[old], new])
            used, mass = wide[old, new], load[old, new]
        return self._grouped(Contents(tables, splits, left))

    def _grouped(self, contents: Contents) -> Contents:
        """Only contents in which groups stand in neighbouring openings of one bay."""
        kinds = self.problem.kinds
        for name in {kind.group for kind in kinds if kind.group is not None}:
            members = [k for k, kind in enumerate(kinds) if kind.group == name]
            used = np.any([contents.of(k, "things") > 0 for k in members], axis=0)
            runs = [
                one_run([s for s, on in zip(self.spots, row, strict=True) if on]) for row in used
            ]
            contents = contents.chosen(np.flatnonzero(runs))
        return contents

    def _in_opening(self, k: int, spot: Spot, ceiling: int) -> list[Bundle]:
        """Every bundle of a kind that an opening can take at its highest."""
        bay, kind = self.problem.bays[spot[0]], self.problem.kinds[k]
        fitting = [
            form
            for form in kind.forms
            if form.depth <= bay.deep and needed(self.problem, form, bay, spot[1]) <= ceiling
        ]
        if sags(self.problem, k, bay, spot[1]):
            fitting = []
        most = min(kind.count, carries(bay, spot[1]) // kind.mass)
        found: dict[object, Bundle] = {NOTHING.figures: NOTHING}
        for forms in _choices(fitting, most):
            places = tuple((form, form.things) for form in forms)
            if run(self.problem, places) <= bay.run:
                bundle = Bundle(places, self._figures(places, spot))
                alike = sorted((f.size[1], f.stack, f.rows, f.things) for f in forms)
                key = bundle.figures, tuple(alike) if kind.hero else ()
                found.setdefault(key, bundle)
        return list(found.values())

    def _figures(self, places: Places, spot: Spot) -> tuple[int, ...]:
        bay = self.problem.bays[spot[0]]
        return (
            sum(count for _, count in places),
            len(places) % 2,
            run(self.problem, places) + self.problem.wishes.gap,
            sum(form.width for form, _ in places),
            max(needed(self.problem, form, bay, spot[1]) for form, _ in places),
            max(form.height for form, _ in places),
            sum(front(form, count) for form, count in places),
            sum(form.width * form.height for form, _ in places),
            len(places),
        )

    def _table(self, k: int, left: int) -> Table:
        if (k, left) not in self._tables:
            splits = []
            for split in _splits(self._bundles[k], self.problem.kinds[k].count - left):
                if self._held(k, split):
                    splits.append(split)
                if len(splits) > MOST_SPLITS:
                    raise TooLargeError
            self._tables[k, left] = Table.of(splits, len(self.spots))
        return self._tables[k, left]

    def _held(self, k: int, split: tuple[Bundle, ...]) -> bool:
        here = {s: bundle.figures[0] for s, bundle in zip(self.spots, split, strict=True)}
        return all(
            sum(here[spot] for spot in one.openings) >= one.least
            for one in self.problem.holding.held
            if isinstance(one, ThingsHeld) and one.kind == k
        )


NOTHING = Bundle((), (0,) * len(FIGURES))


def _choices(forms: Sequence[Form], most: int) -> Iterator[tuple[Form, ...]]:
    """Every non-empty choice of forms, with repeats, of at most `most` things."""
    for i, form in enumerate(forms):
        if form.things <= most:
            yield (form,)
            for rest in _choices(forms[i:], most - form.things):
                yield (form, *rest)


def _splits(openings: Sequence[Sequence[Bundle]], things: int) -> Iterator[tuple[Bundle, ...]]:
    """Every choice of one bundle for each opening with so many things in all."""
    if not openings:
        if things == 0:
            yield ()
        return
    for bundle in openings[0]:
        if bundle.figures[0] <= things:
            for rest in _splits(openings[1:], things - bundle.figures[0]):
                yield (bundle, *rest)
