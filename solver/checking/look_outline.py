"""How far the rows of an option are from mirror images, by their outline.

The outline of an opening is the highest top of its front row, stacks included, over each tick of
its clear width; 0 where nothing stands. Without mirror image is half the area between it and its
image about the middle of the bay, as a share of the area under it. The figure of an option is the
mean over its openings that are not empty, each alike, in per cent to the nearest tenth, half up.
"""

from __future__ import annotations

import itertools
from fractions import Fraction

from solver.checking.places import front_row
from solver.checking.views import OpeningView, OptionView
from solver.units import Ticks


def outline_missed(view: OptionView) -> Fraction:
    """Mean share of the outline without mirror image, to a tenth [%]."""
    shares = [_share(opening) for opening in view.openings if front_row(opening)]
    if not shares:
        return Fraction(0)
    mean = sum(shares, Fraction(0)) / len(shares)
    return Fraction((1000 * mean + Fraction(1, 2)) // 1, 10)


def _share(view: OpeningView) -> Fraction:
    """Share of one opening's outline that has no mirror image [-]."""
    width, row = view.bay.bay.inside.width, front_row(view)
    ends = {end for thing in row for end in (thing.x, thing.x + thing.width)}
    cuts = sorted({0, width} | {x for end in ends for x in (end, width - end) if 0 < x < width})
    area = unlike = 0
    for left, right in itertools.pairwise(cuts):
        here, image = _height(view, left, right), _height(view, width - right, width - left)
        area += (right - left) * here
        unlike += (right - left) * abs(here - image)
    return Fraction(unlike, 2 * area) if area else Fraction(0)


def _height(view: OpeningView, left: Ticks, right: Ticks) -> Ticks:
    """Height of the outline between two cuts that no end lies between [tick]."""
    over = (t for t in front_row(view) if t.x <= left and right <= t.x + t.width)
    return max((thing.y + thing.height for thing in over), default=0)
