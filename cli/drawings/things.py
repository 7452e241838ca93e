"""Things on their shelves as simple shapes: hatched rectangles with the letter of the key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from cli.drawings.fonts import text_width
from cli.drawings.hatching import hatched
from cli.drawings.keys import KeyMark
from cli.drawings.shapes import SMALL, Picture, Point, Shape, Text, rectangle
from solver.plan.built import Bay, Opening, Placement
from solver.units import to_mm

LEAST = 1.8
"""Least height of a capital on a thing [mm] on paper, where SMALL does not fit."""

Pictures = Mapping[str, Picture]
"""The picture of a kind by its name; only its data count."""


def things(
    bay: Bay, opening: Opening, marks: Mapping[str, KeyMark], scale: int, pictures: Pictures
) -> Iterator[Shape]:
    """Yield what stands in an opening, seen from the front, what is farther back first."""
    far_first = sorted(opening.items, key=lambda one: (-one.z, one.y, one.x))
    for thing in far_first:
        yield from _thing(thing, *_place(bay, opening, thing), marks[thing.item], scale, pictures)


def letters(bay: Bay, opening: Opening, marks: Mapping[str, KeyMark], scale: int) -> Iterator[Text]:
    """Yield the letters of what stands in front, where a lip leaves it to be seen."""
    for run in _runs(opening):
        yield from _letters(bay, opening, run, marks, scale)


def _place(bay: Bay, opening: Opening, thing: Placement) -> tuple[Point, Point]:
    x, y = bay.x + thing.x, opening.floor + thing.y
    return (to_mm(x), to_mm(x + thing.width)), (to_mm(y), to_mm(y + thing.height))


def _seen(bay: Bay, opening: Opening, thing: Placement) -> tuple[Point, Point]:
    """The place of a thing without what the lip of its shelf hides."""
    x, (bottom, top) = _place(bay, opening, thing)
    return x, (max(bottom, to_mm(opening.floor + opening.lip_above_floor)), top)


def _thing(
    thing: Placement, x: Point, y: Point, mark: KeyMark, scale: int, pictures: Pictures
) -> Iterator[Shape]:
    picture = pictures.get(thing.item)
    if picture is not None and not thing.lying:  # one that lies is seen from elsewhere
        yield rectangle(x, y, "item", filled=True)
        wide, high = x[1] - x[0], y[1] - y[0]
        yield Picture((x[0], y[0]), wide, high, picture.data, picture.kind, picture.says)
        yield rectangle(x, y, "item")  # again: a picture need not leave its edges free
        return
    yield rectangle(x, y, "item", filled=True)
    hatch = hatched(x, y, mark.pattern, scale)
    if hatch is not None:
        yield hatch


def _runs(opening: Opening) -> Iterator[list[Placement]]:
    """Things of a kind that stand next to each other at one height; only what is in front."""
    run: list[Placement] = []
    front = sorted((one for one in opening.items if one.row == 1), key=lambda one: (one.y, one.x))
    for thing in front:
        if run and (thing.item, thing.y) != (run[-1].item, run[-1].y):
            yield run
            run = []
        run.append(thing)
    if run:
        yield run


def _letters(
    bay: Bay, opening: Opening, run: list[Placement], marks: Mapping[str, KeyMark], scale: int
) -> Iterator[Text]:
    """The letter on each thing, or one for the run where the things are too narrow."""
    letter = marks[run[0].item].letter
    for height in (SMALL, LEAST):
        wide, high = text_width(letter, height, bold=True) * scale, height * scale
        if all(_holds(bay, opening, one, wide, high) for one in run):
            for thing in run:
                x, y = _seen(bay, opening, thing)
                yield _letter(letter, (sum(x) / 2, sum(y) / 2), height, scale)
            return
    (left, _), y = _seen(bay, opening, run[0])
    (_, right), _ = _seen(bay, opening, run[-1])
    middle = sum(y) / 2
    if to_mm(run[0].headroom) > 1.6 * LEAST * scale:
        middle = y[1] + LEAST * scale  # above it: nothing of the thing is covered
    yield _letter(letter, ((left + right) / 2, middle), LEAST, scale)


def _holds(bay: Bay, opening: Opening, thing: Placement, wide: float, high: float) -> bool:
    x, y = _seen(bay, opening, thing)
    return x[1] - x[0] >= 1.3 * wide and y[1] - y[0] >= 1.3 * high


def _letter(letter: str, at: Point, height: float, scale: int) -> Text:
    lowered = at[0], at[1] - height * scale / 2
    return Text(lowered, letter, "text", height, "middle", bold=True, halo=True)
