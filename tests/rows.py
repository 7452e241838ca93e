"""Rows of one opening for tests: things drawn by hand, composed, and scored anew from the spots."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any

from solver.job.job import Job
from solver.layout.composition import Composed, compose
from solver.layout.layout_problem import LayoutProblem, Place, ThingsHeld
from solver.layout.problem_from_job import build
from solver.layout.row_spots import Spot
from solver.units import TICKS_PER_MM, Ticks
from tests.builders import make_job

MARGIN = 15 * TICKS_PER_MM
GAP = 10 * TICKS_PER_MM
DEPTH = 194 * TICKS_PER_MM


def thing(name: str, width: int, height: int, count: int = 1, **more: Any) -> dict[str, Any]:
    """One line of things, in millimetres; light, so that no shelf sags."""
    sizes = {"width": str(width), "height": str(height), "depth": "60", "weight": "10 g"}
    return {"name": name, "count": count, **sizes, **more}


class Row:
    """All things of a list in one opening of a case 750 mm wide outside, 714 mm clear."""

    def __init__(self, *items: dict[str, Any], **look: Any) -> None:
        case = look.pop("case", {})
        look = {"gap": "10", "end_margin": "15", **look}
        self.job: Job = make_job(unit="mm", items=list(items), look=look, case=case)
        name = self.job.cases[0].name
        counts = {name: self.job.cases[0].shelf_counts}
        self.problem: LayoutProblem = build(self.job, counts, {name: DEPTH})
        self.bay = self.problem.bays[0]
        self.width = self.bay.width

    @property
    def places(self) -> list[Place]:
        """Every thing by itself in its plain form."""
        return [
            (kind.forms[0], kind.forms[0].things)
            for kind in self.problem.kinds
            for _ in range(kind.count // kind.forms[0].things)
        ]

    def composed(
        self, places: Sequence[Place] | None = None, held: Sequence[ThingsHeld] = ()
    ) -> Composed:
        """Compose them on a shelf."""
        there = self.places if places is None else places
        board = (DEPTH, 1)
        return compose(self.job, self.job.cases[0], self.problem, self.bay, board, there, held)

    def names(self, row: Composed) -> list[str]:
        """Names of what stands on the floor, from left to right."""
        return [self.problem.kinds[spot.kind].name for spot in front(row.spots)]

    def gaps(self, row: Composed) -> list[Ticks]:
        """Free widths from the left side to the right one, ends included [tick]."""
        edges = [e for s in front(row.spots) for e in (s.x, s.x + s.form.width)]
        edges = [0, *edges, self.width]
        return [high - low for low, high in zip(edges[::2], edges[1::2], strict=True)]

    def mirrored(self, row: Composed) -> bool:
        """Whether a row is its own mirror image, to the tick that an odd width leaves."""
        there = front(row.spots)
        turned = [(s.kind, self.width - s.x - s.form.width) for s in reversed(there)]
        return all(
            s.kind == kind and abs(s.x - x) <= 1 for s, (kind, x) in zip(there, turned, strict=True)
        )

    def score(self, row: Composed) -> tuple[int, Ticks, int, int]:
        """Outline missed [per mille], rises [tick], blocks, moment [cm3], by their definitions.

        The outline is looked at between every two edges of things or of their mirror images.
        """
        there, full = front(row.spots), self.width
        kinds = [spot.kind for spot in there]

        def high(x: Fraction) -> Ticks:
            return max((s.form.height for s in there if s.x < x < s.x + s.form.width), default=0)

        cuts = {0, full}
        for s in there:
            cuts |= {s.x, s.x + s.form.width, full - s.x, full - s.x - s.form.width}
        ordered = sorted(cuts)
        lost = Fraction(0)
        for low, up in zip(ordered, ordered[1:], strict=False):
            middle = Fraction(low + up, 2)
            lost += (up - low) * abs(high(middle) - high(full - middle))
        area = sum(s.form.width * s.form.height for s in there)
        other = sum(a != b for a, b in zip(kinds, reversed(kinds), strict=True))
        missed = (lost / (2 * area) + Fraction(other, len(kinds))) / 2
        ways = [Fraction(2 * s.x + s.form.width - full, 2) for s in there]
        rises = 0
        for a, b, far_a, far_b in zip(there, there[1:], ways, ways[1:], strict=False):
            outer, inner = (a, b) if abs(far_a) > abs(far_b) else (b, a)
            if abs(far_a) != abs(far_b):
                rises += max(0, outer.form.height - inner.form.height)
        weighed = zip(there, ways, strict=True)
        moment = abs(sum(s.form.width * s.form.height * way for s, way in weighed))
        families = [
            self.problem.kinds[kind].group or self.problem.kinds[kind].heading for kind in kinds
        ]
        runs = len(list(groupby(kinds))) + sum(f is not None for f, _ in groupby(families))
        cubic_cm = (10 * TICKS_PER_MM) ** 3
        return int(1000 * missed) // 40 * 40, rises, runs, int(moment / cubic_cm)


def front(spots: Sequence[Spot]) -> list[Spot]:
    """What stands on the floor in the front row, from left to right."""
    return sorted((s for s in spots if s.on is None and s.row == 1), key=lambda s: s.x)
