"""Published measures of how rectangles lie in a frame, left to right; nothing of the planner's.

Balance and symmetry: Ngo, Teo and Byrne, Modelling interface aesthetics, Information Sciences 152
(2003) 25-46. The formulas of balance are *quoted* (seen in a copy of their wording), those of
symmetry and its normalising *quoted* from code that follows the same authors' A mathematical theory
of interface aesthetics (2000); the paper itself was not seen. Deviation of the centre of mass:
Hübner and Fillinger, Frontiers in Psychology 7:335 (2016), *quoted* from the toolbox of Redies and
others (Behavior Research Methods 57:117, 2025), to which the authors belong.

Each has a share for the vertical axis, left against right; only that is given here, since what is
tall and heavy belongs low on furniture, while a screen is to balance top and bottom too. Hence
the mean of several axes that the papers end with is left off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, inf


@dataclass(frozen=True)
class Rectangle:
    """A rectangle in a frame, from the frame's lower left corner; any unit of length."""

    x: float
    y: float
    width: float
    height: float

    @property
    def area(self) -> float:
        return self.width * self.height

    @property
    def centre(self) -> tuple[float, float]:
        return self.x + self.width / 2, self.y + self.height / 2


Frame = tuple[float, float]
"""Width and height."""


def balance(frame: Frame, rectangles: Sequence[Rectangle]) -> float:
    """Return 1 less the absolute value of Ngo's BM_vertical: 1 is balanced, 0 is one side only [-].

    BM = (w_L - w_R) / max(|w_L|, |w_R|), where w of a side is the sum over its objects of area
    times distance of the object's centre line from the frame's. An object over the middle counts
    on each side with its part there: the formula speaks of the area of object i on side j.
    """
    middle = frame[0] / 2
    left = right = 0.0
    for one in rectangles:
        for part in _halves(one, middle):
            moment = part.area * (part.centre[0] - middle)
            left, right = left + max(0.0, -moment), right + max(0.0, moment)
    most = max(left, right)
    return 1.0 if most == 0 else 1 - abs(left - right) / most


def symmetry(frame: Frame, rectangles: Sequence[Rectangle]) -> float:
    """Return 1 less Ngo's SYM_vertical, of upper and lower quadrants: 1 is alike [-].

    Over each quadrant six sums are taken: distances of the objects' centres from the frame's
    across (X) and up (Y), heights (H), widths (B), slopes (angle, as its tangent) and distances
    from the middle (R). Each is normalised by least and most of the four quadrants; the mean of
    the twelve differences between left and right is the measure. An object over an axis counts
    with its part in each quadrant.
    """
    middle = frame[0] / 2, frame[1] / 2
    sums = [[0.0] * 4 for _ in range(6)]
    for one in rectangles:
        for part in _quarters(one, middle):
            across, up = part.centre[0] - middle[0], part.centre[1] - middle[1]
            quadrant = (0 if up > 0 else 2) + (0 if across < 0 else 1)
            figures = (
                abs(across), abs(up), part.height, part.width, abs(up / across), hypot(across, up)
            )  # fmt: skip
            for row, figure in zip(sums, figures, strict=True):
                row[quadrant] += figure
    differences = 0.0
    for row in map(_normalised, sums):
        differences += abs(row[0] - row[1]) + abs(row[2] - row[3])
    return 1 - differences / 12


def mass_deviation(frame: Frame, rectangles: Sequence[Rectangle]) -> float:
    """Return how far the centre of mass lies off the middle, across, in per cent.

    Of half the frame's width: 100 is all mass at one edge. Mass is area, as in a picture in black
    and white.
    """
    mass = sum(one.area for one in rectangles)
    centre = sum(one.area * one.centre[0] for one in rectangles) / mass
    return abs(0.5 - centre / frame[0]) / 0.5 * 100


def _normalised(row: Sequence[float]) -> list[float]:
    least, most = min(row), max(row)
    return [0.0 if most == least else (value - least) / (most - least) for value in row]


def _halves(one: Rectangle, middle: float) -> list[Rectangle]:
    return _parts(one, ((-inf, middle), (middle, inf)), ((-inf, inf),))


def _quarters(one: Rectangle, middle: tuple[float, float]) -> list[Rectangle]:
    across = (-inf, middle[0]), (middle[0], inf)
    return _parts(one, across, ((-inf, middle[1]), (middle[1], inf)))


def _parts(
    one: Rectangle,
    across: Sequence[tuple[float, float]],
    up: Sequence[tuple[float, float]],
) -> list[Rectangle]:
    """Return the parts of a rectangle in the fields of a grid; none is empty."""
    parts = []
    for low, high in up:
        bottom, top = max(low, one.y), min(high, one.y + one.height)
        for start, stop in across:
            left, right = max(start, one.x), min(stop, one.x + one.width)
            if left < right and bottom < top:
                parts.append(Rectangle(left, bottom, right - left, top - bottom))
    return parts
