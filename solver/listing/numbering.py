"""Numbers in front of the lines of a list: 1., 2), and those that may as well be counts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

_NUMBER = re.compile(r"^\s*(?:>\s?)*\(?(\d{1,5})(?:[.)]+|[:/])\s+(?![x×*])")


def numbered(lines: Sequence[str]) -> frozenset[int]:
    """Return the lines, counted from 1, whose first figure is one of a series."""
    found = [
        (at, int(match[1])) for at, line in enumerate(lines, 1) if (match := _NUMBER.match(line))
    ]
    series: set[int] = set()
    for (one, number), (other, after) in pairwise(found):
        if after == number + 1:
            series |= {one, other}
    return frozenset(series | {at for at, number in found if number == 1})


def without_number(line: str, in_series: bool) -> tuple[str, int | None]:
    """Return the line without its number, and the number where it may be a count."""
    match = _NUMBER.match(line)
    if not match:
        return line, None
    sure = in_series or (match[0].rstrip().endswith(")") and "(" not in match[0])
    return line[match.end() :], None if sure else int(match[1])
