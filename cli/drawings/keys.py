"""The letter and the hatching of each kind of thing, and the key that explains them."""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cli.drawings.fonts import printable, text_width
from cli.drawings.patterns import PATTERNS, hatched
from cli.drawings.scene import SMALL, Scene, Shape, Text, rectangle
from solver.job import Job

LETTERS = string.ascii_uppercase

ROW = 6.0
"""Height of a row of the key [mm] on paper."""
SWATCH = 9.0
"""Width of its swatch [mm] on paper."""


@dataclass(frozen=True)
class KeyMark:
    """How one kind of thing is told from the others."""

    letter: str
    pattern: int


def letter_of(number: int) -> str:
    """Return the letters of the kind `number` [-], from 0: A to Z, then AA, AB and so on."""
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, len(LETTERS))
        letters = LETTERS[rest] + letters
    return letters


def key_marks(job: Job) -> dict[str, KeyMark]:
    """Return the mark of each kind by its name, in the order of the job."""
    names = dict.fromkeys(item.name for item in job.items)
    return {name: KeyMark(letter_of(n), n % PATTERNS) for n, name in enumerate(names)}


def key_scene(job: Job, width: float) -> Scene:
    """Return the key of a job's things in columns, not wider than `width` [mm] on paper.

    A name that is wider than the whole key goes on in further lines.
    """
    marks = key_marks(job)
    counts = Counter[str]()
    for item in job.items:
        counts[item.name] += item.count
    entries = [(marks[name], _entry(name, count)) for name, count in counts.items()]
    room = width - SWATCH - 4
    wide = min(room, max((text_width(text, SMALL) for _, text in entries), default=0.0))
    columns = max(1, int(width // (wide + SWATCH + 4)))
    rows = [(mark, wrapped(text, room)) for mark, text in entries]
    deep = -(-sum(len(lines) for _, lines in rows) // columns)
    shapes: list[Shape] = []
    column, at = 0, 0
    for mark, lines in rows:
        if at >= deep:
            column, at = column + 1, 0
        left = column * (wide + SWATCH + 4)
        shapes += _row(mark, lines, left, -at * ROW)
        at += len(lines)
    return Scene("key", "Key", 1, tuple(shapes))


def _entry(name: str, count: int) -> str:
    return f"{printable(name)} ({count})" if count > 1 else printable(name)


def _row(mark: KeyMark, lines: Sequence[str], left: float, top: float) -> Iterator[Shape]:
    x, y = (left, left + SWATCH), (top - 4.6, top)
    yield rectangle(x, y, "item", filled=True)
    hatch = hatched(x, y, mark.pattern, 1)
    if hatch is not None:
        yield hatch
    baseline = top - 2.3 - SMALL / 2
    middle = left + SWATCH / 2
    yield Text((middle, baseline), mark.letter, align="middle", bold=True, halo=True)
    for number, text in enumerate(lines):
        yield Text((left + SWATCH + 2, baseline - number * ROW), text)


def wrapped(text: str, width: float, height: float = SMALL) -> list[str]:
    """Return `text` in lines no wider than `width` [mm]; a word that is wider is cut."""
    lines, line = [], ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, height) > width:
            lines.append(line)
            longer = word
        while text_width(longer, height) > width and len(longer) > 1:
            most = next(
                n
                for n in range(len(longer) - 1, 0, -1)
                if n == 1 or text_width(longer[:n], height) <= width
            )
            lines.append(longer[:most])
            longer = longer[most:]
        line = longer
    return [*lines, line]
