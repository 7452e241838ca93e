"""One line while it is being read: what is known so far, and what is wrong with it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field

from solver.job.inventory import COUNT_MOST, Item, Where
from solver.listing.line_readings import LineReading
from solver.units import TICKS_PER_MM, Grams, Ticks

NAME_MOST = 200
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
    where: Where | None = None
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


def whole_count(text: str, what: str = "count", most: int = COUNT_MOST) -> int:
    """Read a whole number from 1 to `most` [-]; UnreadableError says what is wrong with it."""
    given = text.strip()
    if re.fullmatch(r"\d{1,9}(?:[.,]0+)?", given) and not re.fullmatch(r"\d+,000", given):
        number = int(re.split("[.,]", given)[0])
        if 1 <= number <= most:
            return number
    msg = f"the {what} {given!r} is not a whole number from 1 to {most}"
    raise UnreadableError(msg)


def clean(text: str) -> tuple[str, bool]:
    """Return `text` without control characters and with single spaces; True where some were cut."""
    bare = _HIDDEN.sub("", text)
    return _SPACES.sub(" ", bare).strip(), len(bare) != len(text)
