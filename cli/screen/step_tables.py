"""Steps of the work in words, and their calendar as a chart: a line a step, nights as strokes."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap

from cli.screen.wording import measured, plain_name
from solver.plan.work import Calendar, Fitting, OrderOfWork, ScheduledStep, Step
from solver.units import Unit

_WHERE = {"desk": "desk", "shop": "shop", "site": "on site"}


def ordered(order: OrderOfWork, calendar: Calendar) -> list[Step]:
    """Return the steps in the order of a calendar, those after the job last."""
    keys = [placed.step for placed in calendar.placed]
    later = [step.key for step in order.steps if step.later is not None]
    return [order.step(key) for key in (*keys, *later)]


def titles(order: OrderOfWork) -> dict[str, str]:
    """Return each step's name, with its case where there are several."""
    several = len({step.case for step in order.steps if step.case}) > 1
    return {
        step.key: f"{step.case}: {step.what}" if several and step.case else step.what
        for step in order.steps
    }


def step_lines(order: OrderOfWork, calendar: Calendar, unit: Unit, width: int) -> Iterator[str]:
    """Yield every step with its numbers, tools, cautions and what it waits for."""
    names = titles(order)
    steps = ordered(order, calendar)
    counts: dict[str, int] = {}
    numbers = {step.key: at for at, step in enumerate(steps, start=1)}
    for step in steps:
        yield ""
        yield from _wrapped(
            f"{numbers[step.key]:>2}. {plain_name(names[step.key])} ({_how(step)})", width, "    "
        )
        for line in step.does:
            yield from _wrapped(f"    - {plain_name(line)}", width, "      ")
        if step.fittings:
            takes = "; ".join(_fitting(one, unit) for one in step.fittings)
            yield from _wrapped(f"    Takes: {plain_name(takes)}", width, "      ")
        if step.tools:
            yield from _wrapped(f"    Tools: {', '.join(step.tools)}", width, "      ")
        for caution in step.cautions:
            first = counts.setdefault(caution.text, numbers[step.key])
            text = f"{plain_name(caution.text)} [{caution.source}]"
            again = f"as at step {first}"
            yield from _wrapped(
                f"    Caution: {text if first == numbers[step.key] else again}", width, "      "
            )
        waits = [f"{numbers[one.step]}{_wait(one.wait, one.why)}" for one in step.after]
        if any(one.wait for one in step.after):
            yield from _wrapped(f"    After: {', '.join(waits)}", width, "      ")


def _fitting(one: Fitting, unit: Unit) -> str:
    if one.counted in ("ml", "mm"):
        return f"{one.what}, {measured(one.counted, one.count, unit)}"
    pairs = " pairs" if one.counted == "pair" else ""
    return f"{one.count}{pairs} {one.what}"


def _how(step: Step) -> str:
    people = f", {step.people} people" if step.people > 1 else ""
    later = f", {step.later}" if step.later else ""
    return f"{_WHERE[step.where]}, {minutes_text(step.minutes)}{people}{later}"


def _wait(wait: int, why: str) -> str:
    return f" and {minutes_text(wait)}: {why}" if wait else ""


def minutes_text(minutes: int) -> str:
    """Write a time: `45 min`, `1 h 30`, `16 h`."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h" + (f" {rest:02d}" if rest else "")


def _wrapped(text: str, width: int, indent: str) -> list[str]:
    return wrap(text, width, subsequent_indent=indent)


SCALES = (5, 10, 15, 20, 30, 45, 60, 90, 120, 240, 420, 840, 1680)
"""Minutes that one column may stand for [min]."""
LABEL_MOST = 48
"""Widest column of names [-]."""
BOTH = "="
"""Whoever is there, all of them, where that is more than one."""
WEEKDAYS = 5


def chart(
    calendar: Calendar, names: Mapping[str, str], width: int, start: datetime.date | None
) -> list[str]:
    """Return the lines of the chart, `width` columns wide at most [-]."""
    label = min(LABEL_MOST, max(len(name) for name in names.values()), width * 3 // 8)
    scale = _scale(calendar, width - label - 3)
    lines = _head(calendar, label, scale, start)
    for placed in calendar.placed:
        name = _cut(plain_name(names[placed.step]), label)
        lines.append(f"{name:<{label}} {_bar(calendar, placed, scale)}".rstrip())
    return [*lines, *wrap(legend(calendar, scale), width)]


def legend(calendar: Calendar, scale: int) -> str:
    """Say what the signs stand for."""
    who = "1 is who does it" if calendar.people == 1 else f"1, 2 who does it, {BOTH} both"
    return f"A column is {scale} min of work, | a night; {who}; * nothing may slip."


def _scale(calendar: Calendar, room: int) -> int:
    """Minutes for a column, so that all days go into `room` columns [min]."""
    for scale in SCALES:
        if calendar.days * (-(-calendar.day // scale) + 1) <= room:
            return scale
    return SCALES[-1]


def _column(minute: int, calendar: Calendar, scale: int) -> int:
    day, into = divmod(minute, calendar.day)
    return day * (-(-calendar.day // scale) + 1) + into // scale


def _bar(calendar: Calendar, placed: ScheduledStep, scale: int) -> str:
    first = _column(placed.start, calendar, scale)
    last = max(first, _column(max(placed.start, placed.end - 1), calendar, scale))
    sign = str(placed.persons[0]) if len(placed.persons) == 1 else BOTH
    per_day = -(-calendar.day // scale) + 1
    cells = [
        "|" if at % per_day == per_day - 1 else sign if first <= at <= last else " "
        for at in range(calendar.days * per_day)
    ]
    return "".join(cells).rstrip("| ") + (" *" if placed.critical else "")


def _head(calendar: Calendar, label: int, scale: int, start: datetime.date | None) -> list[str]:
    """Head each day: its number, or weekday over date."""
    per_day = -(-calendar.day // scale) + 1
    if start is None:
        return [_head_row("day", [str(n + 1) for n in range(calendar.days)], label, per_day)]
    days = [working_day(start, number) for number in range(calendar.days)]
    dates = [date_text(day).partition(" ")[2] for day in days]
    if max(map(len, dates)) >= per_day:
        dates = [str(day.day) for day in days]
    weekdays = [_WEEK[day.weekday()] for day in days]
    return [_head_row("", weekdays, label, per_day), _head_row("", dates, label, per_day)]


def _head_row(first: str, cells: Sequence[str], label: int, per_day: int) -> str:
    row = "".join(f"{_cut(one, per_day - 1):<{per_day}}" for one in cells)
    return f"{first:>{label}} {row}".rstrip()


def working_day(start: datetime.date, number: int) -> datetime.date:
    """Return the working day so many after the first one, Saturdays and Sundays left out."""
    day = start
    while day.weekday() >= WEEKDAYS:
        day += datetime.timedelta(days=1)
    for _ in range(number):
        day += datetime.timedelta(days=3 if day.weekday() == WEEKDAYS - 1 else 1)
    return day


def date_text(day: datetime.date) -> str:
    """Write a day: `Tue 1 Dec`."""
    return f"{_WEEK[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


_WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: max(0, width - 1)]}…"


def days_text(calendars: Sequence[Calendar]) -> str:
    """Say how many working days it takes, for each number of people."""
    return "; ".join(
        f"{'one person' if one.people == 1 else f'{one.people} people'}: {one.days} working days, "
        f"{one.work / 60:.1f} hours of work"
        + ("" if one.proven else f", proven only that it is not under {one.bound / 60:.1f} h")
        for one in calendars
    )
