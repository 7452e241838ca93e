"""Local search over what stands where, with the shelf positions fixed (late acceptance).

The model of a large layout is too big to be searched again for every wish. Moving single
places about and keeping what is better is quick, and good enough for wishes that are
allowed a gap; no bound comes of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import TypeAlias

from solver.layout.arrangement import Standing
from solver.layout.layout_problem import Form
from solver.outcome import Limits
from solver.units import Ticks

MOVES_LEAST = 6_000
MOVES_EACH = 100
"""Moves tried: so many, or so many for each place."""
MEMORY = 20
"""A move is kept that is no worse than where the search stood so many moves before."""
LOOK_UP = 256
"""Moves between two looks at the clock."""

Move: TypeAlias = tuple[tuple[int, int, Form], ...]
"""Places, each with the space it goes to and the form it takes there."""
Score: TypeAlias = tuple[Fraction | int, int, int, int, int, int]


@dataclass(frozen=True)
class Targets:
    """How good each wish needs to be, first wish first; None where it is not asked yet.

    Attributes
    ----------
    to_fit
        Score of the to-fit rhythm [tick].
    filled
        Openings in which something stands [-]; at least so many.
    spread
        Largest less smallest room over the tallest things [tick].
    missed
        Things that stand elsewhere than wished [-].
    weight
        Mass x height of the floor it stands on [g mm].
    """

    to_fit: Fraction | None = None
    filled: int = 0
    spread: Ticks | None = None
    missed: int | None = None
    weight: int | None = None


def polish(standing: Standing, targets: Targets, limits: Limits) -> None:
    """Better a layout in place: what exceeds the targets, wish by wish, then uneven fill.

    The same layout, targets and seed give the same result, unless time is up before the
    end.
    """
    draw = Random(limits.seed)  # noqa: S311 - repeatable, nothing secret
    now = score(standing, targets)
    memory, best, kept = [now] * MEMORY, now, _snapshot(standing)
    for turn in range(max(MOVES_LEAST, MOVES_EACH * len(standing.at))):
        if turn % LOOK_UP == 0 and limits.over:
            break
        move = _draw_move(standing, draw)
        back = _try(standing, move) if move else None
        if back is None:
            continue
        new = score(standing, targets)
        if new <= now or new <= memory[turn % MEMORY]:
            now = new
        else:
            _make(standing, back)
        memory[turn % MEMORY] = min(now, memory[turn % MEMORY])
        if now < best:
            best, kept = now, _snapshot(standing)
    _make(standing, kept)


def score(standing: Standing, targets: Targets) -> Score:
    """What exceeds each target, and how uneven the fill is; less is better, first comes first."""
    fit = 0 if targets.to_fit is None else max(Fraction(0), standing.to_fit - targets.to_fit)
    spread = 0 if targets.spread is None else _uneven_rooms(standing, targets.spread)
    missed = 0 if targets.missed is None else max(0, standing.missed - targets.missed)
    weight = 0 if targets.weight is None else max(0, standing.weight - targets.weight)
    return (
        fit,
        max(0, targets.filled - standing.filled),
        spread,
        missed,
        weight,
        standing.uneven_fill,
    )


def _uneven_rooms(standing: Standing, allowed: Ticks) -> int:
    """Sum of the squares of what each room has more than the least and what is allowed."""
    rooms = [room for room in standing.room if room is not None]
    most = min(rooms, default=0) + allowed
    return sum((room - most) ** 2 for room in rooms if room > most)


def _draw_move(standing: Standing, draw: Random) -> Move | None:
    """One place to another space, or in exchange for one or two that stand there."""
    if not standing.at:
        return None
    place, goal = draw.randrange(len(standing.at)), draw.randrange(len(standing.spaces))
    ways = standing.ways(place, goal)
    if not ways:
        return None
    way = ways[0] if draw.random() < 0.8 else draw.choice(ways)
    return (place, goal, way), *_in_exchange(standing, draw, standing.at[place], goal)


def _in_exchange(
    standing: Standing, draw: Random, home: int, goal: int
) -> Iterator[tuple[int, int, Form]]:
    """None, one or two places that come back from the goal, where they could stand."""
    there = standing.members[goal]
    count = min(draw.choice((0, 1, 1, 2)), len(there)) if goal != home else 0
    for other in draw.sample(there, count):
        ways = standing.ways(other, home)
        if ways:
            yield other, home, ways[0]


def _try(standing: Standing, move: Move) -> Move | None:
    """Make a move if the rules allow it; returns the move that takes it back."""
    at, forms = standing.at, standing.forms
    back = tuple((place, at[place], forms[place]) for place, _, _ in move)
    _shift(standing, move)
    touched = {space for _, space, _ in (*move, *back)}
    if all(map(standing.holds, touched)) and all(standing.together(p) for p, _, _ in move):
        for space in touched:
            standing.measure(space)
        return back
    _shift(standing, back)  # what stands in each space is as before, so its room is too
    return None


def _make(standing: Standing, move: Move) -> None:
    touched = {space for place, goal, _ in move for space in (standing.at[place], goal)}
    _shift(standing, move)
    for space in touched:
        standing.measure(space)


def _shift(standing: Standing, move: Move) -> None:
    for place, space, form in move:
        if standing.at[place] != space or standing.forms[place] is not form:
            standing.shift(place, space, form)


def _snapshot(standing: Standing) -> Move:
    return tuple(
        (place, space, form)
        for place, (space, form) in enumerate(zip(standing.at, standing.forms, strict=True))
    )
