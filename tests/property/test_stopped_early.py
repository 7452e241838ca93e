"""Ctrl-C before the first layout: one is still stood up at once, if there is any; or nothing is."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.files.job_file import read_job
from solver.checking.check import check
from solver.checking.front import check_front
from solver.errors import InterruptedPlanError
from solver.outcome import Limits, Status
from solver.planning import fallback
from solver.planning.plan_job import plan_job
from solver.sizing.combinations import Counts
from solver.tradeoff.trade_off import trade_off

JOBS = Path(__file__).parents[2] / "fixtures" / "jobs"


def stopped() -> Limits:
    limits = Limits()
    limits.stopper.stop()
    return limits


@pytest.mark.parametrize("name", ["symmetric", "open-sizes"])
def test_stopped_before_the_first_layout_there_is_one_all_the_same(name: str) -> None:
    told: list[str] = []
    plan = plan_job(read_job(str(JOBS / f"{name}.toml")), stopped(), told.append)

    option, others = plan.options[0], plan.options[1:]
    assert option.fits_all
    assert all(one.status is Status.UNKNOWN for one in others)
    assert plan.recommendation is not None
    assert ("so far" in plan.recommendation) == bool(others)
    assert option.status is Status.FEASIBLE  # best so far, with what it may be beaten by
    for one in option.stages:
        if isinstance(one.bound, float) and isinstance(one.value, float):
            assert one.bound <= one.value
    assert check(plan) == ()
    assert any("looked for now" in line for line in told)


def test_where_not_everything_fits_there_is_nothing_to_show() -> None:
    with pytest.raises(InterruptedPlanError, match="stopped before any layout was found"):
        plan_job(read_job(str(JOBS / "too-tall.toml")), stopped())


def test_without_time_for_it_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fallback, "GRACE", 0.0)
    with pytest.raises(InterruptedPlanError):
        plan_job(read_job(str(JOBS / "symmetric.toml")), stopped())


@pytest.mark.parametrize("name", ["symmetric", "open-sizes"])
def test_a_front_stopped_before_the_first_layout_has_one_all_the_same(name: str) -> None:
    told: list[str] = []
    front = trade_off(read_job(str(JOBS / f"{name}.toml")), stopped(), told.append)

    (point,) = front.points
    assert point.option.fits_all
    assert front.stopped
    assert "no other option found so far" in (front.recommendation or "")
    assert not front.complete
    # what may still beat it is said; of the only shelf count the point's own bounds say it
    assert bool(front.open_parts) == (name == "open-sizes")
    assert check_front(front) == ()
    assert any("looked for now" in line for line in told)


def test_a_front_of_what_does_not_fit_or_without_time_for_it_has_nothing_to_show(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with pytest.raises(InterruptedPlanError, match="stopped before any layout was found"):
        trade_off(read_job(str(JOBS / "too-tall.toml")), stopped())
    monkeypatch.setattr(fallback, "GRACE", 0.0)
    with pytest.raises(InterruptedPlanError):
        trade_off(read_job(str(JOBS / "symmetric.toml")), stopped())


def test_the_wait_is_shared_so_that_one_hard_option_does_not_take_it_all() -> None:
    counts, asked = [{"hall": (n,)} for n in range(1, 6)], list[float]()

    def nothing(_: Counts, limits: Limits) -> None:
        asked.append(limits.grace)

    assert fallback.first_layout(counts, stopped(), None, nothing) is None

    shares = [fallback.GRACE / (len(counts) - n) for n in range(len(counts))]
    assert len(asked) == len(counts)
    assert all(0.9 * share < one <= share for one, share in zip(asked, shares, strict=True))
