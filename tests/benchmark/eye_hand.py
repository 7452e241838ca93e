"""Arrangements composed by hand, as data: checked against the case and the things they are for.

A file `SEED.json` has the openings from the lowest up, in the form of a plan:
`{"openings": [{"floor", "height", "items": [{"item", "x", "y", "width", "height"}]}]}`, lengths in
mm. The sizes of case and things come from a plan of the same collection.
"""

from __future__ import annotations

import copy
from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from solver.units import TICKS_PER_INCH
from tests.benchmark.eye_fronts import Front, Space, front, ticks

Json = dict[str, Any]
INCH = TICKS_PER_INCH
MARK = INCH // 16
HEADROOM, GAP, MARGIN, CLEAR = INCH, INCH // 2, INCH // 2, 4 * INCH
"""The program's own defaults [tick]."""


def as_plan(hand: Mapping[str, Any], base: Json) -> Json:
    """Return a plan of the same job with its case arranged as by hand, for sums and pictures."""
    made = copy.deepcopy(base)
    option = made["options"][0]
    bay = option["cases"][0]["bays"][0]
    standing: dict[str, list[Json]] = {}
    for opening in bay["openings"]:
        for item in opening["items"]:
            standing.setdefault(item["item"], []).append(item)
    for opening, by_hand in zip(bay["openings"], hand["openings"], strict=True):
        opening["floor"], opening["height"] = by_hand["floor"], by_hand["height"]
        opening["items"] = [{**standing[one["item"]].pop(), **one} for one in by_hand["items"]]
    for shelf, by_hand in zip(bay["shelves"], hand["openings"][1:], strict=True):
        shelf["top"] = by_hand["floor"]
        shelf["underside"] = round(by_hand["floor"] - shelf["thickness"], 6)
    assert not any(standing.values()), "something is left over"
    return made


def faults(made: Json, base: Json) -> Iterator[str]:
    """Yield what is wrong with an arrangement, as `as_plan` returns it."""
    one, planned = front(made), front(base)
    (case,) = base["options"][0]["cases"]
    (bay,) = case["bays"]
    board = ticks(bay["x"])
    yield from _heights(one, planned, board)
    if _all_things(one) != _all_things(planned):
        yield "the things are not those of the collection"
    for number, space in enumerate(one.spaces):
        yield from (f"opening {number}: {fault}" for fault in _row(one.width, space))


def _heights(one: Front, planned: Front, board: int) -> Iterator[str]:
    if one.spaces[0].floor != planned.spaces[0].floor:
        yield "the lowest floor has moved"
    for low, high in pairwise(one.spaces):
        if low.floor + low.height + board != high.floor:
            yield f"the shelf at {high.floor / INCH} in is not as thick as its board"
        if (high.floor - board) % MARK:
            yield f"the mark {(high.floor - board) / INCH} in is not on a sixteenth"
    if any(space.height < CLEAR for space in one.spaces):
        yield "an opening is lower than 4 in"
    ends = [side.spaces[-1].floor + side.spaces[-1].height for side in (one, planned)]
    if ends[0] != ends[1]:
        yield f"the top has moved by {(ends[0] - ends[1]) / INCH} in"


def _all_things(one: Front) -> Counter[tuple[str, int, int]]:
    return Counter(
        (thing.item, thing.width, thing.height) for space in one.spaces for thing in space.things
    )


def _row(width: int, space: Space) -> Iterator[str]:
    row = sorted(space.things, key=lambda thing: thing.x)
    for thing in row:
        if thing.y:
            yield f"{thing.item} does not stand on the shelf"
        if thing.top + HEADROOM > space.height:
            yield f"{thing.item} has {(space.height - thing.top) / INCH:.3f} in of headroom"
    for left, right in pairwise(row):
        if right.x - left.x - left.width < GAP:
            yield f"{left.item} and {right.item} are too close"
    if row and (row[0].x < MARGIN or row[-1].x + row[-1].width + MARGIN > width):
        yield "the end margin is too small"
