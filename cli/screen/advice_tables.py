"""Room left in sheets and sticks, changes that save stock, near misses, changes that let all in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, amount, count, grouped, listed, plain_name
from solver.cutting.slack import TIGHT, sheet_slack, stick_slack
from solver.plan.plan import Change, Plan
from solver.plan.slack_and_advice import Advice, NearMiss, SheetSlack, StripSlack
from solver.plan.stocked import Sheet, Stick
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


def advice_table(advice: Sequence[Advice], unit: Unit, currency: str) -> Titled:
    """Return what may be changed and what each change saves."""
    table = plain_table("change", "saves")
    for change in advice:
        table.add_row(plain_name(change.text), saving(change, currency))
    room = with_unit(advice[0].slack, unit)
    return Titled(f"Advice (each confirmed by cutting, with room to spare: {room})", table)


def saving(change: Advice, currency: str) -> str:
    """Return what a change saves, in sheets or sticks and in money where prices are known."""
    texts = [count(change.sheets_saved, change.stock)] if change.sheets_saved > 0 else []
    if change.saves:
        texts.append(amount(change.saves, currency))
    return ", ".join(texts) or f"smaller {change.stock}s"


def advice_line(note: str | None) -> list[str]:
    """Return the line that stands where there is no advice."""
    return [f"Advice: {plain_name(note)}."] if note else []


def near_table(plan: Plan) -> Titled:
    """Return the changes and what each gains against the recommended option."""
    table = plain_table("change", "gains")
    for one in plan.near:
        table.add_row(plain_name(one.text), plain_name(near_gain(plan, one)))
    room = with_unit(plan.near[0].slack, plan.unit)
    return Titled(f"Near misses (each solved again, with room to spare: {room})", table)


def near_gain(plan: Plan, one: NearMiss) -> str:
    """Return what a change gains: things let in, shelf counts, sheets and money."""
    gains = []
    if dict(plan.options[0].shelf_counts) != dict(one.shelf_counts):
        gains.append(f"{_let_in(one)} with {shelves(one.shelf_counts)}")
    return "; ".join([*gains, near_saving(one, plan.job.head.currency)])


def _let_in(one: NearMiss) -> str:
    if not one.lets_in:
        return "everything fits"
    named = listed([f"{number} x {name}" for name, number in one.lets_in.items()])
    return f"{named} {'fits' if sum(one.lets_in.values()) == 1 else 'fit'}"


def shelves(counts: dict[str, tuple[int, ...]]) -> str:
    """Return `4 shelves`, `4 + 5 shelves`, `left 4, right 5 shelves`."""
    if len(counts) == 1:
        (bays,) = counts.values()
        return _bays(bays)
    return ", ".join(f"{name}: {_bays(bays)}" for name, bays in counts.items())


def _bays(bays: tuple[int, ...]) -> str:
    if len(set(bays)) == 1:
        each = count(bays[0], "shelf", "shelves")
        return each if len(bays) == 1 else f"{each} a bay"
    return f"{' + '.join(map(str, bays))} shelves"


def near_saving(one: NearMiss, currency: str) -> str:
    """Return `1 sheet less, saves $92.00`, `costs $34.00 more` or `costs nothing more`.

    Without prices it may only take no more sheets.
    """
    savings = []
    if one.sheets_saved:
        word = "less" if one.sheets_saved > 0 else "more"
        savings.append(f"{count(abs(one.sheets_saved), 'sheet')} {word}")
    if one.saves:
        money = amount(abs(one.saves), currency)
        savings.append(f"saves {money}" if one.saves > 0 else f"costs {money} more")
    return ", ".join(savings) or (
        "takes no more sheets" if one.saves is None else "costs nothing more"
    )


def near_line(note: str | None) -> list[str]:
    """Return the line that stands where there is no near miss."""
    return [f"Near misses: {plain_name(note)}."] if note else []


LENGTHS = ("headroom", "gap", "end margin", "height", "width", "depth", "several")


def change_text(change: Change) -> str:
    """Return `would do: 3/8 in more height (proven least)`."""
    text = f"would do: {change.text}"
    if not change.proven:
        return text
    if change.what in LENGTHS:
        return f"{text} (proven least)"
    return f"{text} (proven fewest)" if change.what == "leave out" else text
