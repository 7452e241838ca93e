"""The sheets and mouldings that a set of parts needs: one cutting problem for each material."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.carcass.boards_of_case import case_parts
from solver.cutting.cutting_answer import Answer, SheetAnswer, StickAnswer
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.solve_sheets import solve_cutting
from solver.job.job import Job
from solver.job.materials import MouldingStock, SheetStock
from solver.outcome import Limits, Status
from solver.plan.on_hand import UsedPiece
from solver.plan.stocked import Part, Sheet, Stick
from solver.sizing.on_hand_outcome import sticks_around
from solver.sizing.on_hand_use import PieceMatch, cut_around, match, with_on_hand
from solver.sticks.solve_sticks import solve_sticks
from solver.trim.moulding_pieces import moulding_pieces
from solver.units import Ticks

ZERO = Decimal("0.00")


@dataclass(frozen=True)
class StockAnswer:
    """Sheets and mouldings for one set of parts.

    `price` and `bound` are money where everything bought has a price (`priced`); a sheet
    without one costs its area, in square ticks, and then only `weight` compares answers.
    """

    sheets: tuple[Sheet, ...]
    sticks: tuple[Stick, ...]
    sheets_price: Decimal
    sticks_price: Decimal
    bound: Decimal
    sheet_count: int
    sheet_bound: int
    proven: bool
    priced: bool
    cut: tuple[SheetAnswer, ...] = ()
    """The answer for each material, in the order of the sheets."""
    used: tuple[UsedPiece, ...] = ()
    """Parts that are there already."""

    @property
    def price(self) -> Decimal:
        """Price of sheets and mouldings together."""
        return self.sheets_price + self.sticks_price

    @property
    def area(self) -> int:
        """Area of the sheets bought [square tick]."""
        return sum(s.length * s.width for s in self.sheets if not s.on_hand)

    @property
    def area_unpriced(self) -> int:
        """Area of the sheets bought that have no price [square tick]."""
        return sum(s.length * s.width for s in self.sheets if not s.on_hand and s.price is None)

    @property
    def weight(self) -> tuple[Decimal, int, int]:
        """What is compared: price, then area bought, then sheets bought."""
        return self.price, self.area, self.sheet_count


def sheet_parts(
    job: Job, counts: Mapping[str, Sequence[int]], depths: Mapping[str, Ticks]
) -> tuple[Part, ...]:
    """All sheet parts of the job."""
    return tuple(
        part
        for case in job.cases
        for part in case_parts(job, case, counts[case.name], depths[case.name])
    )


class Cutter:
    """Cuts each problem once, and remembers what came of it."""

    def __init__(self, limits: Limits) -> None:
        self._limits = limits
        self._sheets: dict[CuttingProblem, SheetAnswer] = {}
        self._sticks: dict[StickProblem, StickAnswer] = {}

    def sheets(self, problem: CuttingProblem) -> SheetAnswer:
        """Return the sheets of a problem."""
        if problem not in self._sheets:
            self._sheets[problem] = solve_cutting(problem, self._limits)
        return self._sheets[problem]

    def sticks(self, problem: StickProblem) -> StickAnswer:
        """Return the sticks of a problem."""
        if problem not in self._sticks:
            self._sticks[problem] = solve_sticks(problem, self._limits)
        return self._sticks[problem]


class Buyer:
    """Finds the stock for shelf counts and sizes, and remembers what it found.

    Within one material the parts depend on the case's sizes and counts only, never on
    where the shelves go, so layout and cutting meet in these few numbers. Each list of
    parts is cut once: a back does not change with the depth, nor with the shelf count.
    """

    def __init__(self, job: Job, limits: Limits) -> None:
        self.job, self.limits = job, limits
        self._cutter = Cutter(limits)
        self._around: dict[CuttingProblem, tuple[PieceMatch, SheetAnswer]] = {}

    def stock(
        self,
        counts: Mapping[str, Sequence[int]],
        depths: Mapping[str, Ticks],
        job: Job | None = None,
    ) -> StockAnswer:
        """Sheets and mouldings to buy, with proven bounds; CannotBeDoneError where none will do.

        `job` is the job with its sizes settled, where any are open.
        """
        job = job or self.job
        by_material: dict[str, list[Part]] = defaultdict(list)
        for part in sheet_parts(job, counts, depths):
            by_material[part.material].append(part)
        cut, used = [], []
        for material, parts in by_material.items():
            matched, answer = self._cut_around(material, parts)
            cut.append(answer)
            used += matched.used
        stick_matches = [
            sticks_around(job, problem) for problem in self._whole_sticks(counts, depths, job)
        ]
        sticks = [self._cutter.sticks(problem) for problem, _ in stick_matches]
        used += [one for _, some in stick_matches for one in some]
        answers: list[Answer] = [*cut, *sticks]
        return StockAnswer(
            sheets=tuple(sheet for answer in cut for sheet in answer.stock),
            sticks=tuple(stick for answer in sticks for stick in answer.stock),
            sheets_price=sum((a.cost for a in cut), ZERO),
            sticks_price=sum((a.cost for a in sticks), ZERO),
            bound=sum((a.cost_bound for a in answers), ZERO),
            sheet_count=sum(a.count for a in cut),
            sheet_bound=sum(a.count_bound for a in cut),
            proven=all(a.status is Status.OPTIMAL for a in answers),
            priced=all(a.priced for a in answers),
            cut=tuple(cut),
            used=tuple(used),
        )

    def _cut_around(self, material: str, parts: Sequence[Part]) -> tuple[PieceMatch, SheetAnswer]:
        """Cut the parts of one material around what is there of it."""
        whole = self._whole(material, parts)
        if not self.job.have:
            return PieceMatch(), self._cutter.sheets(whole)
        if whole not in self._around:
            self._around[whole] = cut_around(self.job, material, parts, whole, self._cutter.sheets)
        return self._around[whole]

    def problem(self, material: str, parts: Sequence[Part]) -> CuttingProblem:
        """Return the cutting problem of the parts of one material, around what is there."""
        whole = self._whole(material, parts)
        if not self.job.have:
            return whole
        matched = self._around[whole][0] if whole in self._around else None
        return with_on_hand(whole, material, matched or match(self.job, material, parts))

    def _whole(self, material: str, parts: Sequence[Part]) -> CuttingProblem:
        """Return the problem of the parts of one material, all to be cut."""
        shop = self.job.shop
        return CuttingProblem(
            parts=tuple(CutPart(p.id, p.length, p.width, p.grain == "any") for p in parts),
            sheets=tuple(_sheet(s) for s in self.job.sheets if s.material == material),
            kerf=shop.kerf,
            edge_trim=shop.edge_trim,
            margin=shop.margin,
            stages=shop.stages,
            trimming=shop.trimming,
            first_cut=shop.first_cut,
            unit=self.job.unit,
        )

    def stick_problems(
        self,
        counts: Mapping[str, Sequence[int]],
        depths: Mapping[str, Ticks],
        job: Job | None = None,
    ) -> list[StickProblem]:
        """Return the cutting problem of each moulding; arguments as for :meth:`stock`."""
        job = job or self.job
        whole = self._whole_sticks(counts, depths, job)
        return [sticks_around(job, problem)[0] for problem in whole]

    def _whole_sticks(
        self, counts: Mapping[str, Sequence[int]], depths: Mapping[str, Ticks], job: Job
    ) -> list[StickProblem]:
        """Return the problem of each moulding, all pieces to be cut."""
        pieces: dict[str, list[StickPart]] = defaultdict(list)
        for case in job.cases:
            for ident, moulding, length in moulding_pieces(
                job, case, counts[case.name], depths[case.name]
            ):
                pieces[moulding].append(StickPart(ident, length))
        return [
            StickProblem(
                tuple(found),
                _lengths(self.job.moulding(name)),
                self.job.shop.kerf,
                self.job.unit,
                self.job.shop.margin,
            )
            for name, found in pieces.items()
        ]


def _sheet(s: SheetStock) -> CutSheet:
    return CutSheet(s.name, s.material, s.length, s.width, s.price, s.on_hand, s.limit)


def _lengths(moulding: MouldingStock) -> tuple[StickStock, ...]:
    return tuple(
        StickStock(moulding.name, s.length, s.price, s.on_hand, s.limit) for s in moulding.lengths
    )
