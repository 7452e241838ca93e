"""Matched shelves, a wish of the job: the shelves of a case from one sheet, in sequence.

Granted wherever the stock costs no more; the bounds are those without the wish.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import CutPart, CuttingProblem
from solver.cutting.matched_sets import numbered, solve_matched
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.stocked import MatchedSet, Part
from solver.sizing.choose_sizes import ChosenSizes
from solver.sizing.combinations import Counts
from solver.sizing.purchase import ZERO, Buyer, StockAnswer, sheet_parts

SHELF = "shelf"
"""Name of the parts that a matched case wishes from one sheet."""


def set_name(case: str) -> str:
    """Return the name of the set of a case's shelves."""
    return f"{case}: shelves"


def with_sets(
    buyer: Buyer, sized: ChosenSizes, counts: Counts, limits: Limits
) -> tuple[ChosenSizes, tuple[MatchedSet, ...]]:
    """Return sizes with a stock that has matched shelves wherever they cost nothing more.

    `sized` has the stock without the wish.
    """
    stock, parts = sized.stock, sheet_parts(sized.job, counts, sized.depths)
    wished = _wished(buyer.job, parts)
    if not wished:
        return sized, ()
    by_material: dict[str, list[Part]] = defaultdict(list)
    for part in parts:
        by_material[part.material].append(part)
    found = [
        solve_matched(_named(buyer.problem(material, some), wished), limits, answer)
        for (material, some), answer in zip(by_material.items(), stock.cut, strict=True)
    ]
    stock = _stock(stock, [one.answer for one in found])
    return replace(sized, stock=stock), numbered(found)


def _wished(job: Job, parts: Sequence[Part]) -> Mapping[str, str]:
    """Return the set of each part that is wished to match."""
    cases = {case.name for case in job.cases if case.matched}
    return {p.id: set_name(p.case) for p in parts if p.name == SHELF and p.case in cases}


def _named(problem: CuttingProblem, wished: Mapping[str, str]) -> CuttingProblem:
    parts: tuple[CutPart, ...] = tuple(
        replace(part, set=wished.get(part.id)) for part in problem.parts
    )
    return replace(problem, parts=parts)


def _stock(stock: StockAnswer, cut: Sequence[SheetAnswer]) -> StockAnswer:
    """Return the stock with other sheets: they cost no more, its bounds hold as they are."""
    return replace(
        stock,
        sheets=tuple(sheet for answer in cut for sheet in answer.stock),
        sheets_price=sum((answer.cost for answer in cut), ZERO),
        sheet_count=sum(answer.count for answer in cut),
        cut=tuple(cut),
    )
