"""Lengths written out and read back."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given
from hypothesis import strategies as st

from solver.errors import LengthError, MassError
from solver.units import (
    HEAVIEST,
    LONGEST,
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Unit,
    format_length,
    from_mm,
    parse_length,
    parse_mass,
    to_mm,
)

TICKS = st.integers(0, LONGEST)
UNITS = st.sampled_from(["in", "mm"])
STEP = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM // 10}
MARK = {"in": TICKS_PER_INCH // 16, "mm": TICKS_PER_MM}


@given(TICKS, UNITS)
def test_a_printed_length_is_within_half_its_step_and_says_on_which_side(
    ticks: int, unit: Unit
) -> None:
    shown = format_length(ticks, unit)
    read = parse_length(shown.rstrip("+−"), unit)
    assert abs(read - ticks) * 2 <= STEP[unit]
    assert shown.endswith("+") == (ticks > read)
    assert shown.endswith("−") == (ticks < read)


@given(st.integers(0, 2000), UNITS)
def test_marks_are_printed_exactly(count: int, unit: Unit) -> None:
    mark = count * MARK[unit]
    assert parse_length(format_length(mark, unit), unit) == mark


@given(st.integers(0, 99), st.integers(0, 11), st.integers(1, 63))
def test_feet_inches_and_64ths_add_up(feet: int, inches: int, part: int) -> None:
    ticks = (12 * feet + inches) * TICKS_PER_INCH + part * 127
    assert parse_length(f"{feet}' {inches}-{part}/64\"", "mm") == ticks


@given(TICKS)
def test_millimetres_of_a_plan_are_the_same_ticks_again(ticks: int) -> None:
    assert from_mm(to_mm(ticks)) == ticks


def value_or_message(
    read: Callable[[str, Unit], int], text: str, unit: Unit
) -> tuple[int | None, str]:
    """Return what a reader makes of a text, or what it says against it."""
    try:
        return read(text, unit), ""
    except (LengthError, MassError) as error:
        return None, str(error)


@given(st.text(max_size=40), UNITS)
def test_any_text_is_a_length_or_a_clear_error(text: str, unit: Unit) -> None:
    ticks, said = value_or_message(parse_length, text, unit)
    if ticks is None:
        assert "is not a length" in said or "longer than 100 m" in said
    else:
        assert 0 <= ticks <= LONGEST


@given(st.text(max_size=40), UNITS)
def test_any_text_is_a_weight_or_a_clear_error(text: str, unit: Unit) -> None:
    grams, said = value_or_message(parse_mass, text, unit)
    if grams is None:
        assert "is not a weight" in said or "more than 10 t" in said
    else:
        assert 0 <= grams <= HEAVIEST
