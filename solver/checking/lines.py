"""Rules on shelf lines that bays and neighbouring cases share."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.compare import same
from solver.checking.findings import Code, Finding, finding
from solver.checking.views import BayView, CaseView, OptionView
from solver.plan.built import BayName, SharedLines
from solver.units import Ticks, with_unit

Bays = tuple[BayName, ...]


def line_groups(view: OptionView) -> Iterator[Finding]:
    """The bays that share shelf lines are those that the job asks for, all of them or none."""
    if view.whole:
        asked = [] if view.option.lines_given_up else _together(view)
        has = sorted(group.bays for group in view.option.lines)
        what = "bays that share shelf lines"
        yield from same(Code.LAYOUT_LINE_GROUPS, view.where, what, asked, has)


def lines_apart(view: OptionView) -> Iterator[Finding]:
    """Bays that were to share lines and do not are named: by their marks, or all to fit more."""
    if not view.whole:
        return
    marks = sorted(some for row in _rows(view) for some in row[1:])
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
    return f"{view.where}, lines of {', '.join(f'{case} {bay}' for case, bay in group.bays)}"


def _tops(view: BayView) -> set[Ticks]:
    return {view.case.plan.above_floor + shelf.top for shelf in view.bay.shelves}


def _apart(view: OptionView, because: str) -> list[Bays]:
    return sorted(one.bays for one in view.option.lines_apart if one.because == because)


def _together(view: OptionView) -> list[Bays]:
    """The groups of bays that the job asks to share lines, and that can by their marks."""
    return sorted(some for row in _rows(view) for some in row if len(some) > 1)


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
    found: dict[tuple[Ticks, Ticks], Bays] = {}
    for one in row:
        pins = one.case.fixing == "pins"
        step = one.case.pin_pitch if pins else one.job.head.marking_step
        lowest = one.case.above_floor + one.thickness + (one.case.first_hole if pins else 0)
        bays = tuple((one.case.name, bay.bay.number) for bay in one.bays)
        found[step, lowest % step] = (*found.get((step, lowest % step), ()), *bays)
    return list(found.values())
