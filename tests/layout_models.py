"""Models of a layout by hand: one case in whole millimetres, some rules, some things held.

Boards of 20 mm without a back: 1000 x 1040 outside leaves 960 x 1000 mm inside. The bottom board
ends at 20 mm, so with one shelf at mark m the openings are m - 20 and 1000 - m high; with two the
middle one takes 20 less than what lies between the marks.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from ortools.sat.python import cp_model

from solver.layout.constraints import Rule
from solver.layout.goal import Goal
from solver.layout.layout_problem import Holding, LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.variables import LayoutVariables
from solver.units import TICKS_PER_MM
from tests.builders import make_job

Extra = Callable[[LayoutVariables], None]
FITS, NOT = cp_model.OPTIMAL, cp_model.INFEASIBLE
SHEET = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
CASE = {"width": "1000", "height": "1040", "depth": "300", "shelves": 1, "back": "none"}
PLAIN = {"headroom": "0", "gap": "10", "end_margin": "0", "clear_least": "100"}
NO_RULES: tuple[Rule, ...] = ()


def mm(length: int) -> int:
    """Millimetres in ticks."""
    return TICKS_PER_MM * length


def thing(name: str = "jug", **more: Any) -> dict[str, Any]:
    """A cube of 100 mm that weighs 1 kg."""
    return {"name": name, "width": "100", "height": "100", "depth": "100", "weight": "1 kg", **more}


def problem(
    *items: dict[str, Any],
    case: dict[str, Any] | None = None,
    held: Sequence[Any] = (),
    **look: Any,
) -> LayoutProblem:
    """A case of 960 x 1000 mm inside, one shelf unless the case says otherwise, marks each mm."""
    job = make_job(
        unit="mm",
        case={**CASE, **(case or {})},
        items=list(items) or [thing()],
        look={**PLAIN, **look},
        sheet=[SHEET],
        job={"marking_step": "1"},
    )
    one = job.cases[0]
    counts = {one.name: list(one.shelf_counts) * one.bay_count}
    built = build(job, counts, {one.name: mm(300)})
    return replace(built, holding=Holding(tuple(held))) if held else built


def model(
    asked: LayoutProblem, rules: Sequence[Rule], *extras: Extra, ranked: bool = False
) -> LayoutVariables:
    """A model of these rules alone."""
    v = LayoutVariables(cp_model.CpModel(), asked, merge=False, ranked=ranked)
    for rule in (*rules, *extras):
        rule(v)
    return v


def solved(v: LayoutVariables) -> cp_model.CpSolver | None:
    """The solver with its answer, None where there is none."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return solver if solver.solve(v.model) == FITS else None


def status(
    asked: LayoutProblem, rules: Sequence[Rule], *extras: Extra, ranked: bool = False
) -> int:
    """Whether a model of these rules alone has a solution."""
    return (
        int(FITS) if solved(model(asked, rules, *extras, ranked=ranked)) is not None else int(NOT)
    )


def least(
    asked: LayoutProblem,
    wish: Callable[[LayoutVariables], Goal],
    *extras: Extra,
    rules: Sequence[Rule] = NO_RULES,
    ranked: bool = False,
) -> int:
    """The least that a wish comes to, rounded down: it is reached, and nothing under it is."""
    v = model(asked, rules, *extras, ranked=ranked)
    goal = wish(v)
    v.model.minimize(goal.expression)
    solver = solved(v)
    assert solver is not None
    return int(goal.unit * round(solver.objective_value))


def marks(*numbers: int, c: int = 0) -> Extra:
    """Hold the marks of a bay, the first one unless said."""

    def hold(v: LayoutVariables) -> None:
        for shelf, number in enumerate(numbers, start=1):
            v.model.add(v.mark(c, shelf) == number)

    return hold


def heights(*millimetres: int) -> Extra:
    """Hold the clear heights of the first bay, by rank in a ranked model."""

    def hold(v: LayoutVariables) -> None:
        for k, height in enumerate(millimetres):
            v.model.add(v.height(0, k) == mm(height))

    return hold


def stands(count: int, opening: int, *, kind: int = 0, c: int = 0) -> Extra:
    """So many things of a kind stand in an opening of a bay, the first one unless said."""

    def hold(v: LayoutVariables) -> None:
        v.model.add(v.count(kind, c, opening) == count)

    return hold


def row(*kinds: int, kind: int = 0) -> Extra:
    """So many things of a kind in each opening of the first bay, lowest first."""

    def hold(v: LayoutVariables) -> None:
        for opening, count in enumerate(kinds):
            v.model.add(v.count(kind, 0, opening) == count)

    return hold


def only(opening: int, *, stack: int = 1, lying: bool = False) -> Extra:
    """What stands in an opening of the first bay stands in such forms only."""

    def hold(v: LayoutVariables) -> None:
        for form, places in v.places(0, opening).items():
            if form.stack != stack or form.lying != lying:
                v.model.add(places == 0)

    return hold


def all_placed(v: LayoutVariables) -> None:
    """Nothing is left out."""
    for left in v.left.values():
        v.model.add(left == 0)
