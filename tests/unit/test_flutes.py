"""Flutes: symmetry, and what is said where they do not fit."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from solver.job.case_fittings import TrimOrder
from solver.trim.flutes import flute_width, flutes, margin
from solver.units import inches
from tests.trims import CLASSICAL, trim_job


def order(**trim: Any) -> TrimOrder:
    found = trim_job("hung", {**CLASSICAL, **trim}).cases[0].trim
    assert found is not None
    return found


@given(
    count=st.integers(1, 9), sixteenths=st.integers(2, 16), space=st.integers(1, 16),
    width=st.integers(32, 160),
)  # fmt: skip
def test_a_board_turned_end_for_end_has_its_flutes_in_the_same_places(
    count: int, sixteenths: int, space: int, width: int
) -> None:
    """Centres from one edge are those from the other; a setting cuts a flute and its mirror."""
    step = inches("1/8")
    board, flute, apart = width * step, sixteenths * step, space * step
    flat = margin(board, count, flute, apart)
    if flat < 0:
        return
    asked = order(flutes=count).model_copy(update={"flute": flute, "flute_space": apart})
    laid = flutes(asked, board, "in")
    assert laid is not None
    centres = [flat + k * (flute + apart) + flute // 2 for k in range(count)]
    mirrored = sorted(board - one for one in centres)
    assert all(abs(a - b) <= 1 for a, b in zip(centres, mirrored, strict=True))
    assert list(laid.settings) == centres[: (count + 1) // 2]


@given(count=st.integers(1, 9), sixteenths=st.integers(24, 100))
def test_flutes_left_to_the_program_fit(count: int, sixteenths: int) -> None:
    width = sixteenths * inches("1/16")
    if width < (2 * count + 1) * inches("1/8"):
        return
    assert (2 * count + 1) * flute_width(width, count, "in") <= width


def test_flutes_that_do_not_fit_are_told_with_both_widths_and_what_would_do() -> None:
    """The space is three quarters of 3/4 down to an eighth, 1/2."""
    needs = 4 * 0.75 + 3 * 0.5 + 2 * 0.25
    assert needs == 5
    with pytest.raises(ValidationError, match=r"need 5 in; the casing is 3-1/2 in wide; 2 of them"):
        order(flutes=4, flute="3/4")
    with pytest.raises(ValidationError, match=r"flutes 3/8 in wide would do"):
        order(flutes=4, flute="3/4")
    assert order(flutes=2, flute="3/4").flutes == 2
    assert order(flutes=4, flute="3/8", flute_space="1/2").flutes == 4
