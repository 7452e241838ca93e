"""Rules on heights: openings, shelves, marks, lips, and the shelf lines that bays share."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import (
    BayView,
    CaseView,
    OpeningView,
    OptionView,
    at_least,
    at_most,
    same,
    same_length,
)
from solver.plan.built import BayName, SharedLines, Shelf
from solver.units import Ticks, to_mm, with_unit


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


Bays = tuple[BayName, ...]


def line_groups(view: OptionView) -> Iterator[Finding]:
    """The bays that share shelf lines are those that the job asks for, all of them or none."""
    if view.whole:
        needs = [] if view.option.lines_given_up else _together(view)
        has = sorted((group.bays for group in view.option.lines), key=repr)
        what = "bays that share shelf lines"
        yield from same(Code.LAYOUT_LINE_GROUPS, view.where, what, needs, has)


def lines_apart(view: OptionView) -> Iterator[Finding]:
    """Bays that were to share lines and do not are named: by their marks, or all to fit more."""
    if not view.whole:
        return
    marks = sorted((some for row in _rows(view) for some in row[1:]), key=repr)
    has = _apart(view, "marks")
    what = "bays whose marks never meet those of the bays beside them"
    yield from same(Code.LAYOUT_LINES_APART, view.where, what, marks, has)
    given_up = _apart(view, "fit")
    if given_up:
        what = "bays that share no lines so that everything fits"
        yield from same(Code.LAYOUT_LINES_APART, view.where, what, _together(view), given_up)


def line_heights(view: OptionView) -> Iterator[Finding]:
    """A group has as many lines as the bay with most shelves, one above the other."""
    for group, bays in _groups(view):
        most = max((len(bay.bay.shelves) for bay in bays), default=0)
        if len(group.heights) != most or list(group.heights) != sorted(set(group.heights)):
            yield finding(
                Code.LAYOUT_LINE_HEIGHTS,
                _where(view, group),
                "heights of the lines",
                f"{most}, rising",
                ", ".join(with_unit(height, view.unit) for height in group.heights) or "none",
            )


def shelf_lines(view: OptionView) -> Iterator[Finding]:
    """The shelves of each bay lie on the lines of its group; a bay may use some of them."""
    for group, bays in _groups(view):
        for bay in bays:
            odd = sorted(_tops(bay) - set(group.heights))
            if odd:
                yield finding(
                    Code.LAYOUT_SHELF_LINES,
                    bay.where,
                    "upper faces of shelves above the floor",
                    " or ".join(with_unit(line, view.unit) for line in group.heights) or "none",
                    " and ".join(with_unit(line, view.unit) for line in odd),
                )


RULES = (line_groups, lines_apart, line_heights, shelf_lines)


def _groups(view: OptionView) -> Iterator[tuple[SharedLines, list[BayView]]]:
    """The groups of the option with their bays; none where a case is not soundly built up."""
    named = {(bay.case.case.name, bay.bay.number): bay for bay in view.bays}
    for group in view.option.lines if view.whole else ():
        yield group, [named[name] for name in group.bays if name in named]


def _where(view: OptionView, group: SharedLines) -> str:
    return f"{view.where}, lines of {', '.join(' '.join(map(str, name)) for name in group.bays)}"


def _tops(view: BayView) -> set[Ticks]:
    return {view.case.plan.above_floor + shelf.top for shelf in view.bay.shelves}


def _apart(view: OptionView, because: str) -> list[Bays]:
    apart = (one.bays for one in view.option.lines_apart if one.because == because)
    return sorted(apart, key=repr)


def _together(view: OptionView) -> list[Bays]:
    """The groups of bays that the job asks to share lines, and that can by their marks."""
    return sorted((some for row in _rows(view) for some in row if len(some) > 1), key=repr)


def _rows(view: OptionView) -> list[list[Bays]]:
    """For each row of neighbouring cases its bays, divided into those whose marks meet."""
    if not view.job.look.share_lines:
        return []
    rows: list[list[CaseView]] = []
    order = [case.name for case in view.job.cases]
    for case in sorted(view.cases, key=lambda one: order.index(one.case.name)):
        joined = [row for row in rows if any(_beside(case, other) for other in row)]
        rows = [row for row in rows if row not in joined]
        rows.append([*(other for row in joined for other in row), case])
    return [_divided(sorted(row, key=lambda one: order.index(one.case.name))) for row in rows]


def _beside(one: CaseView, other: CaseView) -> bool:
    return one.case.beside == other.case.name or other.case.beside == one.case.name


def _divided(row: list[CaseView]) -> list[Bays]:
    """Bays whose shelves can lie at equal heights: in equal steps from heights a step apart."""
    groups: dict[tuple[Ticks, Ticks], Bays] = {}
    for one in row:
        pins = one.case.fixing == "pins"
        step = one.case.pin_pitch if pins else one.job.head.marking_step
        lowest = one.case.above_floor + one.thickness + (one.case.first_hole if pins else 0)
        bays = tuple((one.case.name, bay.bay.number) for bay in one.bays)
        groups[step, lowest % step] = (*groups.get((step, lowest % step), ()), *bays)
    return list(groups.values())
