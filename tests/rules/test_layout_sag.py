"""The sag limit in the layout: the heaviest that a shelf just bears, and what it just does not."""

from __future__ import annotations

import pytest
from ortools.sat.python import cp_model

from solver.job.job import Job
from solver.layout import constraints
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from tests.builders import make_job

FITS, NOT = cp_model.OPTIMAL, cp_model.INFEASIBLE
MODULUS = 500_000 * 0.45359237 * 9.80665 / 25.4**2
"""E of a board of unknown core, 0.5 million psi [N/mm2]."""
OWN = 48 * 0.45359237 / 304.8**3 * 960 * 300 * 20
"""Own mass of a shelf of 960 x 300 x 20 mm at 48 lb/ft3 [kg]."""
RUN = (960 - 2 * 12) / 960
"""Share of the width that things may take: 12 mm stay free at each end [-]."""
SHARE = (8 - 4 * RUN**2 + RUN**3) / 5
"""Sag under a load spread evenly over the middle of a beam, over that of the same load spread
over all of it: integrated from the deflection under a point load [-]."""
LIMIT = 384 * MODULUS * (300 * 20**3 / 12) / (5 * 144 * 960**2) / 9.80665 - OWN
"""Even load at which it sags 960/144 mm [kg]."""


def job(grams: int, width: str = "100", **site: object) -> Job:
    """One thing of that mass, a case of 960 x 1000 x 300 mm inside with one shelf of 20 mm."""
    sheet = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
    case = {"width": "1000", "height": "1040", "depth": "300", "shelves": 1, "back": "none"}
    thing = {"name": "stone", "width": width, "height": "100", "depth": "100"}
    return make_job(
        unit="mm",
        case=case,
        items=[{**thing, "weight": f"{grams} g", "where": 1}],
        look={"headroom": "0", "clear_least": "100"},
        sheet=[sheet],
        **({"site": site} if site else {}),
    )


def problem(grams: int, width: str = "100", **site: object) -> LayoutProblem:
    """The same as a layout problem."""
    asked = job(grams, width, **site)
    one = asked.cases[0]
    return build(asked, {one.name: [1]}, {one.name: 300 * 320})


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
    assert status(problem(int(LIMIT / SHARE * 1000) + more), 1) == expected


def test_the_bottom_board_of_a_standing_case_rests_on_the_floor() -> None:
    assert status(problem(int(LIMIT * 1000) + 1), 0) == FITS


def test_without_a_sag_limit_the_standard_load_alone_holds() -> None:
    assert status(problem(int(LIMIT * 1000) + 1, sag="none"), 1) == FITS


def test_the_display_limit_bears_less() -> None:
    # L/384 of twice the sag is L/768 of the first day's, own weight off both
    display = (LIMIT + OWN) * 144 / 768 - OWN

    assert status(problem(int(display / SHARE * 1000), sag="display"), 1) == FITS
    assert status(problem(int(display / SHARE * 1000) + 1, sag="display"), 1) == NOT


def test_a_thing_three_quarters_as_wide_as_the_shelf_sags_it_more_wherever_it_stands() -> None:
    # at the end margin: integral of 3 x - 4 x3 (span 1), from both ends, over its width
    def under(to: float) -> float:
        return 1.5 * to**2 - to**4

    start, end = 12 / 960, 12 / 960 + 720 / 960
    share = (2 * under(0.5) - under(start) - under(1 - end)) / 0.75 / (2 * under(0.5))
    most = int(LIMIT / share * 1000)

    assert share > SHARE
    assert status(problem(most, width="720"), 1) == FITS
    assert status(problem(most + 2, width="720"), 1) == NOT


def sag_of(plan: Job) -> Option:
    return plan_job(plan, Limits(seed=1, work=0.05, seconds=20), near=False).options[0]


def test_a_heavy_thing_stands_at_the_end_where_the_middle_would_sag_too_far() -> None:
    """In the middle a narrow load counts 8/5 of the same spread evenly, at the end far less."""
    light, heavy = (sag_of(job(int(LIMIT * share * 1000))) for share in (0.5, 0.95))

    where = [one.cases[0].bays[0].openings[1].items for one in (light, heavy)]
    middle = (960 - 100) / 2 * 320
    assert [thing.x for thing in where[0]] == [middle]
    assert [thing.x for thing in where[1]] == [12 * 320]
    assert heavy.strength is not None
    assert all("industry" not in one.over for one in heavy.strength.shelves)
    assert not heavy.notes
