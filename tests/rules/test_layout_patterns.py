"""Patterns listed: they allow just what fits, where widths added up allow more."""

from __future__ import annotations

from itertools import product
from random import Random

from ortools.sat.python import cp_model

from solver.layout import opening_patterns
from solver.layout.counting_cuts import enough_openings
from solver.layout.layout_problem import LayoutProblem
from solver.layout.master_problem import BARE_RULES, marks_model
from solver.layout.opening_patterns import ALWAYS, listed, one_pattern_each
from solver.layout.problem_from_job import build
from solver.layout.variables import LayoutVariables
from solver.units import mm
from tests.builders import make_job

# 20 mm boards without a back: 460 mm wide and 480 mm high inside, one shelf, so two openings
SHEET = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
CASE = {"width": "500", "height": "540", "depth": "300", "shelves": 1, "back": "none"}
GAP = 10
RUN = 460
LOAD = 12


def thing(number: int, width: int, count: int, mass: int) -> dict[str, str | int]:
    return {
        "name": f"thing {number}",
        "width": str(width),
        "height": "150",
        "depth": "100",
        "weight": f"{mass} kg",
        "count": count,
    }


def problem(*things: tuple[int, int, int]) -> LayoutProblem:
    """Things of (width [mm], count, mass [kg]), all of one height, no headroom, no end margin."""
    job = make_job(
        unit="mm",
        case=CASE,
        items=[thing(n, *one) for n, one in enumerate(things)],
        look={
            "headroom": "0",
            "gap": str(GAP),
            "end_margin": "0",
            "clear_least": "100",
            "shelf_load": f"{LOAD} kg",
        },
        sheet=[SHEET],
        job={"marking_step": "1"},
    )
    return build(job, {"case": (1,)}, {"case": mm(300)})


def fits(*things: tuple[int, int, int]) -> bool:
    """Try every way of standing the things in two openings."""
    singles = [(width, mass) for width, count, mass in things for _ in range(count)]
    for sides in product((0, 1), repeat=len(singles)):
        held = [
            [one for one, at in zip(singles, sides, strict=True) if at == side] for side in (0, 1)
        ]
        if all(
            sum(width + GAP for width, _ in one) <= RUN + GAP
            and sum(mass for _, mass in one) <= LOAD
            for one in held
        ):
            return True
    return False


def solved(v: LayoutVariables) -> cp_model.CpSolverStatus:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return solver.solve(v.model)


def by_counting(asked: LayoutProblem) -> cp_model.CpSolverStatus:
    v = LayoutVariables(cp_model.CpModel(), asked, merge=True, bare=True)
    for rule in BARE_RULES:
        rule(v)
    v.model.add(sum(v.left.values()) <= 0)
    enough_openings(v, 0)
    return solved(v)


def test_patterns_allow_what_fits_and_nothing_else() -> None:
    beyond_counting = 0
    for seed in range(60):
        random = Random(seed)
        things = [
            (random.randint(60, 230), random.randint(1, 4), random.choice((1, 2, 5)))
            for _ in range(random.randint(2, 3))
        ]
        asked = problem(*things)
        with_patterns = solved(marks_model(asked, 0, {}, merge=True, orderless=True, listed=True))
        assert (with_patterns == cp_model.OPTIMAL) is fits(*things), (seed, things)
        beyond_counting += not fits(*things) and by_counting(asked) == cp_model.OPTIMAL
    assert beyond_counting, "patterns never said more than widths and loads added up"


def test_nearly_full_openings_are_seen_to_be_full() -> None:
    # 230 + 10 + 220 fills an opening; two of 230 do not go in beside each other by 10 mm
    assert solved(
        marks_model(
            problem((230, 2, 1), (220, 2, 1)), 0, {}, merge=True, orderless=True, listed=True
        )
    ) == (cp_model.OPTIMAL)
    assert solved(
        marks_model(
            problem((230, 2, 1), (221, 2, 1)), 0, {}, merge=True, orderless=True, listed=True
        )
    ) == (cp_model.INFEASIBLE)


def test_the_fullest_patterns_are_listed_once_each() -> None:
    asked = problem((220, 2, 1), (140, 3, 1))
    forms = {kind.forms[0]: ALWAYS for kind in asked.kinds}
    found = listed(asked, [0, 1], forms, mm(RUN), LOAD * 1000)
    assert found is not None
    # 220 + 10 + 220 = 450; 220 + 10 + 140 = 370 leaves 80; 3 x 140 + 2 x 10 = 440
    assert sorted(one.counts for one in found) == [(0, 3), (1, 1), (2, 0)]
    light = listed(asked, [0, 1], forms, mm(RUN), 2000)
    assert light is not None
    assert sorted(one.counts for one in light) == [(0, 2), (1, 1), (2, 0)]


def test_too_many_patterns_are_not_listed() -> None:
    many = problem(*((20 + n, 3, 1) for n in range(9)))
    v = LayoutVariables(cp_model.CpModel(), many, merge=True, bare=True)
    before = len(v.all())
    one_pattern_each(v)
    assert len(v.all()) == before
    few = problem((220, 2, 1), (140, 3, 1))
    v = LayoutVariables(cp_model.CpModel(), few, merge=True, bare=True)
    before = len(v.all())
    one_pattern_each(v)
    assert before < len(v.all()) <= before + 2 * opening_patterns.LISTED_MOST
