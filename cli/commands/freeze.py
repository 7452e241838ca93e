"""`casewright freeze`: the revision that the client has signed, kept beside the job."""

from __future__ import annotations

import datetime
from typing import Annotated

import typer

from cli.commands.options import JobOrPlan, MakeOption, TimeLimit
from cli.files.signed_files import keep_signed, last_signed
from cli.papers.write import day
from cli.run.plan_of import option_named, plan_of
from solver.costing.revision_changes import change_order
from solver.errors import InputError
from solver.plan.plan import Option
from solver.plan.signed import Signed


def freeze(
    job: JobOrPlan,
    option: MakeOption = None,
    date: Annotated[
        str | None,
        typer.Option("--date", metavar="YYYY-MM-DD", help="Day of the signature; left out, today."),
    ] = None,
    cut: Annotated[
        str | None,
        typer.Option(
            "--cut",
            metavar="SHEETS",
            help="Sheets of the signed revision that are cut by now: 1,2 and mouldings, or all."
            " Keeps no new revision.",
        ),
    ] = None,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Keep the plan as the client has signed it; what differs later is a change order.

    Each revision has its own file beside the job (alcove.signed-1.json), which nothing replaces.
    casewright papers then prints revision and date, and a change order where the plan differs.

    Example: casewright freeze alcove.toml --date 2026-11-25
    """
    last = last_signed(job)
    if cut is not None:
        if option is not None or date is not None:
            msg = "--cut is about the revision that is signed; give it alone"
            raise InputError(msg, "--cut")
        if last is None:
            msg = f"nothing is signed yet; run casewright freeze {job} first"
            raise InputError(msg, job)
        signed = _with_cut(last, cut)
        path = keep_signed(job, signed, force=True)
        typer.echo(f"{path}: {_cut_text(signed)}")
        return
    signed = _new(job, last, option, date, time_limit)
    path = keep_signed(job, signed, force=False)
    typer.echo(f"revision {signed.revision}, {signed.date}, {signed.option}: {path}")


def _new(
    job: str, last: Signed | None, option: str | None, date: str | None, seconds: float
) -> Signed:
    """Return the revision that follows the last one."""
    plan = plan_of(job, seconds)
    built = option_named(plan, option)
    if last is not None and change_order(last, plan, built).is_empty:
        msg = f"this is revision {last.revision} of {last.date} as signed; nothing differs"
        raise InputError(msg, job)
    signed_on = day(date, "--date") or datetime.date.today()
    revision = 1 if last is None else last.revision + 1
    return Signed(revision=revision, date=signed_on, option=built.name, plan=plan)


def _with_cut(signed: Signed, words: str) -> Signed:
    """Return the revision with the sheets named as cut, beside those named before."""
    built = signed.built
    sheets, sticks = set(signed.cut_sheets), set(signed.cut_sticks)
    for word in (one.strip().lower() for one in words.split(",")):
        if word in ("all", "mouldings"):
            sticks.update(range(1, len(built.mouldings) + 1))
            sheets.update(range(1, len(built.sheets) + 1) if word == "all" else ())
        elif word.isdecimal() and 1 <= int(word) <= len(built.sheets):
            sheets.add(int(word))
        else:
            msg = f"{word!r} is no sheet of the signed revision; allowed: {_allowed(built)}"
            raise InputError(msg, "--cut")
    changed = {"cut_sheets": tuple(sorted(sheets)), "cut_sticks": tuple(sorted(sticks))}
    return signed.model_copy(update=changed)


def _allowed(built: Option) -> str:
    numbers = [str(number) for number in range(1, len(built.sheets) + 1)]
    return ", ".join([*numbers, *(["mouldings"] if built.mouldings else []), "all"])


def _cut_text(signed: Signed) -> str:
    sheets = ", ".join(map(str, signed.cut_sheets)) or "none"
    sticks = ", ".join(map(str, signed.cut_sticks))
    return f"cut by now: sheets {sheets}" + (f"; sticks {sticks}" if sticks else "")
