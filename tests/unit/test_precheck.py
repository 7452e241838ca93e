"""What is told before solving."""

from __future__ import annotations

from typing import Any

import pytest

from solver.intake.precheck import deepest_box, even_clear, misfits
from solver.units import inches, mm
from tests.builders import make_job


def things(**changes: Any) -> list[dict[str, Any]]:
    return [{"name": "jug", "width": "4", "height": "4", "depth": "4", **changes}]


def test_even_spacing_shares_what_the_boards_leave() -> None:
    assert even_clear(inches(60), 4, inches("3/4")) == (inches(60) - 4 * inches("3/4")) // 5
    assert even_clear(mm(100), 0, mm(18)) == mm(100)
    assert even_clear(mm(100), 9, mm(18)) < 0


def test_the_largest_depth_of_a_range_is_looked_at() -> None:
    job = make_job(case={"depth": {"least": "8", "most": "10"}})
    assert deepest_box(job, job.cases[0]).outside_depth == inches(10)


def test_a_thing_that_fits_is_not_reported() -> None:
    assert misfits(make_job(items=things())) == ()


@pytest.mark.parametrize(
    ("side", "inside", "allowance", "at"),
    [
        ("width", "20", 2 * inches("1/2"), 0),
        ("height", "40", inches("1"), 1),
        ("depth", "8", 0, 2),
    ],
)
def test_a_thing_fits_to_the_tick_and_not_one_tick_more(
    side: str, inside: str, allowance: int, at: int
) -> None:
    case = {"sizes": "inside", "width": "20", "height": "40", "depth": "8"}
    most = inches(inside) - allowance
    assert misfits(make_job(case=case, items=things(**{side: most / 8128}))) == ()
    (misfit,) = misfits(make_job(case=case, items=things(**{side: f"{(most + 32) / 320} mm"})))
    short = [0, 0, 0]
    short[at] = 32
    assert misfit.short == tuple(short)


def test_a_thing_that_may_lie_is_tried_lying() -> None:
    case = {"sizes": "inside", "width": "20", "height": "10", "depth": "8"}
    tall = things(height="15")
    assert misfits(make_job(case=case, items=tall))
    assert misfits(make_job(case=case, items=[{**tall[0], "may_lie": True}])) == ()


def test_a_guessed_size_counts_with_its_allowance() -> None:
    case = {"sizes": "inside", "width": "20", "height": "40", "depth": "8"}
    assert misfits(make_job(case=case, items=things(depth="8"))) == ()
    (misfit,) = misfits(make_job(case=case, items=things(depth="8", guessed=True)))
    assert misfit.short == (0, 0, inches("1/4"))


def test_the_nearest_of_several_cases_is_named() -> None:
    cases = [
        {"name": "small", "sizes": "inside", "width": "10", "height": "40", "depth": "8"},
        {"name": "large", "sizes": "inside", "width": "20", "height": "40", "depth": "8"},
    ]
    job = make_job(case=cases, items=things(width="25"))
    (misfit,) = misfits(job)
    assert misfit.text(job) == "'jug' cannot stand in case 'large': 6 in too wide"
