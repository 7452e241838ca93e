"""`casewright steps`: the order of the work, with this job's numbers, and a calendar."""

from __future__ import annotations

import datetime
from textwrap import fill
from typing import Annotated

import typer

from cli.commands.options import Force, JobOrPlan, JsonBeside, MakeOption, TimeLimit
from cli.run.plan_of import OptionRequest
from cli.screen.console import console
from cli.screen.step_tables import chart, date_text, days_text, step_lines, titles, working_day
from cli.screen.wording import plain_name
from solver.errors import InputError
from solver.plan.plan import Plan
from solver.plan.work import Calendar, OrderOfWork
from solver.strength.cautions import DEFER


def steps(
    job: JobOrPlan,
    people: Annotated[
        int, typer.Option("--people", min=1, max=2, help="Whose calendar is drawn: 1 or 2.")
    ] = 1,
    start: Annotated[
        str | None,
        typer.Option("--start", metavar="DATE", help="First day, such as 2026-12-01."),
    ] = None,
    option: MakeOption = None,
    json: JsonBeside = None,
    force: Force = False,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Show every step of the work in order: numbers, tools, cautions, times, and a calendar.

    Glue and finish dry while other work goes on. Times are those that the price counts.

    Example: casewright steps pantry.toml --people 2 --start 2026-12-01
    """
    from solver.work.calendar import order_of_work

    first = _date(start)
    request = OptionRequest(job, option, time_limit, json, force=force)
    plan, chosen = request.read()
    order = order_of_work(plan.job, chosen)
    calendar = next(one for one in order.calendars if one.people == people)
    request.deliver(
        "steps",
        plan,
        lambda: _data(order, first),
        lambda: _show(plan, order, calendar, first),
    )


def _date(text: str | None) -> datetime.date | None:
    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        msg = f"{text!r} is no day; write year, month and day, such as 2026-12-01"
        raise InputError(msg, "--start") from None


def _data(order: OrderOfWork, first: datetime.date | None) -> dict[str, object]:
    data: dict[str, object] = {
        "start": None if first is None else first.isoformat(),
        **order.model_dump(mode="json"),
        "steps": [
            {**step.model_dump(mode="json"), "minutes": step.minutes} for step in order.steps
        ],
    }
    if first is not None:
        data["calendars"] = [
            {
                **one.model_dump(mode="json"),
                "dates": [working_day(first, day).isoformat() for day in range(one.days)],
            }
            for one in order.calendars
        ]
    return data


def _show(plan: Plan, order: OrderOfWork, calendar: Calendar, first: datetime.date | None) -> None:
    out = console()
    title = f"{plain_name(plan.job.head.title)}: the work, {plain_name(order.option)}"
    out.print(fill(title, out.width))
    for line in step_lines(order, calendar, plan.unit, out.width):
        out.print(line)
    out.print()
    whole = days_text(order.calendars)
    out.print(fill(whole[0].upper() + whole[1:] + ".", out.width))
    if first is not None:
        last = date_text(working_day(first, calendar.days - 1))
        out.print(f"From {date_text(working_day(first, 0))} to {last}, Saturdays and Sundays off.")
    out.print()
    for line in chart(calendar, titles(order), out.width, first):
        out.print(line)
    if calendar.alone:
        names = titles(order)
        alone = ", ".join(plain_name(names[key]) for key in calendar.alone)
        out.print(fill(f"A second person is needed all the same for: {alone}.", out.width))
    note = "The client's time to sign and the delivery of what is ordered are not in it."
    out.print(fill(f"{note} {DEFER}", out.width))
