"""What reading a list gives: the things, and for every line how it was understood."""

from __future__ import annotations

from dataclasses import dataclass

from solver.errors import InputError, ManyInputsError
from solver.job.inventory import Item

LINE_FORMS = "3 x mantel clock 9-1/2 x 12-1/4 x 5-1/2, 6 lb (width x height x depth, weight of one)"
"""A line that works, for messages."""
_SHOWN_MOST = 120


@dataclass(frozen=True)
class LineReading:
    """One line of the list and what became of it: an item, problems, or the reason to skip it.

    Attributes
    ----------
    number
        Line number, counted from 1 [-].
    text
        The line as it was given, without control characters [text].
    item
        The thing understood, with the count of this line alone; None where unreadable or skipped.
    problems
        What is missing or unreadable, and what would do.
    notes
        How the line was understood where it could have been otherwise.
    skipped
        Why the line holds no thing: blank, a comment, a header, a total.
    """

    number: int
    text: str
    item: Item | None = None
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    skipped: str | None = None

    def error(self, source: str | None = None) -> InputError:
        """Return the problems of this line as one error that quotes its text."""
        shown = self.text if len(self.text) <= _SHOWN_MOST else self.text[:_SHOWN_MOST] + "…"
        where = f"{source} line {self.number}" if source else f"line {self.number}"
        return InputError(f'"{shown}": {"; ".join(self.problems)}', where)


@dataclass(frozen=True)
class Listing:
    """A list as read.

    Attributes
    ----------
    items
        The things, one kind each; lines of the same kind are added up.
    lines
        Every line of the list in order; none is left out.
    notes
        What holds for the whole list, such as its encoding.
    source
        Name of the file, for messages.
    """

    items: tuple[Item, ...]
    lines: tuple[LineReading, ...]
    notes: tuple[str, ...] = ()
    source: str | None = None

    @property
    def unreadable(self) -> tuple[LineReading, ...]:
        """The lines that could not be read."""
        return tuple(line for line in self.lines if line.problems)

    def raise_if_unreadable(self) -> None:
        """Raise ManyInputsError with every unreadable line, or InputError for an empty list."""
        bad = self.unreadable
        if bad:
            what = "1 line cannot be read" if len(bad) == 1 else f"{len(bad)} lines cannot be read"
            heading = f"{what}; a line that works: {LINE_FORMS}"
            raise ManyInputsError([line.error(self.source) for line in bad], heading)
        if not self.items:
            msg = f"there are no things in the list; a line that works: {LINE_FORMS}"
            raise InputError(msg, self.source)
