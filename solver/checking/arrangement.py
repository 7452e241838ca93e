"""Rules on things among each other: gaps, stacks, rows, headroom, groups."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.items import front
from solver.checking.views import OpeningView, OptionView, at_least, at_most, same_length
from solver.job.inventory import Item
from solver.plan.built import Placement
from solver.units import Ticks


def _gap(view: OpeningView, one: Item, other: Item) -> Ticks:
    """Least gap between two neighbours: the kind's own between two of it, else that of the look."""
    own = one.gap if one.name == other.name else None
    return view.job.look.gap if own is None else own


def gap(view: OpeningView) -> Iterator[Finding]:
    """Neighbours in a row keep the least gap between them."""
    standing = [(t, item) for t, item in view.things if t.on is None]
    for row in sorted({t.row for t, _ in standing}):
        line = sorted((p for p in standing if p[0].row == row), key=lambda p: (p[0].x, p[0].number))
        for (left, item), (right, other) in pairwise(line):
            yield from at_least(
                Code.ITEMS_GAP,
                view.place(left),
                f"gap to {right.item} {right.number}",
                _gap(view, item, other),
                right.x - left.x - left.width,
                view.unit,
            )


def overlap(view: OpeningView) -> Iterator[Finding]:
    """No two things take the same room."""
    for one, other in combinations(view.opening.items, 2):
        if _overlap(one, other):
            yield finding(
                Code.ITEMS_OVERLAP,
                view.place(one),
                f"room shared with {other.item} {other.number}",
                "none",
                "some",
            )


def _overlap(one: Placement, other: Placement) -> bool:
    return (
        one.x < other.x + other.width
        and other.x < one.x + one.width
        and one.y < other.y + other.height
        and other.y < one.y + one.height
        and one.z < other.z + other.depth
        and other.z < one.z + one.depth
    )


def _under(view: OpeningView, thing: Placement) -> Placement | None:
    """The thing that the plan puts `thing` on, if it is in this opening."""
    for other in view.opening.items:
        if other.item == thing.item and other.number == thing.on:
            return other
    return None


def on(view: OpeningView) -> Iterator[Finding]:
    """What stands on another thing stands squarely on one of its own kind in the same opening."""
    for thing, _ in view.things:
        if thing.on is None:
            continue
        under = _under(view, thing)
        has = (thing.x, thing.y, thing.z, thing.width, thing.depth, thing.row)
        if under is None:
            needs, there = f"{thing.item} {thing.on} in the same opening", "not there"
        else:
            top = under.y + under.height
            needs = str((under.x, top, under.z, under.width, under.depth, under.row))
            there = str(has)
        if needs != there:
            yield finding(
                Code.ITEMS_ON,
                view.place(thing),
                f"place on {thing.item} {thing.on} (x, y, z, width, depth [tick], row)",
                needs,
                there,
            )


def floating(view: OpeningView) -> Iterator[Finding]:
    """What stands on nothing else in the front row stands on the shelf."""
    for thing in front(view):
        yield from same_length(Code.ITEMS_FLOATING, view.place(thing), "y", 0, thing.y, view.unit)


def stack(view: OpeningView) -> Iterator[Finding]:
    """No more alike stand on each other than the kind allows."""
    for thing, item in view.things:
        level = _level(view, thing)
        if level > item.stack:
            yield finding(
                Code.ITEMS_STACK,
                view.place(thing),
                "number on each other",
                f"at most {item.stack}",
                str(level),
            )


def _level(view: OpeningView, thing: Placement) -> int:
    """How many things this one and those below it are; a ring of them ends the count."""
    level, seen = 1, {thing.number}
    under = _under(view, thing) if thing.on is not None else None
    while under is not None and under.number not in seen:
        level += 1
        seen.add(under.number)
        under = _under(view, under) if under.on is not None else None
    return level


def rows(view: OpeningView) -> Iterator[Finding]:
    """No kind stands more rows deep than it may."""
    for thing, item in view.things:
        if not 1 <= thing.row <= item.rows:
            yield finding(
                Code.ITEMS_ROWS,
                view.place(thing),
                "row",
                f"from 1 to {item.rows}",
                str(thing.row),
            )


def _in_front(view: OpeningView, thing: Placement, row: int) -> list[Placement]:
    """Things of the kind and row in the same place: those that the thing stands behind."""
    return [
        t
        for t in view.opening.items
        if t.item == thing.item
        and t.row == row
        and t.x < thing.x + thing.width
        and thing.x < t.x + t.width
    ]


def row_order(view: OpeningView) -> Iterator[Finding]:
    """A thing of a row behind stands behind one of the row before it."""
    for thing, _ in view.things:
        before = _in_front(view, thing, thing.row - 1)
        if thing.row > 1 and not before:
            yield finding(
                Code.ITEMS_ROW_ORDER,
                view.place(thing),
                f"things of row {thing.row - 1} in front",
                "some",
                "none",
            )
        if thing.row > 1 and before:
            yield from at_least(
                Code.ITEMS_ROW_ORDER,
                view.place(thing),
                f"its front, behind row {thing.row - 1}",
                max(t.z + t.depth for t in before),
                thing.z,
                view.unit,
            )


def riser(view: OpeningView) -> Iterator[Finding]:
    """Each row behind the first is raised by at least half the height of a thing in front."""
    for thing, _ in view.things:
        tall = max((t.height for t in _in_front(view, thing, 1)), default=0)
        if thing.row > 1 and thing.on is None:
            yield from at_least(
                Code.ITEMS_RISER,
                view.place(thing),
                "height of its riser",
                (thing.row - 1) * -(-tall // 2),
                thing.y,
                view.unit,
            )


def headroom(view: OpeningView) -> Iterator[Finding]:
    """Above each thing is the headroom asked for, clear of the lip above and over the lip below."""
    opening, look = view.opening, view.job.look
    lifted = opening.lip_above_floor + look.lift if opening.lip_above_floor else 0
    needs = max(look.headroom, lifted) + opening.lip_below_ceiling
    for thing in opening.items:
        yield from at_least(
            Code.ITEMS_HEADROOM,
            view.place(thing),
            "headroom",
            needs,
            opening.height - thing.y - thing.height,
            view.unit,
        )


def headroom_shown(view: OpeningView) -> Iterator[Finding]:
    """The headroom shown is what is left above the thing."""
    for thing in view.opening.items:
        yield from same_length(
            Code.ITEMS_HEADROOM_SHOWN,
            view.place(thing),
            "headroom shown",
            view.opening.height - thing.y - thing.height,
            thing.headroom,
            view.unit,
        )


def spare(view: OpeningView) -> Iterator[Finding]:
    """The front row, closed up, leaves the share of the width that is to stay free."""
    places = Counter(thing.item for thing in front(view))
    if not places:
        return
    width, look = view.bay.bay.inside.width, view.job.look
    kinds = view.bay.case.kinds
    run = sum(thing.width for thing in front(view)) + 2 * look.end_margin
    run += (len(places) - 1) * look.gap
    run += sum((n - 1) * _gap(view, kinds[k], kinds[k]) for k, n in places.items() if k in kinds)
    # The share is a floating figure: a tick of it is a matter of rounding.
    free = max(0, int(Fraction(str(look.spare)) * width) - 1)
    yield from at_most(
        Code.ITEMS_SPARE, view.where, "run of the front row", width - free, run, view.unit
    )


def group(view: OptionView) -> Iterator[Finding]:
    """Things of a group stand in one bay, in openings that follow one another."""
    groups = {item.name: item.group for item in view.job.items if item.group is not None}
    for name in sorted(set(groups.values())):
        at = {
            (o.bay.case.plan.name, o.bay.bay.number, o.opening.index)
            for o in view.openings
            for thing in o.opening.items
            if groups.get(thing.item) == name
        }
        indices = [index for _, _, index in at]
        if not at or (
            len({place[:2] for place in at}) == 1 and max(indices) - min(indices) < len(at)
        ):
            continue
        yield finding(
            Code.ITEMS_GROUP,
            f"{view.where}, group {name!r}",
            "(case, bay, opening) of its things",
            "openings of one bay that follow one another",
            str(sorted(at)),
        )
