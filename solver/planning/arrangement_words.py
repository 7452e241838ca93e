"""What stands where, in a sentence a wish: together, mirrored, alone, in sight, how much air."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from solver.plan.built import Opening, Placement
from solver.planning.asked_for import missed
from solver.planning.look_figures import (
    Spot,
    Standing,
    alone,
    headings_standing,
    is_place,
    kinds_standing,
    odd_kinds,
    openings_at,
    outline_missed,
    room_over,
)
from solver.planning.seen import Seen
from solver.planning.shelf_words import joined
from solver.planning.spacing_words import from_to, rounded
from solver.units import Ticks, format_mass, inches

NAMED = 3
"""Most things, kinds or shelves that one sentence names [-]."""
SMALL: Ticks = inches(8)
"""Things that are smaller each way are looked at closely [tick]."""


FAR = 25
"""Share of the outline from which on rows are no longer called mirror images [%]."""


def fit(seen: Seen) -> str:
    """Say that everything fits, or what finds no place."""
    stand: dict[str, int] = {}
    for thing in _things(seen):
        stand[thing.item] = stand.get(thing.item, 0) + 1
    out = [
        f"{item.count - stand.get(item.name, 0)} x {item.name}"
        for item in seen.job.items
        if item.count > stand.get(item.name, 0)
    ]
    return f"no place for {_few(out, 'more kinds')}" if out else "everything fits"


def asked(seen: Seen) -> str:
    """Say what was asked for by name and is not so."""
    found = [f"{one.count} x {one.item} not {one.asked}" for one in missed(seen.job, seen.cases)]
    return _few(found, "more") if found else "everything where it was asked for"


def empty(seen: Seen) -> str:
    """Say which shelves are empty; those that are kept so are not missed."""
    spots = [spot for spot, _, opening in openings_at(seen.cases) if not opening.items]
    if not spots:
        return "no shelf empty"
    kept = " kept" if seen.values.get("empty") == 0 else ""
    return f"{seen.names.shelves(spots)}{kept} empty"


def mirrored(seen: Seen) -> str:
    """Say which shelves cannot be a mirror image, since several kinds are odd there."""
    filled = [(spot, opening) for spot, _, opening in openings_at(seen.cases) if opening.items]
    odd = [seen.names.nth(spot) for spot, opening in filled if odd_kinds(opening)]
    if odd and len(odd) == len(filled):
        return "no shelf a mirror image"
    return _every("shelf a mirror image", odd, len(filled))


def headings(seen: Seen) -> str:
    """Say which headings and groups stand on several shelves, and on which."""
    written = any(item.group is not None for item in seen.job.items)
    what = "group" if written else "heading"
    return _whole(what, headings_standing(seen.job, seen.cases), seen)


def together(seen: Seen) -> str:
    """Say which kinds stand on several shelves, and on which."""
    return _whole("kind", kinds_standing(seen.cases), seen)


def _whole(what: str, standing: Sequence[Standing], seen: Seen) -> str:
    parted = [_parted(one, seen) for one in standing if one.parted]
    return _every(f"{what} on one shelf", parted, len(standing)) if standing else ""


def _parted(one: Standing, seen: Seen) -> str:
    return f"{one.name} ({seen.names.shelves(one.spots)})"


def _every(text: str, but: Sequence[str], count: int) -> str:
    """Return "every shelf ..." with its few exceptions, or how many are so where those are many."""
    if not but:
        return f"every {text}"
    if len(but) <= NAMED and len(but) < count:
        return f"every {text} but {joined(but)}"
    noun, _, rest = text.partition(" ")
    kept, named = count - len(but), _few(but, "more")
    many = f"{kept} of {count} {_plural(noun)} {rest}, not" if kept else f"no {text}:"
    return f"{many} {named}"


def _plural(noun: str) -> str:
    return "shelves" if noun == "shelf" else f"{noun}s"


def parted_lines(seen: Seen) -> tuple[str, ...]:
    """Return every heading and kind that stands on several shelves, with the shelves.

    Groups that the client wrote are among the headings.
    """
    standing = (*headings_standing(seen.job, seen.cases), *kinds_standing(seen.cases))
    return tuple(dict.fromkeys(_parted(one, seen) for one in standing if one.parted))


def standing_alone(seen: Seen) -> str:
    """Say which single things stand apart from others of their kind."""
    counts = {item.name: item.count for item in seen.job.items}
    found = [f"one {name} on {seen.names.shelf(spot)}" for name, spot in alone(counts, seen.cases)]
    but = f" but {_few(found, 'more')}" if found else ""
    return f"no thing stands apart from its kind{but}"


def void(seen: Seen) -> str:
    """Say which shelf has the largest empty front."""
    fronts = [(_void(opening, width), spot) for spot, opening, width in _openings(seen)]
    left, spot = max(fronts, key=lambda one: one[0][0])
    share = "all of it" if left[1] == 1 else f"{float(100 * left[1]):.0f} % of it"
    return f"largest empty front on {seen.names.shelf(spot)}, {share}"


def _void(opening: Opening, width: Ticks) -> tuple[int, Fraction]:
    """Area of the front that no thing of the front row covers, and its share [tick2, -]."""
    whole = width * opening.height
    left = whole - sum(one.width * one.height for one in opening.items if one.row == 1)
    return left, Fraction(left, whole)


def roomy(seen: Seen) -> str:
    """Say how much stands on the fullest shelf, of its clear width."""
    rows = [(_row(opening), width) for _, opening, width in _openings(seen)]
    most, width = max(rows, key=lambda one: one[0])
    return f"at most {rounded(most, seen.unit)} of things on a shelf of {rounded(width, seen.unit)}"


def _row(opening: Opening) -> Ticks:
    return sum(thing.width for thing in opening.items if is_place(thing))


def beside(seen: Seen) -> str:
    """Say how much lower things are than the tallest of their shelf."""
    total = width = 0
    for _, opening, _ in _openings(seen):
        tops = _tops(opening)
        highest = max((top for _, top in tops), default=0)
        total += sum(wide * (highest - top) for wide, top in tops)
        width += sum(wide for wide, _ in tops)
    if not total:
        return "things of one height beside each other"
    mean = rounded(Fraction(total, width), seen.unit)
    return f"things {mean} lower than the tallest beside them, on average"


def _tops(opening: Opening) -> list[tuple[Ticks, Ticks]]:
    """Width and highest top of each place, its stack and rows behind it included [tick, tick]."""
    places = [thing for thing in opening.items if is_place(thing)]
    return [
        (place.width, max(one.y + one.height for one in opening.items if _on(one, place)))
        for place in places
    ]


def _on(thing: Placement, place: Placement) -> bool:
    """Whether a thing belongs to a place: of its kind, over the same stretch of the shelf."""
    return thing.item == place.item and place.x <= thing.x < place.x + place.width


def air(seen: Seen) -> str:
    """Say how much air is over the tallest things."""
    rooms = [room_over(opening) for _, opening, _ in _openings(seen)]
    known = [room for room in rooms if room is not None]
    return f"{from_to(min(known), max(known), seen.unit)} of air" if known else ""


def sight(seen: Seen) -> str:
    """Say how far small things stand from the eye line."""
    eye = seen.job.look.eye_level
    off = [
        abs(twice - 2 * eye)
        for thing, twice in _middles(seen)
        if max(thing.width, thing.height) < SMALL
    ]
    if not off:
        return ""
    mean = Fraction(sum(off), 2 * len(off))
    return f"small things {rounded(mean, seen.unit)} from the eye line on average"


def heavy(seen: Seen) -> str:
    """Say how much weight is above the eye line."""
    eye = seen.job.look.eye_level
    grams = sum(thing.mass for thing, twice in _middles(seen) if twice > 2 * eye)
    return f"{format_mass(grams, seen.unit) if grams else 'nothing'} above the eye line"


def composition(seen: Seen) -> str:
    """Say how far the rows are from mirror images."""
    share = outline_missed(seen.cases)
    if not share:
        return "every row a mirror image"
    far = share > FAR
    return f"{share:g} % without mirror image" if far else f"mirror image but for {share:g} %"


def _things(seen: Seen) -> Iterator[Placement]:
    return (thing for _, _, opening in openings_at(seen.cases) for thing in opening.items)


def _openings(seen: Seen) -> list[tuple[Spot, Opening, Ticks]]:
    """All openings, where they are, and how wide [tick]."""
    return [(spot, opening, bay.inside.width) for spot, bay, opening in openings_at(seen.cases)]


def _middles(seen: Seen) -> Iterator[tuple[Placement, Ticks]]:
    """All things with twice the height of their middle above the room's floor [tick]."""
    above = {case.name: case.above_floor for case in seen.cases}
    for (case, _, _), _, opening in openings_at(seen.cases):
        for thing in opening.items:
            yield thing, 2 * (above[case] + opening.floor + thing.y) + thing.height


def _few(words: Sequence[str], more: str) -> str:
    """Name a few, and say how many more there are."""
    if len(words) <= NAMED:
        return joined(words)
    return joined([*words[: NAMED - 1], f"{len(words) - NAMED + 1} {more}"])


SAID: Mapping[str, Callable[[Seen], str]] = {
    "fit": fit,
    "asked": asked,
    "empty": empty,
    "mirrored": mirrored,
    "headings": headings,
    "together": together,
    "alone": standing_alone,
    "void": void,
    "roomy": roomy,
    "beside": beside,
    "air": air,
    "sight": sight,
    "heavy": heavy,
    "composition": composition,
}
"""What is said of each stage that tells how things stand."""
