"""Rows of one opening for tests: things drawn by hand, composed, and scored anew from the spots."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Any

from solver.job.job import Job
from solver.layout.composition import Composed, compose
from solver.layout.layout_problem import Form, LayoutProblem, Place, ThingsHeld
from solver.layout.problem_from_job import build
from solver.layout.row_spots import Spot
from solver.units import TICKS_PER_MM, Ticks
from tests.builders import make_job

MARGIN = 15 * TICKS_PER_MM
GAP = 10 * TICKS_PER_MM
DEPTH = 194 * TICKS_PER_MM


def thing(name: str, width: int, height: int, count: int = 1, **more: Any) -> dict[str, Any]:
    """One line of things, in millimetres; light, so that no shelf sags."""
    sizes = {"width": f"{width} mm", "height": f"{height} mm", "depth": "60 mm", "weight": "10 g"}
    return {"name": name, "count": count, **sizes, **more}


class Row:
    """All things of a list in one opening of a case 750 mm wide outside, 714 mm clear."""

    def __init__(self, *items: dict[str, Any], **look: Any) -> None:
        case, unit = look.pop("case", {}), look.pop("unit", "mm")
        look = {"gap": "10 mm", "end_margin": "15 mm", **look}
        self.job: Job = make_job(unit=unit, items=list(items), look=look, case=case)
        self.case = self.job.cases[0]
        self.problem = self.with_shelves(3)
        self.bay = self.problem.bays[0]
        self.width = self.bay.width

    def with_shelves(self, *counts: int) -> LayoutProblem:
        """Build the problem with these shelf counts, one a bay."""
        return build(self.job, {self.case.name: counts}, {self.case.name: DEPTH})

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
        return compose(self.job, self.case, self.problem, self.bay, board, there, held)

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
        """Score a row anew: outline missed [per mille], rises [tick], blocks, moment [cm3]."""
        seen: list[tuple[Form, Fraction]] = []
        for form, x in ((spot.form, Fraction(spot.x)) for spot in front(row.spots)):
            if seen and seen[-1][0].kind == form.kind and right_of(seen[-1]) == x:
                last, start = seen.pop()
                wide, high = last.width + form.width, max(last.height, form.height)
                seen.append((replace(last, width=wide, height=high), start))
            else:
                seen.append((form, x))
        return self.score_at(seen)

    def score_at(self, row: Sequence[tuple[Form, Fraction]]) -> tuple[int, Ticks, int, int]:
        """The same of fronts at left edges [tick], by the definitions; books that touch are one."""
        shares = [self._met(row, form, x) for form, x in row]
        form, x = row[len(row) // 2]
        if len(row) % 2 and x < Fraction(self.width, 2) < x + form.width:
            shares[len(row) // 2] = Fraction(1)
        missed = Fraction(sum(1000 - int(1000 * share) for share in shares), len(row))
        ways = [x + Fraction(form.width - self.width, 2) for form, x in row]
        rises = 0
        for (a, far_a), (b, far_b) in pairwise(zip((f for f, _ in row), ways, strict=True)):
            outer, inner = (a, b) if abs(far_a) > abs(far_b) else (b, a)
            if abs(far_a) != abs(far_b):
                rises += max(0, outer.height - inner.height)
        moments = (f.width * f.height * way for (f, _), way in zip(row, ways, strict=True))
        moment = abs(sum(moments, Fraction(0))) / (10 * TICKS_PER_MM) ** 3
        kinds = [form.kind for form, _ in row]
        there = [self.problem.kinds[kind] for kind in kinds]
        families = [kind.group or kind.heading for kind in there]
        runs = len(list(groupby(kinds))) + sum(f is not None for f, _ in groupby(families))
        return int(missed) // 40 * 40, rises, runs, int(moment)

    def _met(self, row: Sequence[tuple[Form, Fraction]], one: Form, left: Fraction) -> Fraction:
        """Share of a front that meets fronts of its kind in the mirror image [-]."""
        met = Fraction(0)
        for form, x in row:
            if form.kind == one.kind:
                low, up = self.width - x - form.width, self.width - x
                wide = max(Fraction(0), min(up, left + one.width) - max(low, left))
                met += wide * min(form.height, one.height)
        return met / (one.width * one.height)


def right_of(placed: tuple[Form, Fraction]) -> Fraction:
    """Right edge of a form at its left edge [tick]."""
    return placed[1] + placed[0].width


def front(spots: Sequence[Spot]) -> list[Spot]:
    """What stands on the floor in the front row, from left to right."""
    return sorted((s for s in spots if s.on is None and s.row == 1), key=lambda s: s.x)
