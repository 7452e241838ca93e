"""The sag limit in the layout: the heaviest that a shelf just bears, and what it just does not."""

from __future__ import annotations

import pytest
from ortools.sat.python import cp_model

from solver.layout import constraints
from solver.layout.problem import build
from solver.layout.shapes import LayoutProblem
from solver.layout.variables import LayoutVariables
from tests.builders import make_job

FITS, NOT = cp_model.OPTIMAL, cp_model.INFEASIBLE
MODULUS = 500_000 * 0.45359237 * 9.80665 / 25.4**2
"""E of a board of unknown core, 0.5 million psi [N/mm2]."""
OWN = 48 * 0.45359237 / 304.8**3 * 960 * 300 * 20
"""Own mass of a shelf of 960 x 300 x 20 mm at 48 lb/ft3 [kg]."""
LIMIT = 384 * MODULUS * (300 * 20**3 / 12) / (5 * 144 * 960**2) / 9.80665 - OWN
"""Even load at which it sags 960/144 mm [kg]."""


def problem(grams: int, **site: object) -> LayoutProblem:
    """One thing of that mass, a case of 960 x 1000 x 300 mm inside with one shelf of 20 mm."""
    sheet = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
    case = {"width": "1000", "height": "1040", "depth": "300", "shelves": 1, "back": "none"}
    thing = {"name": "stone", "width": "100", "height": "100", "depth": "100"}
    job = make_job(
        unit="mm",
        case=case,
        items=[{**thing, "weight": f"{grams} g"}],
        look={"headroom": "0", "clear_least": "100"},
        sheet=[sheet],
        **({"site": site} if site else {}),
    )
    one = job.cases[0]
    return build(job, {one.name: [1]}, {one.name: 300 * 320})


def status(asked: LayoutProblem, opening: int) -> int:
    """Whether the load rule alone lets the thing stand in an opening."""
    v = LayoutVariables(cp_model.CpModel(), asked, merge=False)
    constraints.load(v)
    v.model.add(v.count(0, 0, opening) == 1)
    return int(cp_model.CpSolver().solve(v.model))


@pytest.mark.parametrize(("more", "expected"), [(0, FITS), (1, NOT)])
def test_a_shelf_bears_what_sags_it_to_the_industry_limit_and_no_more(
    more: int, expected: int
) -> None:
    assert status(problem(int(LIMIT * 1000) + more), 1) == expected


def test_the_bottom_board_of_a_standing_case_rests_on_the_floor() -> None:
    assert status(problem(int(LIMIT * 1000) + 1), 0) == FITS


def test_without_a_sag_limit_the_standard_load_alone_holds() -> None:
    assert status(problem(int(LIMIT * 1000) + 1, sag="none"), 1) == FITS


def test_the_display_limit_bears_less() -> None:
    # L/384 of twice the sag is L/768 of the first day's, own weight off both
    display = (LIMIT + OWN) * 144 / 768 - OWN

    assert status(problem(int(display * 1000), sag="display"), 1) == FITS
    assert status(problem(int(display * 1000) + 1, sag="display"), 1) == NOT
