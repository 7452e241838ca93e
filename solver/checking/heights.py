"""Rules on openings, shelves, marks and lips."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checking.compare import at_least, at_most, same_length
from solver.checking.findings import Code, Finding, finding
from solver.checking.views import BayView, OpeningView
from solver.plan.built import Shelf
from solver.units import Ticks, to_mm


def floor_lowest(view: BayView) -> Iterator[Finding]:
    """The floor of opening 0 is the upper face of the bottom board."""
    opening = view.openings[0]
    needs = view.case.case.raised_bottom + view.case.thickness
    yield from same_length(
        Code.LAYOUT_FLOOR_LOWEST, opening.where, "floor", needs, opening.opening.floor, view.unit
    )


def floor_on_shelf(view: OpeningView) -> Iterator[Finding]:
    """Opening k stands on shelf k: its floor is the shelf's upper face."""
    if view.below is not None:
        yield from same_length(
            Code.LAYOUT_FLOOR_ON_SHELF,
            view.where,
            "floor",
            view.below.top,
            view.opening.floor,
            view.unit,
        )


def opening_height(view: OpeningView) -> Iterator[Finding]:
    """An opening reaches from its floor to the underside of the shelf over it."""
    if view.above is not None:
        yield from same_length(
            Code.LAYOUT_OPENING_HEIGHT,
            view.where,
            "clear height",
            view.above.underside - view.opening.floor,
            view.opening.height,
            view.unit,
        )


def heights_sum(view: BayView) -> Iterator[Finding]:
    """Clear heights and the shelves between them add up to the inside height exactly."""
    total = sum(o.height for o in view.bay.openings) + sum(s.thickness for s in view.bay.shelves)
    yield from same_length(
        Code.LAYOUT_HEIGHTS_SUM,
        view.where,
        "openings and shelves together",
        view.bay.inside.height,
        total,
        view.unit,
    )


def clear_least(view: OpeningView) -> Iterator[Finding]:
    """No opening is lower than the least clear height asked for."""
    yield from at_least(
        Code.LAYOUT_CLEAR_LEAST,
        view.where,
        "clear height",
        view.job.look.clear_least,
        view.opening.height,
        view.unit,
    )


def clear_most(view: OpeningView) -> Iterator[Finding]:
    """No opening is higher than the most clear height asked for, where one was."""
    most = view.job.look.clear_most
    if most is not None:
        yield from at_most(
            Code.LAYOUT_CLEAR_MOST,
            view.where,
            "clear height",
            most,
            view.opening.height,
            view.unit,
        )


def _shelf_where(view: BayView, shelf: Shelf) -> str:
    return f"{view.where}, shelf {shelf.index}"


def _on_shelves(
    view: BayView, code: Code, what: str, lengths: Callable[[Shelf], tuple[Ticks, Ticks]]
) -> Iterator[Finding]:
    """Of each shelf a length that it must have, and the one that it has [tick]."""
    for shelf in view.bay.shelves:
        needed, has = lengths(shelf)
        yield from same_length(code, _shelf_where(view, shelf), what, needed, has, view.unit)


def shelf_thickness(view: BayView) -> Iterator[Finding]:
    """A shelf is as thick as its material measures."""
    yield from _on_shelves(
        view,
        Code.LAYOUT_SHELF_THICKNESS,
        "thickness",
        lambda shelf: (view.case.thickness, shelf.thickness),
    )


def shelf_top(view: BayView) -> Iterator[Finding]:
    """A shelf's upper face is its thickness above its underside."""
    yield from _on_shelves(
        view,
        Code.LAYOUT_SHELF_TOP,
        "upper face",
        lambda shelf: (shelf.underside + shelf.thickness, shelf.top),
    )


def shelf_depth(view: BayView) -> Iterator[Finding]:
    """A finished shelf has the full inside depth."""
    yield from _on_shelves(
        view,
        Code.LAYOUT_SHELF_DEPTH,
        "depth",
        lambda shelf: (view.bay.inside.depth, shelf.depth),
    )


def mark(view: BayView) -> Iterator[Finding]:
    """Marks fall on the marking step, or a whole number of pitches above the lowest pin hole."""
    case = view.case.case
    pins = case.fixing == "pins"
    start = case.first_hole if pins else 0
    step = case.pin_pitch if pins else view.case.job.head.marking_step
    for shelf in view.bay.shelves:
        if (shelf.underside - start) % step:
            yield finding(
                Code.LAYOUT_MARK,
                _shelf_where(view, shelf),
                "mark",
                f"a whole number of {to_mm(step)} mm from {to_mm(start)} mm",
                f"{to_mm(shelf.underside)} mm",
            )


def first_hole(view: BayView) -> Iterator[Finding]:
    """No shelf on pins is below the lowest holes."""
    case = view.case.case
    if case.fixing == "pins":
        for shelf in view.bay.shelves:
            yield from at_least(
                Code.LAYOUT_FIRST_HOLE,
                _shelf_where(view, shelf),
                "mark",
                case.first_hole,
                shelf.underside,
                view.unit,
            )


def lip_above(view: OpeningView) -> Iterator[Finding]:
    """A lip stands above its shelf as ordered; the lowest board has none."""
    needs = 0 if view.below is None else view.bay.case.lip[1]
    yield from same_length(
        Code.LAYOUT_LIP_ABOVE,
        view.where,
        "lip above the floor",
        needs,
        view.opening.lip_above_floor,
        view.unit,
    )


def lip_below(view: OpeningView) -> Iterator[Finding]:
    """What a lip does not cover or stand above hangs below its shelf; the top has none."""
    needs = 0 if view.above is None else view.bay.case.lip[2]
    yield from same_length(
        Code.LAYOUT_LIP_BELOW,
        view.where,
        "lip below the ceiling",
        needs,
        view.opening.lip_below_ceiling,
        view.unit,
    )
