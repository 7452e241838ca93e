"""Room left in sheets and sticks, and where there is none to spare."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, plain_name
from solver.plan import Sheet, Stick
from solver.remarks import SheetSlack
from solver.slack import TIGHT, sheet_slack, stick_slack
from solver.units import Ticks, Unit, format_length, with_unit

NAMED_MOST = 4
"""Most places without slack that are named one by one [-]."""


def slack_table(sheets: Sequence[Sheet], sticks: Sequence[Stick], unit: Unit) -> Titled:
    """Return the slack of each sheet, beside its strips and in each of them, and of each stick."""
    table = plain_table("", "beside strips", "along each strip, from 1", "least", right=("least",))
    for number, sheet in enumerate(sheets, start=1):
        slack = _slack(sheet)
        table.add_row(
            f"sheet {number}",
            format_length(slack.across, unit),
            ", ".join(format_length(strip.along, unit) for strip in slack.strips),
            format_length(slack.least, unit),
        )
    for number, stick in enumerate(sticks, start=1):
        left = format_length(_stick_slack(stick), unit)
        table.add_row(f"stick {number}: {plain_name(stick.stock)}", NONE, NONE, left)
    return Titled(f"Slack ({unit}, left beyond pieces and saw cuts, margin included)", table)


def _slack(sheet: Sheet) -> SheetSlack:
    return sheet.slack or sheet_slack(sheet)


def _stick_slack(stick: Stick) -> Ticks:
    return stick_slack(stick) if stick.slack is None else stick.slack


def slack_lines(sheets: Sequence[Sheet], sticks: Sequence[Stick], unit: Unit) -> list[str]:
    """Return the least slack and where it is, and where there is none to spare."""
    places = sorted(_places(sheets, sticks), key=lambda place: place[0])
    if not places:
        return []
    tight = [place for place in places if place[0] < TIGHT[unit]]
    if not tight:
        room, where = places[0]
        return [f"Least slack: {with_unit(room, unit)}, {where}."]
    named = [f"{where} ({with_unit(room, unit)})" for room, where in tight[:NAMED_MOST]]
    more = f" and {len(tight) - NAMED_MOST} more places" if len(tight) > NAMED_MOST else ""
    return [
        f"No slack to spare in {'; '.join(named)}{more}: a sheet under size or a wide kerf"
        " leaves the last piece short. Measure the sheets first; --margin keeps room."
    ]


def _places(sheets: Sequence[Sheet], sticks: Sequence[Stick]) -> Iterator[tuple[Ticks, str]]:
    """Every place that has slack, with how much [tick]."""
    for number, sheet in enumerate(sheets, start=1):
        slack = _slack(sheet)
        yield slack.across, f"sheet {number}, beside its strips"
        for at, strip in enumerate(slack.strips, start=1):
            yield strip.along, f"sheet {number}, strip {at}"
    for number, stick in enumerate(sticks, start=1):
        yield _stick_slack(stick), f"stick {number}"
