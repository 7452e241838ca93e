"""Scores of a layout: what is left out, what is asked for, what stands with what."""

from __future__ import annotations

from collections.abc import Sequence

from solver.layout.layout_problem import Form, Kind, LayoutProblem, Spot
from tests.eye_layout import Layout, floor_of, kept_empty, spots

INCH = 8128
"""Ticks in an inch."""
HERO = (57 * INCH, 64 * INCH)
"""Where the middle of a hero is to be above the floor of the room [tick]."""

# --- Fit and what is asked for ------------------------------------------------------------


def loss(problem: LayoutProblem, layout: Layout) -> tuple[int, int, int]:
    """Area left out of what must, should and may be shown [mm2]."""
    return tuple(  # type: ignore[return-value]
        sum(k.area * layout.left.get(n, 0) for n, k in enumerate(problem.kinds) if k.keep == keep)
        for keep in range(3)
    )


def fit(problem: LayoutProblem, layout: Layout) -> int:
    """Area left out in all [mm2]."""
    return sum(loss(problem, layout))


def asked(problem: LayoutProblem, layout: Layout) -> int:
    """Things asked for by name that miss what was asked, each wish by itself."""
    floor = floor_of(problem, layout)
    missed = 0
    for n, kind in enumerate(problem.kinds):
        here = {spot: layout.things(n, spot) for spot in floor}
        if kind.where is not None:
            at = {b: wished_opening(problem, layout, kind, b) for b in range(len(problem.bays))}
            missed += sum(count for (b, k), count in here.items() if k != at[b])
        if kind.together:
            missed += sum(here.values()) - max(here.values())
        if kind.fragile:
            low = problem.wishes.fragile_floor
            missed += sum(count for spot, count in here.items() if floor[spot] < low)
        if kind.hero:
            missed += sum(
                not is_at_hero_height(floor[spot], twice)
                for spot in floor
                for form, count in layout.places.get(spot, ())
                if form.kind == n
                for twice in twice_centres(form, count)
            )
    return missed


def wished_opening(problem: LayoutProblem, layout: Layout, kind: Kind, bay: int) -> int:
    """The opening of a bay where a kind is wished, whether the bay has such a one or not."""
    if kind.where == "low":
        return 0
    if kind.where == "top":
        return problem.bays[bay].shelves
    if kind.where == "eye":
        floor = floor_of(problem, layout)
        level = problem.wishes.eye_level
        below = [k for (b, k), height in floor.items() if b == bay and height <= level]
        return max(below, default=0)
    assert isinstance(kind.where, int)
    return kind.where


def twice_centres(form: Form, count: int) -> list[int]:
    """Twice the height of the middle of each thing of a place above its opening's floor [tick].

    Rows behind the first stand on risers half a pile's height up, each pile `stack` high.
    """
    high = form.size[1]
    riser = -(-form.stack * high // 2) if form.rows > 1 else 0
    return [2 * (n // form.stack * riser + n % form.stack * high) + high for n in range(count)]


def is_at_hero_height(floor: int, twice: int) -> bool:
    """Whether a thing's middle is where the eye is, for twice its height above its floor."""
    return 2 * HERO[0] <= 2 * floor + twice <= 2 * HERO[1]


# --- What stands with what ----------------------------------------------------------------


def empty(problem: LayoutProblem, layout: Layout) -> int:
    """Openings without anything, but for those kept empty."""
    counted = set(spots(problem)) - kept_empty(problem)
    return sum(not layout.places.get(spot) for spot in counted)


def mirrored(problem: LayoutProblem, layout: Layout) -> int:
    """Kinds with an odd number of places in an opening, but for one in each opening."""
    total = 0
    for spot in spots(problem):
        kinds = [form.kind for form, _ in layout.places.get(spot, ())]
        total += max(0, sum(kinds.count(kind) % 2 for kind in set(kinds)) - 1)
    return total


def families(problem: LayoutProblem) -> list[set[int]]:
    """Kinds of each heading, and of each group that the client wrote."""
    named = [("heading", kind.heading, n) for n, kind in enumerate(problem.kinds)]
    named += [("group", kind.group, n) for n, kind in enumerate(problem.kinds)]
    names = dict.fromkeys((what, name) for what, name, _ in named if name is not None)
    return [{n for what, name, n in named if (what, name) == one} for one in names]


def headings(problem: LayoutProblem, layout: Layout) -> int:
    """Openings that a heading or group uses beyond one, and those it skips, summed."""
    return sum(
        spread([s for s in spots(problem) if any(layout.things(n, s) for n in kinds)])
        for kinds in families(problem)
    )


def spread(used: Sequence[Spot]) -> int:
    """Openings used beyond one, and those skipped between the lowest and highest of a bay."""
    skipped = 0
    for bay in {b for b, _ in used}:
        numbers = [k for b, k in used if b == bay]
        skipped += max(numbers) - min(numbers) + 1 - len(numbers)
    return max(0, len(used) - 1) + skipped


def together(problem: LayoutProblem, layout: Layout) -> int:
    """Openings that a kind uses beyond one, summed over kinds."""
    return sum(
        max(0, sum(layout.things(n, s) > 0 for s in spots(problem)) - 1)
        for n in range(len(problem.kinds))
    )


def alone(problem: LayoutProblem, layout: Layout) -> int:
    """Openings with one thing of a kind of three or more, while others of it stand elsewhere."""
    total = 0
    for n, kind in enumerate(problem.kinds):
        here = [layout.things(n, spot) for spot in spots(problem)]
        if kind.count >= 3:
            total += sum(count == 1 and sum(here) > 1 for count in here)
    return total
