"""Cut plans of any cutting problem and shop, for tests of the order of cuts."""

from __future__ import annotations

from typing import Any

from solver.cutting.cutting_problem import CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.job.assumed import explicit_defaults
from solver.job.job import Shop
from solver.outcome import Limits
from solver.plan.plan import Cost, CutPlan, Timing, money
from solver.plan.stocked import Part, Sheet
from solver.sequence.sequencing import sequence

SAWS = ("guided saw", "table saw", "mitre saw", "panel saw")


def a_shop(asked: CuttingProblem | None = None, **given: Any) -> Shop:
    """The shop of the defaults, with the kerf and the like of a problem; lengths in ticks."""
    own: dict[str, Any] = {}
    if asked is not None:
        own = {"kerf": asked.kerf, "edge_trim": asked.edge_trim, "margin": asked.margin}
    return Shop.model_validate({**explicit_defaults("shop", "mm"), **own, **given})


def parts_of(asked: CuttingProblem) -> tuple[Part, ...]:
    """The parts of a problem as the plan's."""
    return tuple(
        Part(
            id=part.id,
            name=part.id.partition("#")[0],
            case="",
            material=asked.sheets[0].material,
            length=part.length,
            width=part.width,
            thickness=0,
            grain="any" if part.may_turn else "length",
        )
        for part in asked.parts
    )


def cut_plan(asked: CuttingProblem, shop: Shop, work: float = 0.2) -> CutPlan:
    """Cut a problem and put the cuts in order."""
    answer = solve_cutting(asked, Limits(work=work))
    ordered = sequence(answer.stock, shop, parts_of(asked))
    return CutPlan(
        unit="mm",
        status=answer.status,
        sheets=ordered.sheets,
        settings=ordered.settings,
        shop=shop,
        sheet_count=answer.count,
        sheet_bound=answer.count_bound,
        cost=Cost(
            currency="EUR",
            sheets=answer.cost,
            mouldings=money(0),
            stock_bound=answer.cost_bound,
            total=answer.cost,
            complete=answer.priced,
        ),
        parts=parts_of(asked),
        timing=Timing(seconds=0.0),
    )


def cuts_in_all(sheets: tuple[Sheet, ...]) -> int:
    """How many cuts all sheets take."""
    return sum(len(sheet.cuts) for sheet in sheets)
