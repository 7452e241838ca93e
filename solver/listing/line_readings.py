"""How a line of a list was understood: while it is being read, and as the answer for it.

:class:`Listing` is the answer for a whole list.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Literal

from solver.errors import InputError, ManyInputsError
from solver.job.inventory import COUNT_MOST, Item, WishedPlace
from solver.units import TICKS_PER_MM, Grams, Ticks

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


NAME_MOST = 200
ITSELF = ("each other", "itself", "themselves", "one another")
"""Words for the kind's own name, where it is to stand apart from it."""
SIDES = ("width", "height", "depth")
_HIDDEN = re.compile(
    "[\x00-\x08\x0e-\x1f\x7f-\x9f\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff\ud800-\udfff]"
)
_SPACES = re.compile(r"\s+")


class UnreadableError(ValueError):
    """A part of a line cannot be read; the text says what is missing and what would do."""


@dataclass
class Draft:
    """What has been understood of one line."""

    name: str = ""
    sizes: dict[str, Ticks] = field(default_factory=dict)
    count: int = 1
    weight: Grams | None = None
    group: str | None = None
    heading: str | None = None
    keep: Literal["must", "should", "optional"] = "should"
    hero: bool = False
    fragile: bool = False
    order: int | None = None
    together: bool = False
    apart: tuple[str, ...] = ()
    where: WishedPlace | None = None
    may_lie: bool = False
    rows: int = 1
    stack: int = 1
    gap: Ticks | None = None
    guessed: bool = False
    picture: str | None = None
    notes: list[str] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)

    def reading(self, number: int, text: str) -> LineReading:
        """Close the draft: an item where all is well, else the problems."""
        self._check_name()
        self._check_sizes()
        if self.problems:
            return LineReading(number, text, problems=tuple(self.problems), notes=tuple(self.notes))
        if self.weight is None:
            self.notes.append("weight assumed")
        return LineReading(number, text, item=self._item(), notes=tuple(self.notes))

    def _item(self) -> Item:
        return Item(
            name=self.name,
            width=self.sizes["width"],
            height=self.sizes["height"],
            depth=self.sizes["depth"],
            count=self.count,
            weight=self.weight,
            group=self.group,
            heading=self.heading,
            keep=self.keep,
            hero=self.hero,
            fragile=self.fragile,
            order=self.order,
            together=self.together,
            apart=tuple(self.name if one.lower() in ITSELF else one for one in self.apart),
            where=self.where,
            may_lie=self.may_lie,
            rows=self.rows,
            stack=self.stack,
            gap=self.gap,
            guessed=self.guessed,
            picture=self.picture,
        )

    def _check_name(self) -> None:
        if not any(c.isalnum() or unicodedata.category(c)[0] == "S" for c in self.name):
            self.problems.insert(0, "the name is missing")
        elif len(self.name) > NAME_MOST:
            self.problems.append(
                f"the name has {len(self.name)} characters; shorten it to {NAME_MOST}"
            )

    def _check_sizes(self) -> None:
        for side in SIDES:
            if self.sizes.get(side, TICKS_PER_MM) < TICKS_PER_MM:
                self.problems.append(f"the {side} is less than 1 mm; check it and its unit")


def whole_count(text: str, what: str = "count", most: int = COUNT_MOST, least: int = 1) -> int:
    """Read a whole number from `least` to `most` [-]; UnreadableError says what is wrong."""
    given = text.strip()
    if re.fullmatch(r"\d{1,9}(?:[.,]0+)?", given) and not re.fullmatch(r"\d+,000", given):
        number = int(re.split("[.,]", given)[0])
        if least <= number <= most:
            return number
    msg = f"the {what} {given!r} is not a whole number from {least} to {most}"
    raise UnreadableError(msg)


def clean_text(text: str) -> tuple[str, bool]:
    """Return `text` without control characters and with single spaces; True where some were cut."""
    bare = _HIDDEN.sub("", text)
    return _SPACES.sub(" ", bare).strip(), len(bare) != len(text)
