"""Steps of the work in words."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from cli.tables.words import measured, plain_name
from solver.units import Unit
from solver.work import Calendar, Fitting, OrderOfWork, Step

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
    said: dict[str, int] = {}
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
            first = said.setdefault(caution.text, numbers[step.key])
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
