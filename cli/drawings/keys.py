"""The letter and the hatching of each kind of thing, and the key that explains them."""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from cli.drawings.fonts import printable, text_width
from cli.drawings.hatching import PATTERNS, hatched
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Shape, Text, rectangle
from solver.job.job import Job

LETTERS = string.ascii_uppercase

ROW = 4.9
"""Height of a row of the key [mm] on paper."""
SWATCH = 9.0
"""Width of its swatch [mm] on paper."""
APART = 4.0
"""Between two columns [mm] on paper."""


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


def key_scene(job: Job, width: float, scale: int = 1, only: Collection[str] | None = None) -> Scene:
    """Return the key of a job's things in columns.

    Parameters
    ----------
    job
        Whose things.
    width
        How wide it may be [mm] on paper. A name that is wider goes on in further lines.
    scale
        Of the drawing that it is to stand beside [-].
    only
        Names that are told; None: all.
    """
    marks = key_marks(job)
    counts = Counter[str]()
    for item in job.items:
        if only is None or item.name in only:
            counts[item.name] += item.count
    room = width - SWATCH - APART
    rows = [(marks[name], wrapped(_entry(name, count), room)) for name, count in counts.items()]
    wide = max((text_width(line, SMALL) for _, lines in rows for line in lines), default=0.0)
    columns = max(1, int((width + APART) // (wide + SWATCH + 2 + APART)))
    deep = -(-sum(len(lines) for _, lines in rows) // columns)
    shapes: list[Shape] = []
    column, at = 0, 0
    for mark, lines in rows:
        if at >= deep:
            column, at = column + 1, 0
        corner = column * (wide + SWATCH + 2 + APART), -at * ROW
        shapes += _row(mark, lines, corner, scale)
        at += len(lines)
    return Scene("key", "Key of", scale, tuple(shapes), to_scale=False)


def _entry(name: str, count: int) -> str:
    return f"{printable(name)} ({count})" if count > 1 else printable(name)


def _row(
    mark: KeyMark, lines: Sequence[str], corner: tuple[float, float], scale: int
) -> Iterator[Shape]:
    """Yield the swatch and the name; `corner` is the upper left one [mm] on paper."""
    left, top = corner[0] * scale, corner[1] * scale
    x, y = (left, left + SWATCH * scale), (top - 4.2 * scale, top)
    yield rectangle(x, y, "item", filled=True)
    hatch = hatched(x, y, mark.pattern, scale)
    if hatch is not None:
        yield hatch
    baseline = (y[0] + y[1] - SMALL * scale) / 2
    yield Text((sum(x) / 2, baseline), mark.letter, align="middle", bold=True, halo=True)
    for number, text in enumerate(lines):
        yield Text((x[1] + 2 * scale, baseline - number * ROW * scale), text)


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
