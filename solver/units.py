"""Lengths, masses and how they are read and written.

One tick is 1/320 mm. 1/64 in is 127 ticks and 0.1 mm is 32, so that inch
fractions and metric sizes are both exact. In data every length is a whole
number of ticks and every mass a whole number of grams.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

from solver.errors import LengthError, MassError

Ticks: TypeAlias = int
Grams: TypeAlias = int
Unit: TypeAlias = Literal["in", "mm"]

TICKS_PER_MM = 320
TICKS_PER_INCH = 8128
"""25.4 mm x 320, exactly."""

LONGEST: Ticks = 100_000 * TICKS_PER_MM
"""Lengths above 100 m are taken for typing errors."""
HEAVIEST: Grams = 10_000_000
"""Masses above 10 t are taken for typing errors."""

GRAMS_PER_POUND = Fraction("453.59237")

_LENGTH_UNITS: dict[str, int] = {
    **dict.fromkeys(("in", "in.", "inch", "inches", "ins", '"', "''"), TICKS_PER_INCH),
    **dict.fromkeys(("ft", "ft.", "foot", "feet", "'"), 12 * TICKS_PER_INCH),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), TICKS_PER_MM),
    **dict.fromkeys(
        ("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 10 * TICKS_PER_MM
    ),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000 * TICKS_PER_MM),
}
_MASS_UNITS: dict[str, Fraction] = {
    **dict.fromkeys(("lb", "lb.", "lbs", "lbs.", "pound", "pounds", "#"), GRAMS_PER_POUND),
    **dict.fromkeys(("oz", "oz.", "ounce", "ounces"), GRAMS_PER_POUND / 16),
    **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms", "kgs"), Fraction(1000)),
    **dict.fromkeys(("g", "gr", "gram", "grams", "gramme", "grammes"), Fraction(1)),
}

VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
"""Fractions of one character."""
_SAME = str.maketrans(
    {
        **dict.fromkeys("″”“„‟〃＂", '"'),
        **dict.fromkeys("′’‘‛´`＇ʹ", "'"),
        **dict.fromkeys("‐‑‒–—−－", "-"),
        **dict.fromkeys("⁄∕", "/"),
        **dict.fromkeys("\u00a0\u202f\u2009\u2007\u2002\u2003\t", " "),
    }
)
_NUMBER = r"(?:\d+\s*[- ]\s*\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+[.,]\d+|[.,]\d+|\d+\.?)"
_TERM = re.compile(rf"\s*({_NUMBER})\s*([a-z]+\.?|''|[\"'#])?\s*[,-]?\s*", re.IGNORECASE)

LENGTH_FORMS: dict[Unit, str] = {
    "in": '7 3/8, 7-3/8", 7⅜, 7.375, 6\' 5-3/4", 6 ft 5, 18 mm, 1.2 m, 23/32',
    "mm": '180, 187.5, 18 mm, 18.5 cm, 1.2 m, 7 3/8 in, 7-3/8"',
}
MASS_FORMS: dict[Unit, str] = {
    "in": "6 lb, 6 lb 4 oz, 12 oz, 2.7 kg, 450 g",
    "mm": "2.7 kg, 450 g, 6 lb, 6 lb 4 oz, 12 oz",
}
"""Forms that errors show, those of the job's unit first."""


def plain_marks(text: str) -> str:
    """Return `text` with typographic quotes, primes, dashes and spaces made plain, one for one."""
    return text.translate(_SAME)


def plain(text: str) -> str:
    """Return `text` with typographic quotes, primes, dashes, spaces and fractions made plain."""
    spaced = "".join(f" {c}" if c in VULGAR else c for c in text)
    return unicodedata.normalize("NFKC", spaced.translate(_SAME)).translate(_SAME).strip()


def _number(text: str) -> Fraction:
    """Read one number; raise ValueError where a comma could be a thousands mark."""
    text = re.sub(r"\s*/\s*", "/", text.strip())
    if re.search(r"/0+$", text):
        msg = f"nothing can be divided by 0 in {text}"
        raise ValueError(msg)
    mixed = re.fullmatch(r"(\d+)\s*[- ]\s*(\d+/\d+)", text)
    if mixed:
        part = Fraction(mixed[2])
        if part >= 1:
            msg = f"the fraction {mixed[2]} is not less than one"
            raise ValueError(msg)
        return int(mixed[1]) + part
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        msg = f"{text} may mean {text.replace(',', '')} or {text.replace(',', '.')}"
        raise ValueError(msg)
    return Fraction(text.replace(",", "."))


def _terms(text: str) -> list[tuple[Fraction, str]]:
    """Split a measure into (number, unit word) pairs; raise ValueError if anything is left."""
    if text.startswith("-"):
        msg = "it is negative"
        raise ValueError(msg)
    terms, at = [], 0
    while at < len(text):
        match = _TERM.match(text, at)
        if not match:
            msg = f"{text[at:]!r} is not understood"
            raise ValueError(msg)
        terms.append((_number(match[1]), (match[2] or "").lower()))
        at = match.end()
    if not terms or text.rstrip().endswith(("-", ",")):
        msg = "there is no number" if not terms else "something is missing at the end"
        raise ValueError(msg)
    return terms


def _whole_ticks(value: Fraction, text: str) -> Ticks:
    """Return `value` ticks whole; a decimal goes to the nearest tick, a fraction must be whole."""
    if value.denominator != 1 and "/" in text:
        msg = "the fraction is no whole number of 64ths; write a decimal"
        raise ValueError(msg)
    return round(value)


def _length(text: str, unit: Unit) -> Ticks:
    terms = _terms(text)
    default = TICKS_PER_INCH if unit == "in" else TICKS_PER_MM
    (first, first_unit), *rest = terms
    if not rest:
        return _whole_ticks(first * (_unit(first_unit) if first_unit else default), text)
    if len(rest) == 1 and first_unit and _unit(first_unit) == 12 * TICKS_PER_INCH:
        second, second_unit = rest[0]
        if not second_unit or _unit(second_unit) == TICKS_PER_INCH:
            return _whole_ticks((12 * first + second) * TICKS_PER_INCH, text)
    msg = "one length is allowed, or feet and inches"
    raise ValueError(msg)


def _unit(word: str) -> int:
    if word not in _LENGTH_UNITS:
        msg = f"the unit {word!r} is not known"
        raise ValueError(msg)
    return _LENGTH_UNITS[word]


def parse_length(text: str, unit: Unit) -> Ticks:
    """Read a length as people write it.

    Parameters
    ----------
    text
        For example ``7 3/8``, ``7⅜"``, ``6' 5-3/4"``, ``18mm``, ``1.2 m``, ``7,5`` [text].
    unit
        The unit of a number without one: "in" or "mm" [-].

    Returns
    -------
    int
        Ticks of 1/320 mm [tick]. A decimal that is no whole number of ticks is
        taken to the nearest; a fraction must be a whole number of ticks.

    Raises
    ------
    LengthError
        Where the text is not one length from 0 to 100 m. Quotes the text and the
        forms that work.
    """
    try:
        ticks = _length(plain(text), unit)
    except ValueError as error:
        msg = f"{text.strip()!r} is not a length: {error}; forms that work: {LENGTH_FORMS[unit]}"
        raise LengthError(msg) from None
    if ticks > LONGEST:
        msg = f"{text.strip()!r} is longer than 100 m; check the unit"
        raise LengthError(msg)
    return ticks


def parse_mass(text: str, unit: Unit) -> Grams:
    """Read a mass; a number without a unit is pounds in an inch job, kilograms in a metric one.

    Returns whole grams [g], to the nearest. Raises MassError with the forms that work.
    """
    try:
        total, default = Fraction(0), "lb" if unit == "in" else "kg"
        for number, word in _terms(plain(text)):
            if word and word not in _MASS_UNITS:
                msg = f"the unit {word!r} is not known"
                raise ValueError(msg)
            total += number * _MASS_UNITS[word or default]
    except ValueError as error:
        msg = f"{text.strip()!r} is not a weight: {error}; forms that work: {MASS_FORMS[unit]}"
        raise MassError(msg) from None
    if total > HEAVIEST:
        msg = f"{text.strip()!r} is more than 10 t; check the unit"
        raise MassError(msg)
    return round(total)


def inches(text: str | int) -> Ticks:
    """Ticks of a length written in inches, such as ``inches("7-3/8")`` [tick]."""
    return parse_length(str(text), "in")


def mm(text: str | int) -> Ticks:
    """Ticks of a length written in millimetres, such as ``mm("18.5")`` [tick]."""
    return parse_length(str(text), "mm")


def to_mm(ticks: Ticks) -> float:
    """Millimetres [mm]: ticks / 320, the double nearest to the exact decimal."""
    value = ticks / TICKS_PER_MM
    return int(value) if value.is_integer() else value


def from_mm(value: float | Decimal) -> Ticks:
    """Ticks of a number of millimetres [mm] that is a whole number of ticks; else LengthError."""
    ticks = Fraction(str(value)) * TICKS_PER_MM
    if ticks.denominator != 1:
        msg = f"{value} mm is not a whole number of ticks of 0.003125 mm"
        raise LengthError(msg)
    return int(ticks)


def round_up(ticks: Ticks, step: Ticks) -> Ticks:
    """Round up to a whole step [tick], as for things that must fit."""
    return -(-ticks // step) * step


def round_down(ticks: Ticks, step: Ticks) -> Ticks:
    """Round down to a whole step [tick], as for the room that things have."""
    return ticks // step * step


def _inch_text(ticks: Ticks, denominator: int = 32) -> str:
    step = Fraction(TICKS_PER_INCH, denominator)
    count = round(Fraction(ticks) / step)
    whole, part = divmod(count, denominator)
    fraction = Fraction(part, denominator)
    shown = str(whole) if not part else f"{fraction}" if not whole else f"{whole}-{fraction}"
    return shown + _more_or_less(ticks - count * step)


def _mm_text(ticks: Ticks) -> str:
    tenth = TICKS_PER_MM // 10
    count = round(Fraction(ticks, tenth))
    shown = str(count // 10) if count % 10 == 0 else f"{count // 10}.{count % 10}"
    return shown + _more_or_less(Fraction(ticks - count * tenth))


def _more_or_less(rest: Fraction) -> str:
    return "+" if rest > 0 else "−" if rest < 0 else ""


def format_length(ticks: Ticks, unit: Unit) -> str:
    """Write a length for people: fractions to 1/32 in, or tenths of a millimetre.

    `+` or `−` follows where the true size [tick] is a little more or less than what is
    printed, so the text is within half its step. Marks lie on 1/16 in or 1 mm and
    come out exact.
    """
    if ticks < 0:
        return "-" + format_length(-ticks, unit).translate(str.maketrans("+−", "−+"))
    return _inch_text(ticks) if unit == "in" else _mm_text(ticks)


def with_unit(ticks: Ticks, unit: Unit) -> str:
    """:func:`format_length` [tick] with the unit after it: ``7-3/8 in``, ``188 mm``."""
    return f"{format_length(ticks, unit)} {unit}"


def inch_rule(ticks: Ticks, unit: Unit) -> str:
    """Write a figure of a rule that is given in inches [tick]: ``32 in``, ``32 in (813 mm)``.

    In a metric job the millimetres are whole and stand beside: the rule is no truer than that,
    and says so by its inches.
    """
    shown = with_unit(ticks, "in")
    return shown if unit == "in" else f"{shown} ({round(Fraction(ticks, TICKS_PER_MM))} mm)"


def caliper(ticks: Ticks, unit: Unit) -> str:
    """Write a thickness as calipers show it: `0.703 in`, `17.86 mm`."""
    if unit == "in":
        return f"{ticks / TICKS_PER_INCH:.3f} in"
    return f"{ticks / TICKS_PER_MM:.2f}".rstrip("0").rstrip(".") + " mm"


def format_mass(grams: Grams, unit: Unit) -> str:
    """Write a mass [g]: pounds to 0.1 in an inch job, kilograms to 0.1 in a metric one."""
    if unit == "in":
        return f"{float(grams / GRAMS_PER_POUND):.1f} lb"
    return f"{grams / 1000:.1f} kg"
