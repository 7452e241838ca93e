"""The marking-out sheet: every line on sides, back, top and bottom, from one end each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, grid, heading, line, points
from cli.papers.paper_drawings import TO_MARK, whole_pages
from cli.screen.marking_tables import marking_lines
from cli.screen.wording import NONE, AlikeBays, alike_bays
from solver.job.case import Case
from solver.plan.built import CasePlan
from solver.plan.hanging import clear_of_shelf
from solver.units import Ticks, Unit, format_length, with_unit
from solver.words import word

COLUMNS = {
    "underside": "underside",
    "top face": "top",
    "fixing line": "fixing",
    "on the back": "on_back",
    "on an upright": "on_upright",
    "opening": "above",
}
"""Columns of the lines on the sides, and which figure of a line each has."""


def marking_out(issue: Issue) -> Paper:
    """Return the marking-out sheet."""
    blocks: list[Block] = [
        line(
            "All heights run from the bottom end of the side: hook the tape once and mark every"
            " line, never from the line before. Lay the sides edge to edge, bottom ends flush"
            " and backs together; square each line across both; X between the two lines, where"
            " the board goes."
        )
    ]
    for planned in issue.option.cases:
        blocks += _case(issue, issue.job.case(planned.name), planned)
    blocks += [heading("Before cutting a joint"), *points(_checks(issue))]
    drawn = whole_pages(issue, "marking-out", TO_MARK)
    blocks += [block for block, _ in drawn]
    return Paper(
        "marking-out",
        "Marking-out sheet",
        "every line, from one end",
        tuple(blocks),
        pictures=tuple(file for _, file in drawn),
    )


def _case(issue: Issue, case: Case, planned: CasePlan) -> Iterator[Block]:
    for group in alike_bays(issue.option):
        if group.case.name == planned.name:
            yield from _sides(issue, case, group)
    if len(planned.bays) > 1:
        backs = sum(part.case == case.name and part.name == "back" for part in issue.option.parts)
        yield _uprights(case, planned, backs, issue.unit)
        if backs > 1:
            yield line(
                "The back is in pieces, which meet on the middle of each upright: its fixing line."
            )
    if case.fixing == "pins":
        yield line(_pins(case, issue.unit))
    yield from _hinges(issue, case, planned)


def _sides(issue: Issue, case: Case, group: AlikeBays) -> Iterator[Block]:
    unit = issue.unit
    lines = board_lines(case, group, unit)
    shown = [*COLUMNS.items()]
    if case.back == "none":
        shown.remove(("on the back", "on_back"))
    if len(group.case.bays) == 1:
        shown.remove(("on an upright", "on_upright"))
    columns = ["board", *(name for name, _ in shown)]
    rows = [(one.board, *(_length(getattr(one, at), unit) for _, at in shown)) for one in lines]
    yield heading(group.label(issue.option) or case.name)
    yield grid(
        columns,
        rows,
        right=columns[1:],
        title=f"Sides{', uprights' if len(group.case.bays) > 1 else ''} and back, {unit}",
    )
    upright = (
        " On an upright: undersides from its own bottom end, which stands on the bottom."
        if len(group.case.bays) > 1
        else ""
    )
    side = with_unit(group.case.outside.height, unit)
    yield line(f"{_joint(case, unit)} Side: {side} long.{upright}")


def _length(ticks: Ticks | None, unit: Unit) -> str:
    return NONE if ticks is None else format_length(ticks, unit)


def _joint(case: Case, unit: Unit) -> str:
    """Say what is made between the two lines."""
    if case.dado_depth:
        name = word("dado", unit).capitalize()
        return f"{name} {with_unit(case.dado_depth, unit)} deep between the two lines."
    return "Butt joints: glue and screws on the fixing line, from outside."


def _uprights(case: Case, planned: CasePlan, backs: int, unit: Unit) -> Block:
    """Return the lines on top and bottom, which end in the boards' other end."""
    columns = ["upright", "left face", "right face", "fixing line", "on the back"]
    rows = [
        (
            f"upright {one.number}",
            *(_length(at, unit) for at in (one.left, one.right, one.fixing, one.on_back)),
        )
        for one in upright_lines(case, planned, backs)
    ]
    end = format_length(board_length(case, planned), unit)
    rows.append(("right end of the board", end, NONE, NONE, NONE))
    return grid(
        columns,
        rows,
        right=columns[1:],
        title=f"Top and bottom of {planned.name}, {unit}, from their left end",
    )


def _pins(case: Case, unit: Unit) -> str:
    """Say where the holes for shelf pins are."""
    return (
        f"Pin holes: shelves rest on the pins at {with_unit(case.first_hole, unit)} and every"
        f" {with_unit(case.pin_pitch, unit)} above; the middle of a hole lies half a pin's"
        " thickness lower. Drill both sides from one strip, its foot at the bottom end."
    )


def _hinges(issue: Issue, case: Case, planned: CasePlan) -> Iterator[Block]:
    """Yield where the leaves go on the hinge side, where the case hangs on hinges."""
    sheet = issue.hanging.of(planned.name)
    if sheet.hinge is None:
        return
    doorway = next((one for one in issue.job.doorways if one.name == case.doorway), None)
    leaf, high, unit = sheet.hinge.leaf, planned.outside.height, issue.unit
    clear = clear_of_shelf(unit)
    columns = ("hinge", "leaf from", "leaf to", "on the jamb", "")
    rows = [
        (
            str(number),
            format_length(high - one.from_top - leaf, unit),
            format_length(high - one.from_top, unit),
            format_length(one.from_head, unit),
            f"{'old mortise' if one.old else 'new'}"
            f"{f'; a shelf is near: keep its screws {clear} off' if one.near_shelf else ''}",
        )
        for number, one in reversed(list(enumerate(sheet.hinges, start=1)))
    ]
    side = doorway.hinge_side if doorway and doorway.hinge_side else "hinge"
    yield grid(
        columns,
        rows,
        right=columns[1:4],
        title=f"Hinge marks, {side} side, {unit}: leaves from the bottom end of the side, on the"
        " jamb from the head down to the top of the leaf",
    )


def _checks(issue: Issue) -> list[str]:
    marks = [s.underside for c in issue.option.cases for bay in c.bays for s in bay.shelves]
    all_exact = all(format_length(mark, issue.unit)[-1] not in "+−" for mark in marks)
    exact = "; shelf marks are exact" if marks and all_exact else ""
    return [
        "The top face of the top is the length of the side: the last mark must meet its end.",
        "Hold the story stick, or a second tape, against both sides; the pairs must agree.",
        f"+ or − after a figure: the true place is a little more or less{exact}.",
    ]


@dataclass(frozen=True)
class BoardLine:
    """Where one board meets the sides, from the bottom end of the side [tick].

    Attributes
    ----------
    board
        Its name.
    underside, top
        Both sides of its line [tick].
    fixing
        Its middle, where it is fixed from outside [tick]; None: nothing is fixed there.
    on_back
        The same line on the back, from the back's own bottom end [tick].
    above
        Clear opening above it [tick]; None above the top.
    on_upright
        Underside of a shelf from the bottom end of an upright, which is shorter than a side
        [tick]; None of other boards, and where there are no uprights.
    """

    board: str
    underside: Ticks
    top: Ticks
    fixing: Ticks | None
    on_back: Ticks | None
    above: Ticks | None
    on_upright: Ticks | None = None


def board_lines(case: Case, group: AlikeBays, unit: Unit) -> list[BoardLine]:
    """Return the lines of a bay from the lowest up; the last ends at the side's other end."""
    foot = group.first.openings[0].floor - case.dado_depth
    several = len(group.case.bays) > 1
    return [
        BoardLine(
            board,
            underside,
            top,
            *_middle(case, board, (underside, top)),
            above,
            underside - foot if several and board.startswith("shelf") else None,
        )
        for board, underside, top, above in marking_lines(group, unit)
    ]


def _middle(
    case: Case, board: str, faces: tuple[Ticks, Ticks]
) -> tuple[Ticks | None, Ticks | None]:
    """Fixing line on the side and on the back, where the board is fixed at all."""
    loose = case.fixing == "pins" and board.startswith("shelf")
    if loose or board in ("toe", "plinth"):
        return None, None
    middle = sum(faces) // 2
    return middle, None if case.back == "none" else middle - case.back_inset // 2


@dataclass(frozen=True)
class UprightLine:
    """Where an upright meets top and bottom, from the left end of those boards [tick]."""

    number: int
    left: Ticks
    right: Ticks
    fixing: Ticks
    on_back: Ticks | None
    """From the left edge of a back in one piece [tick]; None where it is not in one piece."""


def upright_lines(case: Case, planned: CasePlan, backs: int) -> list[UprightLine]:
    """Return the lines of the uprights on top and bottom, from the left.

    `backs` is the number of pieces of the back [-]; several meet on the uprights' middles.
    """
    start = planned.bays[0].x - case.dado_depth
    lines = []
    for number, (bay, after) in enumerate(pairwise(planned.bays), start=1):
        left, right = bay.x + bay.inside.width, after.x
        middle = (left + right) // 2
        lines.append(
            UprightLine(
                number,
                left - start,
                right - start,
                middle - start,
                middle - case.back_inset // 2 if backs == 1 else None,
            )
        )
    return lines


def board_length(case: Case, planned: CasePlan) -> Ticks:
    """Return the length of top and bottom, in which the running dimensions of uprights end."""
    first, last = planned.bays[0], planned.bays[-1]
    return last.x + last.inside.width - first.x + 2 * case.dado_depth
