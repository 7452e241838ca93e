"""Lists of parts with what they are cut from now, ready to be advised on."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from solver.changes.change_models import lot_of
from solver.changes.saving_changes import AdviceScope, Advised, advise
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.solve_sheets import solve_cutting
from solver.job.materials import Grain
from solver.outcome import Limits
from solver.plan.stocked import Part
from solver.sticks.solve_sticks import solve_sticks
from solver.units import Ticks, inches

Row = tuple[str, Ticks, Ticks, int]
"""Name, length and width [tick, tick], how many [-]."""

WORK = 0.5


def parts_of(rows: Sequence[Row], grain: Grain = "length") -> tuple[Part, ...]:
    """The parts of a list; those of one name are numbered."""
    return tuple(
        Part(
            id=f"{name}#{number}",
            name=name,
            case="",
            material="ply",
            length=length,
            width=width,
            thickness=0,
            grain=grain,
        )
        for name, length, width, count in rows
        for number in range(1, count + 1)
    )


def problem_of(
    parts: Sequence[Part], size: tuple[Ticks, Ticks], price: str | None = "65", **rules: Any
) -> CuttingProblem:
    """The problem of cutting them from one size of sheet, with a kerf of 1/8 in."""
    cut = tuple(
        CutPart(p.id, p.width, p.length, may_turn=False)
        if p.grain == "width"
        else CutPart(p.id, p.length, p.width, p.grain == "any")
        for p in parts
    )
    sheet = CutSheet("board", "ply", *size, None if price is None else Decimal(price))
    return CuttingProblem(cut, (sheet,), **{"kerf": inches("1/8"), **rules})


def advised(problem: CuttingProblem, parts: Sequence[Part], **asked: Any) -> Advised:
    """What is advised on a problem as it is cut now."""
    answer = solve_cutting(problem, Limits(work=WORK))
    lot = lot_of("ply", problem, answer.stock)
    wanted = AdviceScope({p.id: p for p in parts}, problem.unit, problem.margin, **asked)
    return advise([lot], wanted, Limits(work=WORK))


def advised_on(
    rows: Sequence[Row], size: tuple[Ticks, Ticks], grain: Grain = "length", **rules: Any
) -> Advised:
    """What is advised on a list of parts."""
    parts = parts_of(rows, grain)
    return advised(problem_of(parts, size, **rules), parts)


def advised_on_sticks(lengths: Sequence[Ticks], stick: Ticks, kerf: Ticks) -> Advised:
    """What is advised on pieces of moulding."""
    parts = parts_of([(f"piece {i}", length, 0, 1) for i, length in enumerate(lengths)])
    pieces = tuple(StickPart(part.id, part.length) for part in parts)
    problem = StickProblem(pieces, (StickStock("lip", stick, Decimal("9.60")),), kerf)
    lot = lot_of("lip", problem, solve_sticks(problem, Limits(work=WORK)).stock)
    return advise([lot], AdviceScope({p.id: p for p in parts}, "in", 0), Limits(work=WORK))
