"""Slack of the hand-made plan of two bays, written as the sums that give it."""

from __future__ import annotations

from typing import Literal

from solver.plan.saw_cuts import StickCut
from solver.plan.slack_and_advice import SheetSlack, StripSlack
from solver.plan.stocked import Sheet, Stick
from tests.two_bays_cutting import STRIPS, sticks
from tests.two_bays_job import BAY, HEIGHT, KERF, TRIM, WIDTH, mm

LENGTH, ACROSS = 2440 - 2 * TRIM, 1220 - 2 * TRIM
"""The trimmed sheet."""
FACTORY: Literal["factory end"] = "factory end"
SAWN: Literal["sawn end"] = "sawn end"


def slacked(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Both sheets with their slack."""
    both = zip(sheets, (board_slack(), back_slack()), strict=True)
    return tuple(sheet.model_copy(update={"slack": slack}) for sheet, slack in both)


def board_slack() -> SheetSlack:
    """Five strips, none with pieces beside each other."""
    sizes = sum(size for size, _ in STRIPS)
    strips = tuple(
        StripSlack(
            parts=tuple(f"hall/{name}" for name, _, _ in row),
            size=mm(size),
            along=mm(LENGTH - sum(length for _, length, _ in row) - KERF * (len(row) - 1)),
        )
        for size, row in STRIPS
    )
    across = mm(ACROSS - sizes - KERF * (len(STRIPS) - 1))
    least = mm(LENGTH - 1230 - 916 - KERF)  # the strip of top and upright
    return SheetSlack(across=across, strips=strips, least=least)


LEAST = mm(ACROSS - (HEIGHT - 3))
"""Beside the back."""


def back_slack() -> SheetSlack:
    """One strip: the planted back is 3 mm less than the case each way."""
    along = mm(LENGTH - (WIDTH - 3))
    strip = StripSlack(parts=("hall/back",), size=mm(HEIGHT - 3), along=along)
    return SheetSlack(across=LEAST, strips=(strip,), least=LEAST)


def bars() -> tuple[Stick, ...]:
    """Two lips and one cut on each stick of 1800 mm; how it is cut is told for the second."""
    slack = mm(1800 - 2 * BAY - KERF)
    first, second = (stick.model_copy(update={"slack": slack}) for stick in sticks())
    cuts = tuple(
        StickCut(
            number=number,
            batch=1,
            setting=mm(BAY),
            at=mm(at),
            measured_from=end,
            part=f"hall/lip-bay-2-shelf-{number}",
        )
        for number, at, end in ((1, BAY, FACTORY), (2, BAY + KERF + BAY, SAWN))
    )
    return first, second.model_copy(update={"cuts": cuts})
