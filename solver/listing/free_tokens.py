"""The tokens of a line that nothing has claimed, and which of their numbers belong to the name."""

from __future__ import annotations

from collections.abc import Sequence

from solver.listing.scan import TAKEN, Scan
from solver.listing.tokens import Token
from solver.listing.vocabulary import (
    COUNTERS,
    JOINTS,
    LENGTH_UNITS,
    LENSES,
    MASS_UNITS,
    NAME_UNITS,
    NAMED_BY,
)

_ENDS = frozenset(",;:.()[]-|!")
_OPEN_WORDS = frozenset(["ml", "cl", "mm", "cm", "in", "ft", "oz", "lb", "g", "kg"])


class Line:
    """The tokens of a line that are free, and what stands beside each."""

    def __init__(self, scan: Scan, tokens: Sequence[Token], sizes_at: int) -> None:
        self.scan = scan
        self.sizes_at = sizes_at
        self.tokens = tokens

    def free(self, at: int) -> bool:
        """Whether nothing has claimed a token."""
        inside = 0 <= at < len(self.tokens)
        return inside and self.scan.rest[self.tokens[at].start] != TAKEN

    def word(self, at: int) -> str:
        """The text of a free token, or ""."""
        return self.tokens[at].text if self.free(at) else ""

    def number(self, at: int) -> int | None:
        """The whole number of a free token [-]."""
        return self.tokens[at].whole if self.free(at) else None

    def joined(self, at: int) -> bool:
        """Whether a token stands right after the one before it."""
        inside = 0 < at < len(self.tokens)
        return inside and self.tokens[at - 1].end == self.tokens[at].start

    def opens(self, at: int) -> bool:
        """Whether a part of the line begins here: nothing, a sign or something read before."""
        return not self.free(at - 1) or (self.word(at - 1) in _ENDS and not self.joined_name(at))

    def closes(self, at: int) -> bool:
        """Whether a part of the line ends before the token at `at`."""
        if not self.free(at):
            return True
        return self.word(at) in _ENDS and not (self.word(at) == "-" and self.joined(at))

    def joined_name(self, at: int) -> bool:
        """Whether a token hangs on the one before it by a dash or a colon: `8-day`, `1:48`."""
        return self.word(at - 1) in ("-", ":") and self.joined(at) and self.joined(at - 1)

    def blank(self, first: int, after: int) -> None:
        """Claim the tokens from `first` to before `after`."""
        self.scan.blank(self.tokens[first].start, self.tokens[after - 1].end)


def owned(line: Line, at: int) -> bool:
    """Whether a number is plainly part of the name: `35mm`, `No. 5`, `8-day`, `of 1884`, `F2`."""
    before, after = line.word(at - 1), line.word(at + 1)
    if before == "." and not line.joined_name(at):
        before = line.word(at - 2) if line.word(at - 2) in NAMED_BY else before
    if before in NAMED_BY:
        return True
    token = line.tokens[at]
    if line.joined(at) and line.free(at - 1) and line.tokens[at - 1].kind == "word":
        return len(before) < 4 and before not in ("x",)
    dashed = "-" in (before, after)
    ranged = (line.number(at - 2) if before == "-" else line.number(at + 2)) if dashed else None
    if ranged is not None and token.whole is not None and token.whole < 1000:
        return False
    if line.joined_name(at) or (
        after in ("-", ":") and line.joined(at + 1) and line.joined(at + 2)
    ):
        return line.free(at - 1) or line.free(at + 1)
    if after in NAME_UNITS | set(MASS_UNITS) | set(LENGTH_UNITS):
        return True
    if (
        line.joined(at + 1)
        and line.tokens[at + 1].kind == "word"
        and (
            after in _OPEN_WORDS
            or "-" in after
            or (len(after) < 3 and after not in JOINTS | COUNTERS)
        )
    ):
        return True
    is_year = len(token.text) == 4 and token.whole is not None and 1400 <= token.whole <= 2029
    leading = not any(line.free(n) for n in range(at))
    if is_year and not leading:
        return True
    if after in JOINTS and line.number(at + 2) is not None:
        return line.word(at + 3) in LENSES
    return before in JOINTS and line.number(at - 2) is not None and after in LENSES
