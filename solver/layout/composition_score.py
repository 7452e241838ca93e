"""How well a row is composed: its mirror image, its fall from the middle, its blocks, its balance.

Judged left to right, in the order of eye and trade that was settled by comparing pictures: a
mirror image goes before the tallest in the middle, that before few blocks, those before balance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from solver.units import TICKS_PER_MM, Ticks

FLOOR = 40
"""Shares without a mirror image are told apart in steps of this [per mille]."""
CUBIC_CM = 2 * 1000 * TICKS_PER_MM**3
"""Ticks of width times ticks of height times half ticks of way, in one cm3 [-]."""


@dataclass(frozen=True, order=True)
class CompositionScore:
    """What is compared of two rows, first thing first; less is better.

    Attributes
    ----------
    outline_missed
        Share of the fronts without a mirror image about the middle, floored to 40: the mean of
        the share of the outline's area and of the share of the width of the kinds [per mille].
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


@dataclass(frozen=True)
class Front:
    """What is seen of a place: its kind, its group or heading, width and height [tick]."""

    kind: int
    family: str | None
    width: Ticks
    height: Ticks


def score(width: Ticks, row: Sequence[Front], edges: Sequence[int]) -> CompositionScore:
    """Score a row of at least one place.

    Parameters
    ----------
    width
        Clear width of the opening [tick].
    row, edges
        Its places from left to right, and their left edges [1/2 tick].
    """
    moment, ways = 0, []
    for front, edge in zip(row, edges, strict=True):
        way = edge + front.width - width
        ways.append(abs(way))
        moment += front.width * front.height * way
    return CompositionScore(
        _missed(2 * width, row, edges), _rises(row, ways), _blocks(row), abs(moment) // CUBIC_CM
    )


def _blocks(row: Sequence[Front]) -> int:
    kinds = families = 0
    kind, family = -1, None
    for front in row:
        kinds += front.kind != kind
        families += front.family is not None and front.family != family
        kind, family = front.kind, front.family
    return kinds + families


def _rises(row: Sequence[Front], ways: Sequence[int]) -> Ticks:
    """Sum over neighbours of what the one farther from the middle is higher [tick]."""
    total = 0
    for (a, far_a), (b, far_b) in pairwise(zip(row, ways, strict=True)):
        if far_a > far_b:
            total += max(0, a.height - b.height)
        elif far_b > far_a:
            total += max(0, b.height - a.height)
    return total


def _missed(full: int, row: Sequence[Front], edges: Sequence[int]) -> int:
    """Share without a mirror image, floored [per mille]: fronts met by those of the turned row."""
    area = wide = same_area = same_wide = 0
    turned = [
        (full - edge - 2 * front.width, full - edge, front.height, front.kind)
        for front, edge in zip(row, edges, strict=True)
    ]
    for front, start in zip(row, edges, strict=True):
        end, height, kind = start + 2 * front.width, front.height, front.kind
        area += 2 * front.width * height
        wide += 2 * front.width
        while turned:
            a, b, other, its = turned[-1]
            overlap = (b if b < end else end) - (a if a > start else start)
            if overlap > 0:
                same_area += overlap * (other if other < height else height)
                if its == kind:
                    same_wide += overlap
            if b > end:
                break
            turned.pop()
    lost = (area - same_area) * wide + (wide - same_wide) * area
    return 1000 * lost // (2 * area * wide) // FLOOR * FLOOR
