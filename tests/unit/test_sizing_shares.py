"""How the time for choosing sizes is shared by the combinations of shelf counts."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from solver.errors import CannotBeDoneError
from solver.outcome import Limits
from solver.sizing import option_sizes
from solver.sizing.combinations import Counts
from solver.sizing.purchase import Buyer
from tests.builders import make_job

COUNTS: list[Counts] = [{"alcove": (n,)} for n in (2, 3, 4, 5)]


def asked(
    monkeypatch: pytest.MonkeyPatch, hard: dict[int, float], *, seconds: float = 100.0
) -> list[tuple[int, float]]:
    """The shelves asked about with the seconds given; `hard` ones take all, or those named."""
    given: list[tuple[int, float]] = []

    def choose(_: object, counts: Counts, __: object, limits: Limits, *, share: bool) -> None:
        shelves = counts["alcove"][0]
        given.append((shelves, limits.seconds_left))
        time.sleep(min(hard.get(shelves, 0.0), limits.seconds_left))
        msg = "no sizes are needed here"
        raise CannotBeDoneError(msg)

    monkeypatch.setattr(option_sizes, "choose_sizes", choose)
    job = make_job(case={"depth": {"least": 8, "most": 12}})
    limits = Limits(seconds=seconds)
    with ThreadPoolExecutor(max_workers=1) as pool:
        option_sizes.Sizing(job, Buyer(job, limits), limits).promising(
            COUNTS, pool, lambda *_: None
        )
    return given


def test_each_has_its_share_of_what_is_left(monkeypatch: pytest.MonkeyPatch) -> None:
    given = asked(monkeypatch, {})
    assert [shelves for shelves, _ in given] == [2, 3, 4, 5]
    for (_, seconds), share in zip(given, (100 / 4, 100 / 3, 100 / 2, 100), strict=True):
        assert 0.9 * share < seconds <= share


def test_one_that_was_cut_short_has_what_the_others_leave_over(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    given = asked(monkeypatch, {2: 2.0}, seconds=1.6)
    assert [shelves for shelves, _ in given] == [2, 3, 4, 5, 2]
    assert given[0][1] <= 1.6 / 4
    assert 0.5 * 1.2 < given[-1][1] <= 1.6 - 1.6 / 4


def test_where_nothing_more_is_left_none_is_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    given = asked(monkeypatch, {2: 2.0, 3: 2.0, 4: 2.0, 5: 2.0}, seconds=0.8)
    assert [shelves for shelves, _ in given] == [2, 3, 4, 5]
