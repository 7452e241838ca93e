"""Rules on each thing by itself: how many there are, how they stand, what they weigh."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from solver.checking.findings import Code, Finding, finding
from solver.checking.shelf_load import SQUARE_FOOT
from solver.checking.views import OpeningView, OptionView, at_least, at_most, same
from solver.job.defaults import SHELF_LOAD_POUNDS_PER_SQUARE_FOOT
from solver.job.inventory import Item
from solver.job.job import Job
from solver.plan.built import Placement
from solver.units import GRAMS_PER_POUND, Grams, Ticks, to_mm

NEAR = 1e-6
"""Shares are compared to this."""


def unknown(view: OptionView) -> Iterator[Finding]:
    """Everything placed or left out is a kind of the job."""
    known = {item.name for item in view.job.items}
    names = {thing.item for o in view.openings for thing in o.opening.items}
    for name in sorted((names | {left.item for left in view.option.left_out}) - known):
        yield finding(Code.ITEMS_UNKNOWN, view.where, "the thing", "in the job", repr(name))


def count(view: OptionView) -> Iterator[Finding]:
    """Of each kind, the things placed and the things left out add up to the count of the job."""
    if not view.whole:
        return
    has = Counter(thing.item for o in view.openings for thing in o.opening.items)
    for left in view.option.left_out:
        has[left.item] += left.count
    for item in view.job.items:
        yield from same(
            Code.ITEMS_COUNT,
            f"{view.where}, {item.name}",
            "number placed and left out",
            item.count,
            has[item.name],
        )


def left_out(view: OptionView) -> Iterator[Finding]:
    """A kind is listed among what is left out once, with at least one thing."""
    names = [left.item for left in view.option.left_out]
    for left in view.option.left_out:
        if left.count < 1 or names.count(left.item) > 1:
            yield finding(
                Code.ITEMS_LEFT_OUT,
                f"{view.where}, {left.item}",
                "entry among the things left out",
                "one, of at least 1",
                f"{names.count(left.item)}, this one of {left.count}",
            )


def number(view: OptionView) -> Iterator[Finding]:
    """Things of a kind are numbered from 1, no number twice."""
    numbers: dict[str, list[int]] = {item.name: [] for item in view.job.items}
    for opening in view.openings:
        for thing, item in opening.things:
            numbers[item.name].append(thing.number)
    for item in view.job.items:
        has = sorted(numbers[item.name])
        if len(set(has)) < len(has) or any(not 1 <= n <= item.count for n in has):
            yield finding(
                Code.ITEMS_NUMBER,
                f"{view.where}, {item.name}",
                "numbers",
                f"different, from 1 to {item.count}",
                str(has),
            )


def guess_of(job: Job, item: Item) -> Ticks:
    """What is added to each guessed size [tick]."""
    return job.look.guess_allowance if item.guessed else 0


def size(view: OpeningView) -> Iterator[Finding]:
    """A thing stands with its own sizes, or lies with height and one other size changed round."""
    for thing, item in view.things:
        extra = guess_of(view.job, item)
        w, h, d = item.width + extra, item.height + extra, item.depth + extra
        allowed = [(h, w, d), (w, d, h)] if thing.lying else [(w, h, d)]
        has = thing.width, thing.height, thing.depth
        if has not in allowed:
            yield finding(
                Code.ITEMS_SIZE,
                view.place(thing),
                "width x height x depth",
                " or ".join(map(_sizes, allowed)),
                _sizes(has),
            )


def _sizes(sizes: tuple[Ticks, Ticks, Ticks]) -> str:
    return " x ".join(str(to_mm(size)) for size in sizes) + " mm"


def lying(view: OpeningView) -> Iterator[Finding]:
    """Only what may lie lies."""
    for thing, item in view.things:
        if thing.lying and not item.may_lie:
            yield finding(Code.ITEMS_LYING, view.place(thing), "position", "standing", "lying")


def end_margin(view: OpeningView) -> Iterator[Finding]:
    """Nothing stands nearer to a side than the end margin."""
    margin, width = view.job.look.end_margin, view.bay.bay.inside.width
    for thing, _ in view.things:
        place = view.place(thing)
        right = width - thing.x - thing.width
        code = Code.ITEMS_END_MARGIN
        yield from at_least(code, place, "room at its left end", margin, thing.x, view.unit)
        yield from at_least(code, place, "room at its right end", margin, right, view.unit)


def front_margin(view: OpeningView) -> Iterator[Finding]:
    """Nothing stands nearer to the front than the front margin."""
    for thing, _ in view.things:
        yield from at_least(
            Code.ITEMS_FRONT_MARGIN,
            view.place(thing),
            "room in front",
            view.job.look.front_margin,
            thing.z,
            view.unit,
        )


def lip(view: OpeningView) -> Iterator[Finding]:
    """Nothing stands where the lip of its own shelf stands up."""
    thick = view.bay.case.lip[0]
    for thing, _ in view.things:
        if thing.y < view.opening.lip_above_floor:
            yield from at_least(
                Code.ITEMS_LIP, view.place(thing), "room for the lip", thick, thing.z, view.unit
            )


def back(view: OpeningView) -> Iterator[Finding]:
    """Nothing reaches further back than the shelf."""
    for thing, _ in view.things:
        yield from at_most(
            Code.ITEMS_BACK,
            view.place(thing),
            "its rear face",
            view.bay.bay.inside.depth,
            thing.z + thing.depth,
            view.unit,
        )


def mass(view: OpeningView) -> Iterator[Finding]:
    """A thing weighs what was given, else the standard shelf load on its footprint."""
    for thing, item in view.things:
        needs = _mass(view.job, item)
        if needs != (thing.mass, thing.mass_assumed):
            yield finding(
                Code.ITEMS_MASS,
                view.place(thing),
                "mass",
                _mass_text(*needs),
                _mass_text(thing.mass, thing.mass_assumed),
            )


def _mass(job: Job, item: Item) -> tuple[Grams, bool]:
    if item.weight is not None:
        return item.weight, False
    extra = guess_of(job, item)
    area = Fraction((item.width + extra) * (item.depth + extra), SQUARE_FOOT)
    return max(1, int(SHELF_LOAD_POUNDS_PER_SQUARE_FOOT * area * GRAMS_PER_POUND)), True


def _mass_text(grams: Grams, assumed: bool) -> str:
    return f"{grams} g, {'assumed' if assumed else 'given'}"


def fill(view: OpeningView) -> Iterator[Finding]:
    """Fill is the share of the clear width that the front row takes at floor level."""
    taken, width = sum(thing.width for thing in front(view)), view.bay.bay.inside.width
    needs = taken / width if width > 0 else 0.0
    if not abs(needs - view.opening.fill) <= NEAR:  # true of NaN as well
        yield finding(
            Code.ITEMS_FILL, view.where, "fill", f"{needs:.6f}", f"{view.opening.fill:.6f}"
        )


def front(view: OpeningView) -> list[Placement]:
    """The things of the front row that stand on the floor of the opening."""
    return [thing for thing in view.opening.items if thing.row == 1 and thing.on is None]
