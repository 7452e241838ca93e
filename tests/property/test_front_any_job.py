"""Whatever a small job asks for, its front keeps its promises."""

from __future__ import annotations

import json
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from solver.checking.front import check_front
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.price_front import FrontPoint, TradeOff
from solver.tradeoff.trade_off import trade_off
from tests.generators import generate_job
from tests.job_strategies import any_jobs
from tests.small_schema import faults

SCHEMA = Path(__file__).parents[2] / "cli" / "schemas" / "tradeoff.schema.json"
some = settings(
    max_examples=25,
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
SMALL = 0.2
"""Work allowed for one search: little, so that unproven fronts are tried too."""


def beats(one: FrontPoint, other: FrontPoint) -> bool:
    return all(a <= b for a, b in zip(compared(one), compared(other), strict=True))


def compared(point: FrontPoint) -> tuple[float, ...]:
    """Price, places parted: less is better."""
    return float(point.price) + point.area, point.places_parted


@pytest.mark.slow
@some
@given(any_jobs())
def test_any_front_is_sound(job: Job) -> None:
    front = trade_off(job, Limits(work=SMALL))
    assert not any(beats(a, b) for a, b in permutations(front.points, 2))
    assert [finding.text for finding in check_front(front)] == []
    assert [point.number for point in front.points] == list(range(1, len(front.points) + 1))
    for tag in ("recommended", "cheapest", "best-looking"):
        tagged = [point for point in front.points if tag in point.option.tags]
        assert len(tagged) == bool(front.points)
    assert (front.recommendation is None) == (not front.points)
    assert_bounds_hold(front)
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    assert faults(json.loads(front.to_json()), schema, schema) == []
    assert TradeOff.model_validate_json(front.to_json()) == front


def assert_bounds_hold(front: TradeOff) -> None:
    for point in front.points:
        assert point.price_bound <= point.price
        assert point.parted_bound <= point.places_parted
        assert point.option.status in (Status.OPTIMAL, Status.FEASIBLE)
        assert point.option.fits_all
        assert point.proven or not front.complete


def several(job: Job, shelves: tuple[int, ...]) -> Job:
    case = job.cases[0].model_copy(update={"shelves": shelves})
    return job.model_copy(update={"cases": (case,)})


@pytest.mark.parametrize("seed", [0, 11, 5])
def test_a_front_cut_short_is_sound_and_not_called_complete(seed: int) -> None:
    base = generate_job(4 + seed % 4, 12 + seed % 9, seed=seed, bays=1 + seed % 2)
    shelves = base.cases[0].shelves
    assert isinstance(shelves, int)
    front = trade_off(several(base, (shelves, shelves + 1)), Limits(work=0.0005))
    assert not front.complete
    assert [finding.text for finding in check_front(front)] == []
    assert_bounds_hold(front)


@pytest.mark.slow
@pytest.mark.parametrize("seed", [1, 2])
def test_the_same_job_gives_the_same_bytes(seed: int) -> None:
    job = several(generate_job(5, 10, seed=seed), (3, 4))
    first = trade_off(job, Limits(work=0.5)).to_json(timing=False)
    assert trade_off(job, Limits(work=0.5)).to_json(timing=False) == first


@pytest.mark.slow
def test_the_cheapest_is_the_least_price_and_the_recommended_is_within_the_slack() -> None:
    job = several(generate_job(6, 14), (3, 4, 5))
    front = trade_off(job, Limits(work=1.0))
    cheapest, recommended = front.tagged("cheapest"), front.tagged("recommended")
    assert cheapest is not None
    assert recommended is not None
    assert cheapest.price == min(point.price for point in front.points)
    assert 10 * recommended.price <= 11 * cheapest.price
    assert recommended.premium == 0
