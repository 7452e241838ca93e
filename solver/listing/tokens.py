"""A line as tokens: numbers (fractions and words too), words and signs, with where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from solver.listing.vocabulary import LENGTH_UNITS, MASS_UNITS, NUMBERS, PARTS
from solver.units import VULGAR, plain_marks

_TOKEN = re.compile(
    rf"(?P<number>(?<!\d/)\d+\s?[- ]\s?\d+\s?/\s?\d+(?![\d.]|\s?/)"
    r"|(?<!\d/)\d+\s?/\s?\d+(?![\d.]|\s?/)"
    rf"|\d+\s?-?\s?[{VULGAR}]|[{VULGAR}]|\d+(?:[.,]\d+)+|(?<![\w.,])\.\d+|\d+)"
    r"|(?P<word>(?:in|mm|cm|ft|m)(?=x\s?\d)|[^\W\d_]+(?:['-][^\W\d_]+)*)"
    r"|(?P<sign>''|\S)",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Token:
    """A part of a line.

    Attributes
    ----------
    kind
        number, word, or sign.
    text
        In small letters; of a number the figures, such as ``9 1/2``.
    start, end
        Where it stands in the line [characters].
    spelled
        Whether a number is in words.
    unit
        The unit that is part of a number in words: `foot and a half`.
    """

    kind: str
    text: str
    start: int
    end: int
    spelled: bool = False
    unit: str = ""

    @property
    def whole(self) -> int | None:
        """The number where it is a whole one [-]."""
        is_whole = self.kind == "number" and self.text.isascii() and self.text.isdigit()
        return int(self.text) if is_whole and len(self.text) < 10 else None


def tokens_of(line: str) -> list[Token]:
    """Return the tokens of a line; numbers in words are one token each, as are figures."""
    plain = plain_marks(line)
    raw = [
        Token(match.lastgroup or "", match[0].lower(), match.start(), match.end())
        for match in _TOKEN.finditer(plain)
    ]
    return list(_with_spelled(raw))


def _with_spelled(raw: Sequence[Token]) -> Iterator[Token]:
    at = 0
    while at < len(raw):
        token, used = _spelled(raw, at)
        yield token
        at += used


def _text(raw: Sequence[Token], at: int) -> str:
    return raw[at].text if at < len(raw) else ""


def _spelled(raw: Sequence[Token], at: int) -> tuple[Token, int]:
    """Return the token at a place, a number in words made figures, and how many it took."""
    token = raw[at]
    value, used = _whole(raw, at)
    if not used and (part := _part(raw, at)):
        return _number(raw, at, part[1], part[0]), part[1]
    foot = at + (token.text == "a")
    if _text(raw, foot) == "foot" and (more := _and_part(raw, foot + 1)):
        used = foot - at + 1 + more[1]
        return replace(_number(raw, at, used, 1 + more[0]), unit="ft"), used
    if token.text in ("a", "an") and _text(raw, at + 1) in ("foot", "inch"):
        return _number(raw, at, 1, Fraction(1)), 1
    if used and (more := _and_part(raw, at + used)):
        return _number(raw, at, used + more[1], value + more[0]), used + more[1]
    if token.kind != "number" and used:
        return _number(raw, at, used, Fraction(value)), used
    return token, 1


def _whole(raw: Sequence[Token], at: int) -> tuple[int, int]:
    """A whole number in figures or words, and the tokens that it takes; 0 tokens for none."""
    token = raw[at]
    if token.whole is not None:
        return token.whole, 1
    words = token.text.split("-")
    values = [NUMBERS[word] for word in words if word in NUMBERS]
    if len(values) != len(words) or len(words) > 2:
        return 0, 0
    if len(values) == 2:
        return (sum(values), 1) if values[0] >= 20 > 10 > values[1] else (0, 0)
    after = NUMBERS.get(_text(raw, at + 1), 99)
    return (values[0] + after, 2) if values[0] >= 20 and after < 10 else (values[0], 1)


def _part(raw: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """A fraction in words, such as `half an`, `three quarters`, `a quarter of an`."""
    start = at
    above = NUMBERS.get(_text(raw, at), 1)
    if _text(raw, at) in ("a", "an") or _text(raw, at) in NUMBERS:
        at += 1
    below = PARTS.get(_text(raw, at).removesuffix("s"))
    if below is None or above >= below:
        return None
    at += 1
    if _text(raw, at) == "of":
        at += 1
    if _text(raw, at) in ("a", "an"):
        at += 1
    after = _text(raw, at)
    return (Fraction(above, below), at - start) if after in LENGTH_UNITS | MASS_UNITS else None


def _and_part(raw: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """What follows a whole number in words: `and a half`, `and three quarters`."""
    if _text(raw, at) != "and":
        return None
    above = 1 if _text(raw, at + 1) in ("a", "an") else NUMBERS.get(_text(raw, at + 1), 0)
    below = PARTS.get(_text(raw, at + 2).removesuffix("s"))
    return (Fraction(above, below), 3) if below and 0 < above < below else None


def _number(raw: Sequence[Token], at: int, used: int, value: Fraction) -> Token:
    whole, rest = divmod(value, 1)
    figures = f"{whole} {rest}" if whole and rest else str(rest if rest else whole)
    token = replace(raw[at], kind="number", text=figures, spelled=True)
    return replace(token, end=raw[at + used - 1].end)
