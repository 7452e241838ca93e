"""Room left in sheets and sticks, and where there is none to spare."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cli.tables.grouping import grouped
from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, listed, plain_name
from solver.remarks import SheetSlack, StripSlack
from solver.slack import TIGHT, sheet_slack, stick_slack
from solver.stocked import Sheet, Stick
from solver.units import Ticks, Unit, format_length, with_unit

NAMED_MOST = 4
"""Most places without slack that are named one by one [-]."""


def slack_table(sheets: Sequence[Sheet], sticks: Sequence[Stick], unit: Unit) -> Titled:
    """Return the slack of each sheet, beside its strips and in each of them, and of each stick."""
    table = plain_table("", "beside", "along each strip, or stick", "least", right=("least",))
    for number, sheet in enumerate(sheets, start=1):
        slack = _slack(sheet)
        table.add_row(
            f"sheet {number}",
            format_length(slack.across, unit),
            ", ".join(_strip(strip, unit) for strip in slack.strips),
            format_length(slack.least, unit),
        )
    for alike in grouped(sticks, lambda stick: stick.stock):
        rooms = [_stick_slack(stick) for stick in alike]
        along = ", ".join(format_length(room, unit) for room in rooms)
        table.add_row(plain_name(alike[0].stock), NONE, along, format_length(min(rooms), unit))
    return Titled(f"Slack ({unit}, left beyond pieces and saw cuts, margin included)", table)


def _strip(strip: StripSlack, unit: Unit) -> str:
    """What is left along a strip, and across it where pieces lie beside each other in it."""
    rows = "" if strip.rows is None else f" (rows {format_length(strip.rows, unit)})"
    return f"{format_length(strip.along, unit)}{rows}"


def _slack(sheet: Sheet) -> SheetSlack:
    return sheet.slack or sheet_slack(sheet)


def _stick_slack(stick: Stick) -> Ticks:
    return stick_slack(stick) if stick.slack is None else stick.slack


def slack_lines(sheets: Sequence[Sheet], sticks: Sequence[Stick], unit: Unit) -> list[str]:
    """Return where there is no slack to spare, or the least slack there is and where."""
    places = list(_places(sheets, sticks))
    if not places:
        return []
    tight = [place for place in places if place.room < TIGHT[unit]]
    if not tight:
        least = min(places, key=lambda place: place.room)
        return [f"Least slack: {with_unit(least.room, unit)}, {_named([least])}."]
    named = [_named(some) for some in grouped(tight, lambda place: place.what)]
    more = f"; and in {len(named) - NAMED_MOST} more" if len(named) > NAMED_MOST else ""
    return [
        f"No slack to spare in {'; '.join(named[:NAMED_MOST])}{more}: a sheet or stick under size,"
        " or a wide kerf, leaves the last piece short. Measure first; --margin keeps room."
    ]


@dataclass(frozen=True)
class _Place:
    """Something that has slack.

    Attributes
    ----------
    room
        How much [tick].
    what
        The sheet or stick.
    strip
        Number of its strip; 0 is beside them, None a stick.
    """

    room: Ticks
    what: str
    strip: int | None


def _places(sheets: Sequence[Sheet], sticks: Sequence[Stick]) -> Iterator[_Place]:
    """Every place that has slack."""
    for number, sheet in enumerate(sheets, start=1):
        slack = _slack(sheet)
        yield _Place(slack.across, f"sheet {number}", 0)
        for at, strip in enumerate(slack.strips, start=1):
            yield _Place(strip.along, f"sheet {number}", at)
    for number, stick in enumerate(sticks, start=1):
        yield _Place(_stick_slack(stick), f"stick {number}", None)


def _named(places: Sequence[_Place]) -> str:
    """Name places of one sheet or stick: `sheet 2, strips 1 and 3`."""
    texts = [places[0].what]
    if places[0].strip == 0:
        texts.append("beside its strips")
    strips = [str(place.strip) for place in places if place.strip]
    if strips:
        texts.append(f"strip{'s' if len(strips) > 1 else ''} {listed(strips)}")
    return ", ".join(texts)
