"""`casewright whatif`: more things, or fewer, and the least that would have to change."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from textwrap import fill
from typing import Annotated

import typer
from rich.text import Text

from cli.commands.options import Force, From, JobArgument, Json, Quiet, Seed, StartOption, TimeLimit
from cli.files.hold_option import kind_and_count
from cli.files.output import STDOUT, check_targets, write_text
from cli.run.pipeline import Steps, Tell, deliver
from cli.run.plan_pipeline import findings
from cli.run.plan_request import read_job_aloud
from cli.run.start_from_plan import Start
from cli.screen.before_after import changed_line, changed_tables
from cli.screen.console import console
from cli.screen.wording import plain_name
from solver.errors import InputError
from solver.job.inventory import Item
from solver.job.job import Job
from solver.listing.read import read_listing
from solver.outcome import Limits
from solver.plan.what_if_answer import WhatIf

FURTHER_CASE = "further case"


@dataclass(frozen=True)
class Question:
    """A question as given on the command line."""

    start: Start
    add: tuple[str, ...]
    drop: tuple[str, ...]

    def read(self, limits: Limits) -> tuple[Job, Callable[[Tell], WhatIf]]:
        """Read the job and the question; return what answers it."""
        from solver.replan.what_if import what_if

        if not self.add and not self.drop:
            msg = "nothing is asked; give --add or --drop, such as --add '4 x tall jug'"
            raise InputError(msg)
        job = read_job_aloud(self.start.job or "")
        add = [added_things(job, text) for text in self.add]
        drop = dict(dropped_things(job, text) for text in self.drop)
        words = [*(f"add {text}" for text in self.add), *(f"drop {text}" for text in self.drop)]
        last, option = self.start.read()
        return job, lambda _: what_if(job, last, add, drop, words, limits, option=option)


def _steps(json: str | None, *, force: bool, shows: bool) -> Steps[WhatIf]:
    def write(answer: WhatIf) -> None:
        if json is not None:
            text = answer.model_dump_json(by_alias=True, indent=1)
            write_text(json, text + "\n", force=force)

    return Steps(
        findings=lambda answer: [] if answer.plan is None else findings(answer.plan),
        show=_show if shows else None,
        write=write,
        what="the best answer",
        job_of=lambda answer: None if answer.plan is None else answer.plan.job,
        why_not=lambda answer: answer.text if answer.answer == FURTHER_CASE else None,
    )


def whatif(
    job: JobArgument,
    add: Annotated[
        list[str] | None,
        typer.Option(
            "--add",
            metavar="THINGS",
            help="More of a kind, '4 x tall jug', or new things with their sizes,"
            " '4 x vase 6x12x6'; repeatable.",
        ),
    ] = None,
    drop: Annotated[
        list[str] | None,
        typer.Option(
            "--drop",
            metavar="THINGS",
            help="Things to take away: 'mantel clock' for all of them, or '2 x mantel clock';"
            " repeatable.",
        ),
    ] = None,
    start: From = None,
    option: StartOption = None,
    json: Json = None,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Say where more things would go, and the least that would have to change for them.

    Starts from the last plan and changes nothing that is kept.

    Example: casewright whatif alcove.toml --add '4 x tea caddy, single'
    """
    check_targets(json, force=force)
    question = Question(Start(job, start, option), tuple(add or ()), tuple(drop or ()))
    limits = Limits(seed=seed, seconds=time_limit)
    read, decide = question.read(limits)
    deliver(read, decide, limits, _steps(json, force=force, shows=not quiet and json != STDOUT))


def added_things(job: Job, text: str) -> Item:
    """Read what is added: more of a kind of the job, or new things with their sizes."""
    known = _known(job, text)
    if known is not None:
        item, count = known
        return item.model_copy(update={"count": count or 1})
    return _new_things(job, text)


def dropped_things(job: Job, text: str) -> tuple[str, int | None]:
    """Read what is dropped: a kind of the job, and how many; None: all of them."""
    known = _known(job, text)
    if known is None:
        names = ", ".join(repr(item.name) for item in job.items)
        msg = f"{text!r} is not in the job; its things: {names}"
        raise InputError(msg, "--drop")
    return known[0].name, known[1]


def _known(job: Job, text: str) -> tuple[Item, int | None] | None:
    """The kind of the job that is meant, and the number before it; None where there is none."""
    names = {item.name.casefold(): item for item in job.items}
    name, count = kind_and_count(text, names)
    return None if name is None else (names[name], count)


def _new_things(job: Job, text: str) -> Item:
    """New things, read as a line of a list is."""
    listing = read_listing(text, job.unit, "--add")
    items = listing.items
    if len(items) != 1:
        names = ", ".join(repr(item.name) for item in job.items)
        why = "; ".join(f"{line.skipped}" for line in listing.lines if line.skipped)
        msg = (
            f"{text!r} is neither a kind of the job nor a thing with its sizes"
            f"{f' ({why})' if why else ''}; write '4 x vase 6x12x6', or one of {names}"
        )
        raise InputError(msg, "--add")
    return items[0]


def _show(answer: WhatIf) -> None:
    """Print the answer, then what would move; that it needs a further case is told as an error."""
    if answer.answer == FURTHER_CASE:
        return
    screen = console()
    screen.print(Text(plain_name("; ".join(answer.asked)), style="bold"))
    screen.print(fill(plain_name(answer.text), screen.width))
    plan = answer.plan
    if plan is None or plan.comparison is None:
        return
    screen.print(fill(changed_line(plan.comparison, plan.unit), screen.width))
    for titled in changed_tables(plan):
        screen.print()
        screen.print(Text(titled.title, style="bold"))
        screen.print(titled.table)
