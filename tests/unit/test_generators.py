"""The generated jobs are as large, as tight and as repeatable as the generator says."""

from __future__ import annotations

import pytest

from solver.carcass.boards_of_case import box
from solver.job.job import Job
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from solver.units import Unit
from tests.generators import generate_job

SIZES = [(10, 25, 1, 1), (40, 110, 2, 1), (60, 160, 1, 3), (200, 600, 1, 10)]


def tightness(job: Job) -> float:
    """Share of the run of all openings that the things and a gap each take up."""
    look, run = job.look, 0
    for case in job.cases:
        assert isinstance(case.depth, int)
        for _, width in box(job, case, case.depth).bays:
            run += (case.shelf_counts[0] + 1) * (width - 2 * look.end_margin)
    return sum(item.count * (item.width + look.gap) for item in job.items) / run


@pytest.mark.parametrize(("kinds", "things", "cases", "bays"), SIZES)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_job_has_the_size_and_tightness_asked_for(
    kinds: int, things: int, cases: int, bays: int, unit: Unit
) -> None:
    job = generate_job(kinds, things, cases, bays, unit=unit, tight=0.7)
    assert len(job.items) == kinds
    assert sum(item.count for item in job.items) == things
    assert [case.bay_count for case in job.cases] == cases * [bays]
    assert 0.6 < tightness(job) < 0.705


def test_the_same_arguments_make_the_same_job_and_another_seed_another() -> None:
    assert generate_job(20, 45) == generate_job(20, 45)
    assert generate_job(20, 45, seed=2).items != generate_job(20, 45).items


def test_neighbours_share_lines_only_where_asked() -> None:
    assert [case.beside for case in generate_job(10, 20, cases=2).cases] == [None, "case 1"]
    apart = generate_job(10, 20, cases=2, beside=False)
    assert [case.beside for case in apart.cases] == [None, None]


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_generated_job_can_be_done(seed: int) -> None:
    (option,) = plan_job(generate_job(8, 16, seed=seed), Limits(work=1.0)).options
    assert option.fits_all
