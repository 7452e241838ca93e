"""Numbers in front of the lines of a list: `1. jug …`, taken off where they run 1, 2, 3."""

from __future__ import annotations

import re
from collections.abc import Sequence

_NUMBER = re.compile(r"^\s*(\d{1,5})[.)]\s+(?![x×*\d])")


def numbered(lines: Sequence[str]) -> bool:
    """Whether all lines are numbered from 1 in order; blanks, comments and headings aside."""
    expected = 0
    for line in lines:
        if not line.strip() or line.lstrip().startswith("#") or line.rstrip().endswith(":"):
            continue
        match = _NUMBER.match(line)
        expected += 1
        if not match or int(match[1]) != expected:
            return False
    return expected > 0


def without_number(line: str, is_numbered: bool) -> tuple[str, str | None]:
    """Return the line without its number, and a question where it may be a count."""
    match = _NUMBER.match(line)
    if not match:
        return line, None
    if is_numbered:
        return line[match.end() :], None
    return line, f"is {match[1]} a line number or the count? write {match[1]} x …, or leave it out"
