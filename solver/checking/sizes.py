"""Rules on outside and inside sizes and on bays, restated from the job's case."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import CaseView, OptionView, at_least, at_most, same, same_length
from solver.job.case import SizeRange
from solver.units import Ticks, to_mm


def outside_width(view: CaseView) -> Iterator[Finding]:
    """Top and bottom stand between the sides: outside width is inside width and two sides."""
    boards = 2 * view.thickness if view.case.sizes == "inside" else 0
    has = view.plan.outside.width
    yield from _ordered(view, "width", Code.LAYOUT_OUTSIDE_WIDTH, boards, has)


def outside_height(view: CaseView) -> Iterator[Finding]:
    """Outside height is the clear height, top, bottom, and what the bottom is raised by."""
    inside = view.case.sizes == "inside"
    boards = 2 * view.thickness + view.case.raised_bottom if inside else 0
    has = view.plan.outside.height
    yield from _ordered(view, "height", Code.LAYOUT_OUTSIDE_HEIGHT, boards, has)


def _ordered(view: CaseView, what: str, code: Code, boards: Ticks, has: Ticks) -> Iterator[Finding]:
    """Hold an outside size against the one ordered, or the range; `boards` come on top."""
    wanted: int | SizeRange = getattr(view.case, what)
    name = f"outside {what}"
    if isinstance(wanted, SizeRange):
        yield from at_least(code, view.where, name, wanted.least + boards, has, view.unit)
        yield from at_most(code, view.where, name, wanted.most + boards, has, view.unit)
    else:
        yield from same_length(code, view.where, name, wanted + boards, has, view.unit)


def width_step(view: CaseView) -> Iterator[Finding]:
    """A width left open lies on the cutting step, or is an end of its range or the wish."""
    boards = 2 * view.thickness if view.case.sizes == "inside" else 0
    has = view.plan.outside.width - boards
    yield from _on_step(view, "width", Code.LAYOUT_WIDTH_STEP, has)


def height_step(view: CaseView) -> Iterator[Finding]:
    """A height left open lies on the cutting step, or is an end of its range or the wish."""
    inside = view.case.sizes == "inside"
    boards = 2 * view.thickness + view.case.raised_bottom if inside else 0
    has = view.plan.outside.height - boards
    yield from _on_step(view, "height", Code.LAYOUT_HEIGHT_STEP, has)


def open_sizes(view: OptionView) -> Iterator[Finding]:
    """The open sizes listed are all that the job leaves open, as the cases have them."""
    shown: dict[tuple[str, str], tuple[Ticks, ...]] = {
        (one.case, one.what): (one.least, one.most, one.wish, one.chosen)
        for one in view.option.open_sizes
    }
    if not shown:
        return
    for case in view.cases:
        for what, has in as_ordered(case):
            size = getattr(case.case, what)
            wanted = (
                (size.least, size.most, size.wished, has) if isinstance(size, SizeRange) else None
            )
            yield from same(
                Code.LAYOUT_OPEN_SIZES,
                case.where,
                f"what is said of an open {what} (least, most, wish, chosen) [tick]",
                wanted,
                shown.get((case.plan.name, what)),
            )


def as_ordered(view: CaseView) -> tuple[tuple[str, Ticks], ...]:
    """Return width, height and depth as planned, in the terms of the case's sizes [tick]."""
    boards = 2 * view.thickness if view.case.sizes == "inside" else 0
    toe = view.case.raised_bottom if view.case.sizes == "inside" else 0
    back = view.back if view.case.sizes == "outside" else 0
    return (
        ("width", view.plan.outside.width - boards),
        ("height", view.plan.outside.height - boards - toe),
        ("depth", view.depth + back),
    )


def _on_step(view: CaseView, what: str, code: Code, has: Ticks) -> Iterator[Finding]:
    wanted, step = getattr(view.case, what), view.job.shop.cutting_step
    if not isinstance(wanted, SizeRange):
        return
    if has % step and has not in (wanted.least, wanted.most, wanted.wished):
        yield finding(
            code,
            view.where,
            f"{view.case.sizes} {what}",
            f"a whole number of cutting steps of {to_mm(step)} mm",
            f"{to_mm(has)} mm",
        )


def outside_depth(view: CaseView) -> Iterator[Finding]:
    """Outside depth is inside depth and the planted back."""
    yield from same_length(
        Code.LAYOUT_OUTSIDE_DEPTH,
        view.where,
        "outside depth",
        view.depth + view.back,
        view.plan.outside.depth,
        view.unit,
    )


def depth(view: CaseView) -> Iterator[Finding]:
    """The depth is the one ordered, in the range ordered, or follows from the deepest thing."""
    case, name = view.case, "inside depth"
    back = view.back if case.sizes == "outside" else 0
    if isinstance(case.depth, SizeRange):
        least, most = case.depth.least - back, case.depth.most - back
        yield from at_least(Code.LAYOUT_DEPTH, view.where, name, least, view.depth, view.unit)
        yield from at_most(Code.LAYOUT_DEPTH, view.where, name, most, view.depth, view.unit)
        return
    needs = _deepest(view) if case.depth is None else case.depth - back
    yield from same_length(Code.LAYOUT_DEPTH, view.where, name, needs, view.depth, view.unit)


def _deepest(view: CaseView) -> Ticks:
    """Deepest thing with the margin or upstanding lip before it, up to the cutting step [tick]."""
    look, step = view.job.look, view.job.shop.cutting_step
    deepest = max(i.depth + (look.guess_allowance if i.guessed else 0) for i in view.job.items)
    thick, above, _ = view.lip
    front = max(look.front_margin, thick if above else 0)
    return -(-(deepest + front) // step) * step


def depth_step(view: CaseView) -> Iterator[Finding]:
    """A depth left open lies on the cutting step, or is an end of its range or the wish."""
    case, step = view.case, view.job.shop.cutting_step
    if not isinstance(case.depth, SizeRange):
        return
    back = view.back if case.sizes == "outside" else 0
    named = {size - back for size in (case.depth.least, case.depth.most, case.depth.wished)}
    if view.depth % step and view.depth not in named:
        yield finding(
            Code.LAYOUT_DEPTH_STEP,
            view.where,
            "inside depth",
            f"a whole number of cutting steps of {to_mm(step)} mm",
            f"{to_mm(view.depth)} mm",
        )


def inside_depth(view: CaseView) -> Iterator[Finding]:
    """All bays of a case are equally deep."""
    for bay in view.bays[1:]:
        yield from same_length(
            Code.LAYOUT_INSIDE_DEPTH,
            bay.where,
            "inside depth",
            view.depth,
            bay.bay.inside.depth,
            view.unit,
        )


def inside_height(view: CaseView) -> Iterator[Finding]:
    """Clear height is outside height without top, bottom, and what the bottom is raised by."""
    needs = view.plan.outside.height - 2 * view.thickness - view.case.raised_bottom
    for bay in view.bays:
        yield from same_length(
            Code.LAYOUT_INSIDE_HEIGHT,
            bay.where,
            "inside height",
            needs,
            bay.bay.inside.height,
            view.unit,
        )


def bay_sum(view: CaseView) -> Iterator[Finding]:
    """Bays, uprights and sides add up to the outside width exactly."""
    boards = (len(view.bays) + 1) * view.thickness
    yield from same_length(
        Code.LAYOUT_BAY_SUM,
        view.where,
        "bays, uprights and sides together",
        view.plan.outside.width,
        sum(bay.bay.inside.width for bay in view.bays) + boards,
        view.unit,
    )


def bay_equal(view: CaseView) -> Iterator[Finding]:
    """Bays are equally wide but for the few ticks that cannot be shared out."""
    widths = [bay.bay.inside.width for bay in view.bays]
    yield from at_most(
        Code.LAYOUT_BAY_EQUAL,
        view.where,
        "widest bay less narrowest",
        len(widths) - 1,
        max(widths) - min(widths),
        view.unit,
    )


def bay_x(view: CaseView) -> Iterator[Finding]:
    """Each bay begins where the board on its left ends."""
    x = view.thickness
    for bay in view.bays:
        yield from same_length(Code.LAYOUT_BAY_X, bay.where, "x", x, bay.bay.x, view.unit)
        x = bay.bay.x + bay.bay.inside.width + view.thickness
