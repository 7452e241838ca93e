"""The scores of the look, one function a stage, recomputed from the openings of an option.

Each is a sum over all bays; what speaks of clear heights counts bays that share shelf lines once.
Lengths are in ticks, areas in square ticks, until :data:`MEASURES` brings them to the unit that
plans state: millimetres exactly, whole square millimetres rounded down.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import combinations

from solver.checking.holding import speaks_of
from solver.checking.look_outline import outline_missed
from solver.checking.places import (
    Spot,
    above_room_floor,
    front_row,
    placed,
    places,
    rooms,
    spots_of_kinds,
    twice_middle,
)
from solver.checking.shelf_lines import Fall, falls, groups
from solver.checking.views import BayView, OpeningView, OptionView
from solver.job.inventory import Item
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Grams, Ticks

HERO_LEAST, HERO_MOST = 57 * TICKS_PER_INCH, 64 * TICKS_PER_INCH
"""Where the middle of a hero is to be, above the room's floor [tick]."""
FRAGILE_LEAST = 18 * TICKS_PER_INCH
"""Least height of the floor under fragile things [tick]."""
FRAGILE_LEAST_WITH_CHILDREN = 48 * TICKS_PER_INCH
"""The same where children come near [tick]."""
SMALL = 8 * TICKS_PER_INCH
"""Things that are smaller both ways are wished near the eye line [tick]."""


def asked(view: OptionView) -> int:
    """Things that miss what was asked for by name: their opening, one shelf, eye or height [-]."""
    parted = sum(
        counts.total() - max(counts.values(), default=0)
        for name, counts in spots_of_kinds(view).items()
        if view.job.item(name).together
    )
    least = _fragile_least(view)
    return parted + sum(
        (item.where is not None and opening.opening.index != _wished(opening.bay, item))
        + (item.hero and not 2 * HERO_LEAST <= twice_middle(opening, thing) <= 2 * HERO_MOST)
        + (item.fragile and above_room_floor(opening) < least)
        for opening, thing, item in placed(view)
    )


def _fragile_least(view: OptionView) -> Ticks:
    site = view.job.site
    children = site is not None and site.children is True
    return FRAGILE_LEAST_WITH_CHILDREN if children else FRAGILE_LEAST


def _wished(bay: BayView, item: Item) -> int:
    """The opening that a kind is wished in; at eye level is the last one not above it."""
    if isinstance(item.where, int):
        return item.where
    eye = bay.case.job.look.eye_level
    below = [o.opening.index for o in bay.openings if above_room_floor(o) <= eye]
    top = bay.openings[-1].opening.index
    return {"low": 0, "eye": max(below, default=0), "top": top}[str(item.where)]


def empty(view: OptionView) -> int:
    """Openings with nothing in them that are not kept empty [-]."""
    return sum(not o.opening.items and not kept_empty(o) for o in view.openings)


def kept_empty(view: OpeningView) -> bool:
    """Whether a hold keeps an opening empty."""
    return any(
        hold.empty and hold.opening == view.opening.index and speaks_of(hold, view.bay)
        for hold in view.job.holds
    )


def mirrored(view: OptionView) -> int:
    """Kinds with an odd number of places in an opening, beyond the one for its middle [-]."""
    total = 0
    for opening in view.openings:
        counts = Counter(place.item for place in places(opening))
        total += max(0, sum(count % 2 for count in counts.values()) - 1)
    return total


def headings(view: OptionView) -> int:
    """Openings used beyond one, and those skipped between, of each heading and group [-]."""
    at = spots_of_kinds(view)
    clubs: dict[tuple[str, str], set[Spot]] = defaultdict(set)
    for item in view.job.items:
        for what, club in (("heading", item.heading), ("group", item.group)):
            if club is not None:
                clubs[what, club] |= at[item.name].keys()
    return sum(_parted(spots) + _skipped(spots) for spots in clubs.values())


def _parted(spots: set[Spot]) -> int:
    return max(0, len(spots) - 1)


def _skipped(spots: set[Spot]) -> int:
    in_bays: dict[tuple[str, int], list[int]] = defaultdict(list)
    for case, bay, index in spots:
        in_bays[case, bay].append(index)
    return sum(max(used) - min(used) + 1 - len(used) for used in in_bays.values())


def together(view: OptionView) -> int:
    """Openings beyond one that a kind stands in, in whatever form, summed over kinds [-]."""
    return sum(_parted(set(counts)) for counts in spots_of_kinds(view).values())


def alone(view: OptionView) -> int:
    """Openings with exactly one of a kind of three or more whose others stand elsewhere [-]."""
    return sum(
        list(counts.values()).count(1)
        for name, counts in spots_of_kinds(view).items()
        if view.job.item(name).count >= 3 and counts.total() > 1
    )


def rises(view: OptionView) -> Ticks:
    """Height by which an opening is taller than the one before it, beyond one step of marks."""
    return sum(max(0, -step - fall.marking_step) for fall in falls(view) for step in fall.steps)


def steady(view: OptionView) -> Ticks:
    """Range of the steps; distances of the steps from the one asked for, where one is."""
    wanted = view.job.look.step
    if wanted is not None:
        return sum(abs(step - wanted) for fall in falls(view) for step in fall.steps)
    return steps_range(view) or 0


def steps_range(view: OptionView) -> Ticks | None:
    """Largest less smallest step, summed; None where there are three openings nowhere [tick]."""
    long = [fall.steps for fall in falls(view) if len(fall.steps) > 1]
    return sum(max(steps) - min(steps) for steps in long) if long else None


def steps_mean(view: OptionView) -> Ticks | None:
    """Mean step upwards of what :func:`steps_range` is about, to the nearest tick [tick]."""
    long = [fall for fall in falls(view) if len(fall.steps) > 1]
    if not long:
        return None
    total = sum(fall.heights[0] - fall.heights[-1] for fall in long)
    count = sum(len(fall.steps) for fall in long)
    return (2 * total + count) // (2 * count)


def even(view: OptionView) -> Ticks:
    """Differences of all pairs of heights; under a symmetric rhythm, of the lower half's."""
    half = view.job.look.rhythm == "symmetric"
    return sum(_gini(_lower_half(fall) if half else fall.heights) for fall in falls(view))


def _lower_half(fall: Fall) -> Sequence[Ticks]:
    return fall.heights[: (len(fall.heights) + 1) // 2]


def _gini(values: Sequence[Ticks]) -> Ticks:
    return sum(abs(one - other) for one, other in combinations(values, 2))


def symmetric(view: OptionView) -> Ticks:
    """Differences of the openings that mirror each other, beyond one step of marks each."""
    total = 0
    for fall in falls(view):
        pairs = list(zip(fall.heights, reversed(fall.heights), strict=True))
        half = pairs[: len(pairs) // 2]
        total += sum(max(0, abs(low - high) - fall.marking_step) for low, high in half)
    return total


def to_fit(view: OptionView) -> Ticks:
    """Differences of all pairs of rooms over the tallest things of bays that share lines."""
    return sum(_gini(rooms(o for bay in bays for o in bay.openings)) for _, bays in groups(view))


def void(view: OptionView) -> int:
    """Largest front of an opening that is not covered by its front row [square ticks]."""
    return max((_bare(opening) for opening in view.openings), default=0)


def _bare(view: OpeningView) -> int:
    covered = sum(thing.width * thing.height for thing in front_row(view))
    return view.bay.bay.inside.width * view.opening.height - covered


def roomy(view: OptionView) -> Ticks:
    """Largest width of the places of an opening [tick]."""
    return max((sum(place.width for place in places(o)) for o in view.openings), default=0)


def beside(view: OptionView) -> int:
    """Low places beside taller ones: width times what the tallest is higher [square ticks]."""
    total = 0
    for opening in view.openings:
        row = places(opening)
        highest = max((thing.y + thing.height for thing in opening.opening.items), default=0)
        total += sum(place.width * (highest - place.top) for place in row)
    return total


def air(view: OptionView) -> Ticks:
    """Largest less smallest room over the tallest thing of an opening [tick]."""
    found = rooms(view.openings)
    return max(found) - min(found) if found else 0


def sight(view: OptionView) -> Fraction:
    """Small things away from the eye line: how small, times how far [square ticks]."""
    eye = view.job.look.eye_level
    twice = sum(
        max(0, SMALL - max(thing.width, thing.height)) * abs(twice_middle(opening, thing) - 2 * eye)
        for opening, thing, _ in placed(view)
    )
    return Fraction(twice, 2)


def heavy(view: OptionView) -> Grams:
    """Mass of the things whose middle is above the eye line [g]."""
    eye = view.job.look.eye_level
    return sum(t.mass for o, t, _ in placed(view) if twice_middle(o, t) > 2 * eye)


def places_parted(view: OptionView) -> int:
    """How often headings, groups and kinds are parted [-]."""
    return headings(view) + together(view)


Measure = Callable[[OptionView], Fraction]


def _mm(score: Callable[[OptionView], Ticks]) -> Measure:
    return lambda view: Fraction(score(view), TICKS_PER_MM)


def _mm2(score: Callable[[OptionView], int | Fraction]) -> Measure:
    return lambda view: Fraction(score(view) // TICKS_PER_MM**2)


def _plain(score: Callable[[OptionView], int]) -> Measure:
    return lambda view: Fraction(score(view))


MEASURES: dict[str, Measure] = {
    "asked": _plain(asked),
    "empty": _plain(empty),
    "mirrored": _plain(mirrored),
    "headings": _plain(headings),
    "together": _plain(together),
    "alone": _plain(alone),
    "rises": _mm(rises),
    "symmetric": _mm(symmetric),
    "to-fit": _mm(to_fit),
    "graduated": _mm(steady),
    "steady": _mm(steady),
    "even": _mm(even),
    "void": _mm2(void),
    "roomy": _mm(roomy),
    "beside": _mm2(beside),
    "air": _mm(air),
    "sight": _mm2(sight),
    "heavy": _plain(heavy),
    "composition": outline_missed,
}
"""What each stage of the look counts, in the unit that plans state."""
