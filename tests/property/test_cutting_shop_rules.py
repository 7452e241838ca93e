"""Kerf, trim, margin, grain and stock limits: what just fits, and what a tick more does."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status
from solver.units import TICKS_PER_MM, mm, with_unit
from tests.cutting_checks import faults

QUICK = Limits(work=0.2, seconds=3600)
MORE_WOULD_DO = re.compile(r"(\d+) more of board would do")


@st.composite
def shops(draw: st.DrawFn) -> CuttingProblem:
    """Saw, trim and margin, and one size of sheet; no parts [whole mm]."""
    return CuttingProblem(
        parts=(),
        sheets=(CutSheet("board", "ply", mm(draw(st.integers(300, 900))), mm(250), Decimal(9)),),
        kerf=mm(draw(st.integers(0, 4))),
        edge_trim=mm(draw(st.integers(0, 12))),
        margin=mm(draw(st.integers(0, 2))),
        stages=draw(st.sampled_from(["2", "3", "any"])),
        trimming=draw(st.booleans()),
        first_cut=draw(st.sampled_from(["rip", "crosscut", "either"])),
        unit="mm",
    )


def with_parts(shop: CuttingProblem, *sizes: tuple[int, int, bool]) -> CuttingProblem:
    parts = tuple(CutPart(f"p#{i}", a, b, turn) for i, (a, b, turn) in enumerate(sizes, start=1))
    return replace(shop, parts=parts)


def room(shop: CuttingProblem) -> tuple[int, int]:
    """The largest part that a sheet takes."""
    lost = 2 * shop.edge_trim + shop.margin
    return shop.sheets[0].length - lost, shop.sheets[0].width - lost


def solved(asked: CuttingProblem) -> SheetAnswer:
    answer = solve_cutting(asked, QUICK)
    assert faults(asked, answer) == []
    return answer


@settings(max_examples=60, deadline=None)
@given(shops(), st.integers(2, 6), st.booleans())
def test_parts_and_their_saw_cuts_fill_a_sheet_to_the_tick(
    shop: CuttingProblem, count: int, across: bool
) -> None:
    """Parts that take all of the other direction, so that only one row of them fits."""
    length, width = room(shop)
    along = width if across else length
    each = (along - (count - 1) * (shop.kerf + shop.margin)) // count
    last = along - (count - 1) * (each + shop.kerf + shop.margin)
    sizes = [*[each] * (count - 1), last]
    if across:
        shop = replace(shop, first_cut="rip")
    for extra, sheets in ((0, 1), (1, 2)):
        sizes[-1] += extra
        parts = [(length, a, False) if across else (a, width, False) for a in sizes]
        answer = solved(with_parts(shop, *parts))
        assert (answer.count, answer.status) == (sheets, Status.OPTIMAL)


@settings(max_examples=60, deadline=None)
@given(shops(), st.integers(1, 50 * TICKS_PER_MM), st.booleans())
def test_a_part_a_tick_too_large_is_refused_by_that_much(
    shop: CuttingProblem, extra: int, across: bool
) -> None:
    length, width = room(shop)
    assert solved(with_parts(shop, (length, width, False))).count == 1
    size = (length, width + extra) if across else (length + extra, width)
    with pytest.raises(CannotBeDoneError) as refused:
        solve_cutting(with_parts(shop, (*size, False)), QUICK)
    assert f"{with_unit(extra, 'mm')} too {'wide' if across else 'long'}" in str(refused.value)


@settings(max_examples=40, deadline=None)
@given(shops())
def test_trim_and_margin_and_kerf_that_leave_nothing_are_told(shop: CuttingProblem) -> None:
    _, width = room(shop)
    asked = with_parts(shop, (TICKS_PER_MM, TICKS_PER_MM, False))
    assert solved(replace(asked, kerf=width - 1)).count == 1
    for wrong, word in (
        (replace(asked, kerf=width), "a saw cut of"),
        (replace(asked, margin=asked.margin + width), "nothing is left of board"),
        (replace(asked, edge_trim=asked.edge_trim + (width + 1) // 2), "nothing is left of board"),
    ):
        with pytest.raises(CannotBeDoneError, match=word):
            solve_cutting(wrong, QUICK)


@settings(max_examples=40, deadline=None)
@given(shops(), st.data())
def test_grain_keeps_a_part_that_turned_would_fit(
    shop: CuttingProblem, data: st.DataObject
) -> None:
    length, width = room(shop)
    tall = data.draw(st.integers(width + 1, max(width + 1, length)))
    low = data.draw(st.integers(1, width))
    fits = tall <= length
    answer = solved(with_parts(shop, (low, tall, True))) if fits else None
    if answer is not None:
        assert [piece.turned for piece in answer.stock[0].pieces] == [True]
    with pytest.raises(CannotBeDoneError) as refused:
        solve_cutting(with_parts(shop, (low, tall, False)), QUICK)
    assert ("it would fit turned" in str(refused.value)) == fits
    assert "too wide" in str(refused.value)


@st.composite
def lists(draw: st.DrawFn) -> CuttingProblem:
    shop = draw(shops())
    length, width = room(shop)
    size = st.tuples(st.integers(length // 8, length), st.integers(width // 6, width))
    sizes = draw(st.lists(size, min_size=2, max_size=8))
    return with_parts(shop, *((a, b, False) for a, b in sizes))


@settings(max_examples=60, deadline=None)
@given(lists())
def test_a_limit_of_as_many_sheets_as_are_needed_does_and_one_fewer_is_refused(
    asked: CuttingProblem,
) -> None:
    free = solved(asked)
    exact = replace(asked.sheets[0], limit=free.count)
    limited = solve_cutting(replace(asked, sheets=(exact,)), Limits(seed=1, work=4, seconds=3600))
    assert limited.count == free.count
    if free.status is not Status.OPTIMAL:
        return
    scarce = replace(asked, sheets=(replace(exact, limit=free.count - 1),))
    with pytest.raises(CannotBeDoneError) as refused:
        solve_cutting(scarce, QUICK)
    more = MORE_WOULD_DO.search(str(refused.value))
    assert more is not None
    enough = replace(exact, limit=free.count - 1 + int(more[1]))
    solved(replace(asked, sheets=(enough,)))
    if free.count > 1:
        named = set(re.findall(r"p#\d+", str(refused.value)))
        assert named
        assert named <= {part.id for part in asked.parts}


@settings(max_examples=40, deadline=None)
@given(lists(), st.sampled_from(["kerf", "edge_trim", "margin"]), st.integers(1, 3))
def test_more_lost_never_takes_fewer_sheets_than_is_proven_with_less(
    asked: CuttingProblem, what: str, more: int
) -> None:
    wider = replace(asked, **{what: getattr(asked, what) + mm(more)})
    try:
        answer = solved(wider)
    except CannotBeDoneError:
        return
    assert solved(asked).count_bound <= answer.count


@settings(max_examples=40, deadline=None)
@given(lists())
def test_freeing_grain_or_stages_never_takes_more_than_is_proven_to_be_needed(
    asked: CuttingProblem,
) -> None:
    fixed = solved(asked)
    turning = replace(asked, parts=tuple(replace(p, may_turn=True) for p in asked.parts))
    assert solved(turning).count_bound <= fixed.count
    assert solved(replace(asked, stages="any", first_cut="either")).count_bound <= fixed.count
