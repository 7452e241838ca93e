"""Every form of length and weight that people write, and what is refused with which words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.errors import LengthError, MassError
from solver.units import (
    GRAMS_PER_POUND,
    LONGEST,
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Unit,
    format_length,
    format_mass,
    from_mm,
    parse_length,
    parse_mass,
    plain_marks,
    round_down,
    round_up,
    to_mm,
    with_unit,
)

INCH = TICKS_PER_INCH
MM = TICKS_PER_MM


def test_a_tick_makes_64ths_and_tenths_exact() -> None:
    assert Fraction(INCH, 64).denominator == 1
    assert Fraction("25.4") * MM == INCH
    assert MM % 10 == 0


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("7 3/8", Fraction(59, 8)),
        ('7-3/8"', Fraction(59, 8)),
        ("7⅜", Fraction(59, 8)),
        ("7 ⅜ in", Fraction(59, 8)),
        ("7-⅜″", Fraction(59, 8)),
        ("7.375", Fraction(59, 8)),
        ("7,375 in", None),
        ("7,5", Fraction(15, 2)),
        ("6' 5-3/4\"", 72 + Fraction(23, 4)),
        ("6’5¾”", 72 + Fraction(23, 4)),
        ("6ft 5", Fraction(77)),
        ("6 feet 5 inches", Fraction(77)),
        ("6'", Fraction(72)),
        ("6′ 5″", Fraction(77)),
        ("18mm", Fraction(180, 254)),
        ("1.2 m", Fraction(12000, 254)),
        ("2.5cm", Fraction(250, 254)),
        ("23/32", Fraction(23, 32)),
        ("23⁄32", Fraction(23, 32)),
        (".5", Fraction(1, 2)),
        ("9.", Fraction(9)),
        ("9''", Fraction(9)),
        ("9 in.", Fraction(9)),
        ("  9  ", Fraction(9)),
        ("9\u00a01/2", Fraction(19, 2)),
        ("９", Fraction(9)),
        ("0", Fraction(0)),
    ],
)
def test_lengths_of_an_inch_job_are_read(text: str, inches: Fraction | None) -> None:
    if inches is None:
        with pytest.raises(LengthError, match=r"may mean 7375 or 7\.375"):
            parse_length(text, "in")
    else:
        assert parse_length(text, "in") == inches * INCH


@pytest.mark.parametrize(
    ("text", "ticks"),
    [
        ("240", 240 * MM),
        ("240.5", 240 * MM + MM // 2),
        ("240,5", 240 * MM + MM // 2),
        ("24 cm", 240 * MM),
        ("0.24 m", 240 * MM),
        ('9-1/2"', 19 * INCH // 2),
    ],
)
def test_lengths_of_a_metric_job_are_read(text: str, ticks: int) -> None:
    assert parse_length(text, "mm") == ticks


def test_a_decimal_goes_to_the_nearest_tick() -> None:
    exact = Fraction("12.3") * INCH
    assert exact.denominator != 1
    assert parse_length("12.3", "in") == round(exact)
    assert abs(parse_length("12.3", "in") - exact) <= Fraction(1, 2)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "there is no number"),
        ("abc", "is not understood"),
        ("-5", "it is negative"),
        ("1e5", "unit 'e' is not known"),
        ("5 lb", "unit 'lb' is not known"),
        ("5 5", "one length is allowed"),
        ("5 in 3 mm", "one length is allowed"),
        ("5 mm 3 in", "one length is allowed"),
        ("1,200", r"may mean 1200 or 1\.200"),
        ("7 9/8", "is not less than one"),
        ("1/3", "no whole number of 64ths"),
        ("1/0", "divided by 0"),
        ("5-", "missing at the end"),
        ("nan", "is not understood"),
        ("=1+1", "is not understood"),
    ],
)
def test_what_is_no_length_is_refused_with_its_text_and_the_forms(text: str, reason: str) -> None:
    with pytest.raises(LengthError, match=reason) as caught:
        parse_length(text, "in")
    assert repr(text) in str(caught.value)
    assert "forms that work: 7 3/8" in str(caught.value)


def test_more_than_100_m_is_taken_for_a_wrong_unit() -> None:
    assert parse_length("100 m", "in") == LONGEST
    with pytest.raises(LengthError, match="longer than 100 m; check the unit"):
        parse_length("100.001 m", "in")


@pytest.mark.parametrize(
    ("text", "unit", "grams"),
    [
        ("6", "in", 6 * GRAMS_PER_POUND),
        ("6 lb", "mm", 6 * GRAMS_PER_POUND),
        ("6 lbs", "in", 6 * GRAMS_PER_POUND),
        ("6#", "in", 6 * GRAMS_PER_POUND),
        ("6 lb 4 oz", "in", Fraction(25, 4) * GRAMS_PER_POUND),
        ("12 oz", "in", Fraction(12, 16) * GRAMS_PER_POUND),
        ("1/2 lb", "in", GRAMS_PER_POUND / 2),
        ("2.7 kg", "in", Fraction(2700)),
        ("2,7", "mm", Fraction(2700)),
        ("450 g", "in", Fraction(450)),
    ],
)
def test_weights_are_read_to_the_nearest_gram(text: str, unit: Unit, grams: Fraction) -> None:
    assert parse_mass(text, unit) == round(grams)


@pytest.mark.parametrize("text", ["", "heavy", "5 in", "-3 lb", "6 lb x"])
def test_what_is_no_weight_is_refused_with_the_forms(text: str) -> None:
    with pytest.raises(MassError, match=r"is not a weight: .*forms that work: 6 lb"):
        parse_mass(text, "in")


def test_more_than_10_t_is_taken_for_a_wrong_unit() -> None:
    with pytest.raises(MassError, match="more than 10 t"):
        parse_mass("10001 kg", "in")


@pytest.mark.parametrize(
    ("ticks", "unit", "text"),
    [
        (59 * INCH // 8, "in", "7-3/8"),
        (INCH // 2, "in", "1/2"),
        (7 * INCH, "in", "7"),
        (0, "in", "0"),
        (7 * INCH + 1, "in", "7+"),
        (7 * INCH - 1, "in", "7−"),
        (INCH // 64 + 1, "in", "1/32−"),
        (INCH // 64 - 1, "in", "0+"),
        (-7 * INCH - 1, "in", "-7−"),
        (188 * MM, "mm", "188"),
        (188 * MM + MM // 10, "mm", "188.1"),
        (188 * MM + 1, "mm", "188+"),
        (188 * MM - 1, "mm", "188−"),
    ],
)
def test_lengths_are_printed_as_a_fraction_or_tenth_and_say_when_not_equal(
    ticks: int, unit: Unit, text: str
) -> None:
    assert format_length(ticks, unit) == text
    assert with_unit(ticks, unit) == f"{text} {unit}"


def test_weights_are_printed_in_pounds_or_kilograms() -> None:
    assert format_mass(2722, "in") == f"{2722 / 453.59237:.1f} lb" == "6.0 lb"
    assert format_mass(2722, "mm") == "2.7 kg"


def test_room_rounds_down_and_things_round_up() -> None:
    step = INCH // 16
    assert round_down(7 * step + 1, step) == 7 * step
    assert round_up(7 * step + 1, step) == 8 * step
    assert round_down(7 * step, step) == round_up(7 * step, step) == 7 * step


def test_millimetres_are_whole_ticks_or_refused() -> None:
    assert to_mm(127) == 0.396875
    assert isinstance(to_mm(18 * MM), int)
    assert from_mm(0.396875) == 127
    with pytest.raises(LengthError, match="not a whole number of ticks"):
        from_mm(0.1 + 0.2)


def test_plain_marks_keep_every_place() -> None:
    fancy = "“9½″ – Émile’s”"
    assert plain_marks(fancy) == '"9½" - Émile\'s"'
    assert len(plain_marks(fancy)) == len(fancy)
