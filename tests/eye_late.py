"""Scores of a layout that come after the rhythm: voids, rows, air, sight and weight."""

from __future__ import annotations

from solver.layout.layout_problem import Form, LayoutProblem
from tests.eye_layout import Layout, clear, floor_of, spots
from tests.eye_rhythm import rooms
from tests.eye_wishes import INCH, twice_centres

MM2 = 320**2
"""Square ticks in a square millimetre."""
SMALL = 8 * INCH
"""Things smaller than that belong near the eye [tick]."""


def void(problem: LayoutProblem, layout: Layout) -> int:
    """Largest front of an opening that nothing of the front row covers [mm2]."""
    return (
        max(
            (problem.bays[b].width + problem.bays[b].wider) * height
            - sum(front(form, count) for form, count in layout.places.get((b, k), ()))
            for (b, k), height in clear(problem, layout).items()
        )
        // MM2
    )


def front(form: Form, count: int) -> int:
    """Front of the front row of a place [square ticks]."""
    return form.size[0] * form.size[1] * min(count, form.stack)


def lone(problem: LayoutProblem, layout: Layout) -> int:
    """Openings more than half empty with one place filled; a wish that no plan states [-]."""
    return sum(
        len(places) == 1
        and 2 * front(*places[0]) < problem.bays[b].width * clear(problem, layout)[b, k]
        for (b, k), places in layout.places.items()
    )


def roomy(problem: LayoutProblem, layout: Layout) -> int:
    """Largest width of the things of an opening [tick]."""
    return max(sum(f.width for f, _ in layout.places.get(spot, ())) for spot in spots(problem))


def beside(_: LayoutProblem, layout: Layout) -> int:
    """Fronts missing over low things beside tall ones [mm2]."""
    total = 0
    for places in layout.places.values():
        tallest = max((form.height for form, _ in places), default=0)
        total += sum(form.width * (tallest - form.height) for form, _ in places)
    return total // MM2


def air(problem: LayoutProblem, layout: Layout) -> int:
    """Most less least room over the tallest things [tick]."""
    over = rooms(problem, layout).values()
    return max(over) - min(over) if over else 0


def sight(problem: LayoutProblem, layout: Layout) -> int:
    """How far small things are from the eye, the smaller the more [mm2]."""
    total = 0
    for form, centre in _things(problem, layout):
        small = max(0, SMALL - max(form.size[0], form.size[1]))
        total += small * abs(centre - 2 * problem.wishes.eye_level)
    return total // (2 * MM2)


def heavy(problem: LayoutProblem, layout: Layout) -> int:
    """Mass with its middle above the eye [g]."""
    level = 2 * problem.wishes.eye_level
    return sum(
        problem.kinds[form.kind].mass for form, centre in _things(problem, layout) if centre > level
    )


def _things(problem: LayoutProblem, layout: Layout) -> list[tuple[Form, int]]:
    """Form of each thing, and twice the height of its middle above the room's floor [tick]."""
    floor = floor_of(problem, layout)
    return [
        (form, 2 * floor[spot] + twice)
        for spot, places in layout.places.items()
        for form, count in places
        for twice in twice_centres(form, count)
    ]
