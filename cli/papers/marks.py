"""The lines that are marked out, as running dimensions from one end; whole numbers of ticks."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from cli.tables.grouping import AlikeBays
from cli.tables.marking import marking_lines
from solver.built import CasePlan
from solver.case import Case
from solver.units import Ticks, Unit


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
