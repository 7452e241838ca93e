"""How well a row is composed: its mirror image, its fall from the middle, its blocks, its balance.

In the order that was settled by comparing pictures: a mirror image goes before the tallest in the
middle, that before few blocks, those before balance. A kind that cannot be mirrored is missed
wherever it stands but in the middle, so that among such the tallest go to the middle.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from solver.units import TICKS_PER_MM, Ticks

FLOOR = 40
"""Shares without a mirror image are told apart in steps of this [per mille]."""
CUBIC_CM = 2 * 1000 * TICKS_PER_MM**3
"""Ticks of width times ticks of height times half ticks of way, in one cm3 [-]."""


class CompositionScore(NamedTuple):
    """What is compared of two rows, first thing first; less is better.

    Attributes
    ----------
    outline_missed
        Mean over the fronts of the share of a front that meets no front of its kind in the row's
        mirror image, floored to 40: the outline and the kinds in one. The middle one of an odd
        number answers itself as long as it stands across the middle [per mille].
    rises
        Sum of the heights by which things are higher than their neighbour nearer the middle [tick].
    blocks
        Runs of one kind, and runs of one group or heading [-].
    moment
        Area of the fronts times their way from the middle, sides set off, floored [cm3].
    """

    outline_missed: int
    rises: Ticks
    blocks: int
    moment: int


NOTHING = CompositionScore(0, 0, 0, 0)
"""The score of an empty opening."""


@dataclass(frozen=True, slots=True)
class Front:
    """What is seen of a place, or of places of a kind that touch, as high as their tallest.

    `family` is the kind's group, or the heading it stood under; width and height [tick].
    """

    kind: int
    family: str | None
    width: Ticks
    height: Ticks


def score(width: Ticks, row: Sequence[Front], edges: Sequence[int]) -> CompositionScore:
    """Score a row of at least one front.

    Parameters
    ----------
    width
        Clear width of the opening [tick].
    row, edges
        Its fronts from left to right, and their left edges [1/2 tick].
    """
    rises = moment = kinds = families = height = far = 0
    kind, family = -1, None
    for front, edge in zip(row, edges, strict=True):
        way = edge + front.width - width
        moment += front.width * front.height * way
        kinds += front.kind != kind
        families += front.family is not None and front.family != family
        if kind >= 0 and way != -far:
            # the farther one from the middle is not to be the higher one
            higher = height - front.height if way < -far else front.height - height
            rises += max(0, higher)
        kind, family, height, far = front.kind, front.family, front.height, way
    missed = _missed(2 * width, row, edges)
    return CompositionScore(missed, rises, kinds + families, abs(moment) // CUBIC_CM)


def _missed(full: int, row: Sequence[Front], edges: Sequence[int]) -> int:
    """Mean share of fronts that meet none of their kind in the mirror image, floored [per mille].

    Each front's share met is rounded down to a whole per mille before the mean is taken.
    """
    spans = [(x, x + 2 * f.width, f.height, f.kind) for x, f in zip(edges, row, strict=True)]
    met, at, turned = [0] * len(row), 0, len(row) - 1
    while at < len(row) and turned >= 0:
        (start, end, height, kind), (b, a, its, other) = spans[at], spans[turned]
        a, b = full - a, full - b
        if kind == other and a < end and b > start:
            overlap = (end if end < b else b) - (start if start > a else a)
            met[at] += overlap * (height if height < its else its)
        if end <= b:
            at += 1
        else:
            turned -= 1
    centre = len(row) // 2
    if len(row) % 2 and 2 * spans[centre][0] < full < 2 * spans[centre][1]:
        met[centre] = 2 * row[centre].width * row[centre].height
    shares = [500 * m // (f.width * f.height) for m, f in zip(met, row, strict=True)]
    return (1000 * len(row) - sum(shares)) // len(row) // FLOOR * FLOOR
