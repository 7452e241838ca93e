"""What has been understood of one line while it is being read, and the checks that close it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Literal

from solver.job.inventory import COUNT_MOST, NAME_MOST, Item, WishedPlace
from solver.listing.line_readings import Doubt, LineReading
from solver.units import TICKS_PER_MM, Grams, Ticks

ITSELF = ("each other", "itself", "themselves", "one another")
"""Words for the kind's own name, where it is to stand apart from it."""
NAME_MISSING = "the name is missing"
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
    doubts: list[Doubt] = field(default_factory=list)
    counted: bool = False
    """Whether the line says how many."""
    owned: set[int] = field(default_factory=set)
    """Where numbers stand that have been asked about."""
    written: dict[str, str] = field(default_factory=dict)
    """The sizes as written, by side."""
    weight_text: str = ""
    weight_said: str = ""
    """all, each, or "": what the weight is said to be of."""

    def reading(self, number: int, text: str) -> LineReading:
        """Close the draft: an item where all is well, else the problems."""
        self._check_name()
        self._check_sizes()
        if self.problems:
            return LineReading(number, text, problems=tuple(self.problems), notes=tuple(self.notes))
        if self.weight is None:
            self.notes.append("weight assumed")
        return LineReading(
            number, text, item=self._item(), notes=tuple(self.notes), doubts=tuple(self.doubts)
        )

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
            self.problems.insert(0, NAME_MISSING)
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
