"""How each line of a list was understood, the questions it leaves, and the list as a whole.

A line has a reading (`item`), a reading with questions (`item` is then the likeliest, `doubts` what
else it may be), problems (what is missing), or the reason why it holds no thing (`skipped`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from solver.errors import InputError, ManyInputsError
from solver.job.inventory import COUNT_MOST, NAME_MOST, Item

LINE_FORMS = "3 x mantel clock 9-1/2 x 12-1/4 x 5-1/2, 6 lb (width x height x depth, weight of one)"
"""A line that works, for messages."""
_SHOWN_MOST = 120
GREETING, QUESTION, REMARK, SIGN_OFF = "a greeting", "a question", "a remark", "a sign-off"
ASIDE = frozenset((GREETING, QUESTION, REMARK, SIGN_OFF))
"""Reasons to set a line aside that the client meant for a reader: such lines are shown."""


@dataclass(frozen=True)
class Choice:
    """One answer to a doubt.

    Attributes
    ----------
    label
        The answer in words, such as ``3 of them``.
    changes
        Fields of the :class:`Item` that this answer sets, such as ``{"count": 3}``.
    """

    label: str
    changes: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Doubt:
    """A question about one line.

    Attributes
    ----------
    question
        In plain words that name what is written: ``how many: 2 or 3?``.
    choices
        The answers, the likeliest first; the item of the line is what the first one says.
    """

    question: str
    choices: tuple[Choice, ...]


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
        Why the line holds no thing: blank, a comment, a header, a total, or one of `ASIDE`.
    doubts
        What must be asked; the item is the likeliest reading.
    """

    number: int
    text: str
    item: Item | None = None
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    skipped: str | None = None
    doubts: tuple[Doubt, ...] = ()

    @property
    def is_sure(self) -> bool:
        """Whether a thing was read and nothing is left to ask."""
        return self.item is not None and not self.doubts and not self.problems

    def answered(self, choices: Sequence[int]) -> LineReading:
        """Return the line with its first doubts answered, by the index of a choice each [-]."""
        item = self.item
        if item is None:
            return self
        notes = list(self.notes)
        for doubt, at in zip(self.doubts, choices, strict=False):
            choice = doubt.choices[at]
            item = item.model_validate(item.model_dump() | dict(choice.changes))
            notes.append(f"{doubt.question} {choice.label}")
        return replace(self, item=item, notes=tuple(notes), doubts=self.doubts[len(choices) :])

    def error(self, source: str | None = None) -> InputError:
        """Return the problems and questions of this line as one error that quotes its text."""
        shown = self.text if len(self.text) <= _SHOWN_MOST else self.text[:_SHOWN_MOST] + "…"
        where = f"{source} line {self.number}" if source else f"line {self.number}"
        asked = (
            f"{doubt.question} ({', '.join(choice.label for choice in doubt.choices)})"
            for doubt in self.doubts
        )
        return InputError(f'"{shown}": {"; ".join((*self.problems, *asked))}', where)


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
    unmerged
        The lines before equal things were added up.
    """

    items: tuple[Item, ...]
    lines: tuple[LineReading, ...]
    notes: tuple[str, ...] = ()
    source: str | None = None
    unmerged: tuple[LineReading, ...] = field(default=(), repr=False)

    @classmethod
    def of(cls, readings: Iterable[LineReading], source: str | None = None) -> Listing:
        """Return the list of these lines, equal things added up and names told apart."""
        unmerged = tuple(readings)
        items, lines = merge(unmerged)
        return cls(_with_names(items), lines, source=source, unmerged=unmerged)

    def answered(self, answers: Mapping[int, Sequence[int]]) -> Listing:
        """Return the list with doubts answered.

        `answers` has, by line number, the index of a choice for each of its doubts [-]. They are
        applied before equal things are added up.
        """
        given = (line.answered(answers.get(line.number, ())) for line in self.unmerged)
        return replace(Listing.of(given, self.source), notes=self.notes)

    @property
    def doubtful(self) -> tuple[LineReading, ...]:
        """The lines that must be asked about; each has an item, its likeliest reading."""
        return tuple(line for line in self.lines if line.doubts)

    @property
    def aside(self) -> tuple[LineReading, ...]:
        """Greetings, questions, remarks and sign-offs, which are shown."""
        return tuple(line for line in self.lines if line.skipped in ASIDE)

    @property
    def unreadable(self) -> tuple[LineReading, ...]:
        """The lines that could not be read."""
        return tuple(line for line in self.lines if line.problems)

    def raise_if_unreadable(self) -> None:
        """Raise ManyInputsError with every line that is not sure, or InputError for no things."""
        bad = tuple(line for line in self.lines if line.problems or line.doubts)
        if bad:
            raise ManyInputsError([line.error(self.source) for line in bad], self._heading())
        if not self.items:
            msg = f"there are no things in the list; a line that works: {LINE_FORMS}"
            raise InputError(msg, self.source)

    def _heading(self) -> str:
        """How many lines are not sure, how many are, and what to do about it."""
        lost, doubtful = len(self.unreadable), sum(not line.problems for line in self.doubtful)
        sure = sum(line.is_sure and line.item is not None for line in self.lines)
        words = []
        if lost:
            words.append("1 line cannot be read" if lost == 1 else f"{lost} lines cannot be read")
        if doubtful:
            words.append(
                "1 line is in doubt" if doubtful == 1 else f"{doubtful} lines are in doubt"
            )
        if sure:
            words.append(f"{sure} read (casewright check shows them)")
        heading = f"{', '.join(words)}; a line that works: {LINE_FORMS}"
        if doubtful:
            heading += "; --accept-guesses takes the first answer to each question"
        return heading


def merge(readings: Iterable[LineReading]) -> tuple[tuple[Item, ...], tuple[LineReading, ...]]:
    """Return the items with different names, and the readings with notes on what was done.

    Same name and all else the same: the counts are added. Same name but another size
    or weight: the later one is called `jug (2)`.
    """
    merger = _Merger()
    lines = tuple(merger.take(reading) for reading in readings)
    return tuple(merger.items.values()), lines


class _Merger:
    """The items so far, by name without letter case, and those that share a name."""

    def __init__(self) -> None:
        self.items: dict[str, Item] = {}
        self._known: dict[tuple[object, ...], str] = {}
        self._next: dict[str, int] = {}
        self._first_line: dict[str, int] = {}

    def take(self, reading: LineReading) -> LineReading:
        item = reading.item
        if item is None:
            return reading
        base = _name_key(item.name)
        same = self._known.get((base, *_all_but_name_and_count(item)))
        if same is not None:
            return self._add(reading, item, same)
        if base in self.items:
            return self._rename(reading, item, base)
        self._keep(reading, item, base)
        return reading

    def _keep(self, reading: LineReading, item: Item, base: str) -> None:
        key = _name_key(item.name)
        self.items[key] = item
        self._known[(base, *_all_but_name_and_count(item))] = key
        self._first_line[key] = reading.number

    def _add(self, reading: LineReading, item: Item, key: str) -> LineReading:
        first = self.items[key]
        total = first.count + item.count
        if total > COUNT_MOST:
            problem = f"with line {self._first_line[key]} there are {total}; at most {COUNT_MOST}"
            return replace(reading, item=None, problems=(*reading.problems, problem))
        self.items[key] = first.model_copy(update={"count": total})
        note = f"added to line {self._first_line[key]}: {total} in all"
        return replace(
            reading,
            item=item.model_copy(update={"name": first.name}),
            notes=(*reading.notes, note),
        )

    def _rename(self, reading: LineReading, item: Item, base: str) -> LineReading:
        number = self._next.get(base, 2)
        while _name_key(name := f"{item.name} ({number})") in self.items:
            number += 1
        self._next[base] = number + 1
        if len(name) > NAME_MOST:
            problem = "the name is taken by another thing; give it a name of its own"
            return replace(reading, item=None, problems=(*reading.problems, problem))
        renamed = item.model_copy(update={"name": name})
        self._keep(reading, renamed, base)
        what = _difference(self.items[base], item)
        note = f"renamed {name}: {what} differs from line {self._first_line[base]}"
        return replace(reading, item=renamed, notes=(*reading.notes, note))


def _name_key(name: str) -> str:
    return name.casefold()


def _all_but_name_and_count(item: Item) -> tuple[object, ...]:
    return tuple(value for field, value in item if field not in ("name", "count"))


def _difference(one: Item, other: Item) -> str:
    fields = [f for f, value in one if f not in ("name", "count") and value != getattr(other, f)]
    return "size" if set(fields) & {"width", "height", "depth"} else ", ".join(fields)


def _with_names(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Write what things stand apart from as it is written where it is listed, letter case too."""
    names = {_name_key(item.name): item.name for item in items}
    return tuple(
        item.model_copy(
            update={"apart": tuple(names.get(_name_key(one), one) for one in item.apart)}
        )
        if item.apart
        else item
        for item in items
    )
