"""A plain line while it is read: what is understood of it is blanked out, place for place."""

from __future__ import annotations

import re

from solver.units import plain_marks

TAKEN = "\0"
"""Stands for each character that has been understood."""
_OPENS = re.compile(rf"(?:^|[,;|(\[{TAKEN}:]|\s-)\s?$")
_CLOSES = re.compile(rf"^\s?(?:$|[,;|)\].{TAKEN}]|-\s)")
_UNDERSTOOD = re.compile(rf"[{TAKEN}]+")
_EDGES = " ,;|:-–—."
_EMPTY = re.compile(r"\(\s*\)|\[\s*\]")
_COMMAS = re.compile(r"\s*([,;|])(?:\s*[,;|])+")


class Scan:
    """A line as written and, place for place, what is not yet understood of it.

    Attributes
    ----------
    original
        The line as the user wrote it [text].
    rest
        The same with plain marks, and :data:`TAKEN` where something was understood [text].
    """

    def __init__(self, line: str) -> None:
        self.original = line
        self.rest = plain_marks(line)

    def blank(self, start: int, end: int) -> None:
        """Mark the characters from `start` to before `end` as understood."""
        self.rest = self.rest[:start] + TAKEN * (end - start) + self.rest[end:]

    def take(self, pattern: re.Pattern[str], free_from: int = 0) -> re.Match[str] | None:
        """Find `pattern` and blank it out.

        Before `free_from` (the start of the sizes) it counts only where it stands
        between commas, dashes or brackets, so that words of a name are left alone.
        """
        for match in pattern.finditer(self.rest):
            if match.start() >= free_from or self._by_itself(match.start(), match.end()):
                self.blank(*match.span())
                return match
        return None

    def _by_itself(self, start: int, end: int) -> bool:
        return bool(_OPENS.search(self.rest[:start]) and _CLOSES.match(self.rest[end:]))

    def left(self, start: int, end: int) -> str:
        """Return what is not understood between two places, as the user wrote it, tidied."""
        unread = "".join(
            TAKEN if plain == TAKEN else char
            for char, plain in zip(self.original[start:end], self.rest[start:end], strict=True)
        )
        joined = _EMPTY.sub(" ", _UNDERSTOOD.sub(" ", unread))
        tidy = _COMMAS.sub(r"\1", re.sub(r"\s+", " ", joined))
        return re.sub(r"\s+([,;])", r"\1", tidy).strip(_EDGES)
