"""Dimensions as drawn: extension lines, dimension lines, terminators and lettering (ISO 129-1).

Oblique strokes end a dimension and an open circle is the origin of a running one; lettering is
level, since it is read at the saw. Where it does not fit between the strokes it stands outside.
"""

from __future__ import annotations

from collections.abc import Iterator

from cli.drawings.fonts import text_width
from cli.drawings.shapes import Align, Arc, Dimension, Path, Point, Running, Text, line

GAP = 1.0
"""Between the thing and an extension line [mm] on paper."""
BEYOND = 2.0
"""How far extension lines run past the dimension line [mm] on paper."""
STROKE = 1.5
"""Half the length of an oblique stroke, each way [mm] on paper."""
RING = 1.0
"""Radius of the circle at an origin [mm] on paper."""


def dimension_shapes(shape: Dimension | Running, scale: int) -> Iterator[Path | Arc | Text]:
    """Return the lines and lettering of a dimension in a scene of that scale."""
    return _drawn_plain(shape, scale) if isinstance(shape, Dimension) else _running(shape, scale)


def _at(axis: str, along: float, across: float) -> Point:
    return (along, across) if axis == "x" else (across, along)


def _parts(axis: str, point: Point) -> tuple[float, float]:
    """Return a point's place along and across an axis."""
    return point if axis == "x" else (point[1], point[0])


def _drawn_plain(shape: Dimension, scale: int) -> Iterator[Path | Arc | Text]:
    axis = shape.axis
    align: Align
    (a, a_off), (b, b_off) = _parts(axis, shape.start), _parts(axis, shape.end)
    for along, off in ((a, a_off), (b, b_off)):
        yield from _extension(axis, along, (off, shape.across), scale)
        yield _stroke(axis, along, shape.across, scale)
    low, high = min(a, b), max(a, b)
    wide = text_width(shape.text, shape.height) * scale
    place = (low + high) / 2 if shape.text_at is None else shape.text_at
    if axis == "x":
        at, align = (place, shape.across + GAP * scale), "middle"
        if wide + 2 * STROKE * scale > high - low:  # no room between the strokes: beyond them
            at, align = (high + (STROKE + GAP) * scale, at[1]), "start"
            high += wide + (STROKE + GAP) * scale
        text = Text(at, shape.text, "dimension", shape.height, align, halo=True)
    else:
        inside = low <= place <= high
        at = (shape.across - GAP * scale, place - shape.height * scale / 2)
        if not inside:
            low, high = min(low, place), max(high, place)
        text = Text(at, shape.text, "dimension", shape.height, "end", halo=True)
    yield line(_at(axis, low, shape.across), _at(axis, high, shape.across), "dimension")
    yield text


def _extension(axis: str, along: float, across: tuple[float, float], scale: int) -> Iterator[Path]:
    start, end = across
    way = 1 if end > start else -1
    if abs(end - start) > GAP * scale:
        first, last = start + way * GAP * scale, end + way * BEYOND * scale
        yield line(_at(axis, along, first), _at(axis, along, last), "dimension")


def _stroke(axis: str, along: float, across: float, scale: int) -> Path:
    half = STROKE * scale
    x, y = _at(axis, along, across)
    return Path(((x - half, y - half), (x + half, y + half)), "mark")


def _running(shape: Running, scale: int) -> Iterator[Path | Arc | Text]:
    axis, zero = shape.axis, shape.along(0)
    ends = [zero, *(shape.along(mark.value) for mark in shape.marks)]
    yield line(_at(axis, min(ends), shape.across), _at(axis, max(ends), shape.across), "dimension")
    yield Arc(_at(axis, zero, shape.across), RING * scale, "mark", filled=True)
    for mark in shape.marks:
        along = shape.along(mark.value)
        way = 1 if shape.across > mark.start else -1
        if mark.value:
            yield _stroke(axis, along, shape.across, scale)
        knee = shape.across + way * BEYOND * scale
        shelf = knee + way * (BEYOND if mark.text_at != along else 0) * scale
        points = [
            _at(axis, along, mark.start + way * GAP * scale),
            _at(axis, along, knee),
            _at(axis, mark.text_at, shelf),
        ]
        yield Path(tuple(points if shelf != knee else points[:2]), "dimension")
        yield _running_text(shape, mark.text, mark.text_at, shelf + way * GAP * scale, scale, way)
    if shape.heading:
        top = max(ends[-1], *(mark.text_at for mark in shape.marks))
        way = 1 if shape.marks and shape.across > shape.marks[0].start else -1
        yield _running_text(
            shape, shape.heading, top + 2 * shape.height * scale, shape.across, scale, way
        )


def _running_text(
    shape: Running, text: str, along: float, across: float, scale: int, way: int
) -> Text:
    if shape.axis == "y":
        at = (across, along - shape.height * scale / 2)
        return Text(at, text, "dimension", shape.height, "start" if way > 0 else "end", halo=True)
    if way < 0:
        across -= shape.height * scale  # `at` is on the baseline: below the line there is all of it
    return Text((along, across), text, "dimension", shape.height, "middle", halo=True)
