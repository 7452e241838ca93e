"""Examples in errors are in the unit of the job."""

from __future__ import annotations

import pytest

from cli.files.quick_job import parse_triple
from solver.errors import LengthError
from solver.units import Unit, parse_length, parse_mass


@pytest.mark.parametrize(("unit", "first"), [("in", "7 3/8"), ("mm", "180")])
def test_a_length_that_cannot_be_read_is_answered_in_the_unit_of_the_job(
    unit: Unit, first: str
) -> None:
    with pytest.raises(LengthError) as error:
        parse_length("foo", unit)

    assert f"forms that work: {first}," in error.value.message


@pytest.mark.parametrize(("unit", "size"), [("in", "25-1/2x71x7"), ("mm", "650x1800x180")])
def test_so_is_the_size_of_a_case(unit: Unit, size: str) -> None:
    with pytest.raises(LengthError) as error:
        parse_triple("foo", unit)

    assert f"forms that work: {size} " in error.value.message


@pytest.mark.parametrize(("unit", "first"), [("in", "6 lb"), ("mm", "2.7 kg")])
def test_and_a_weight(unit: Unit, first: str) -> None:
    with pytest.raises(Exception, match=f"forms that work: {first},"):
        parse_mass("foo", unit)
