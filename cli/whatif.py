"""From the words of a what-if question to its answer, shown and written."""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import fill

from rich.text import Text

from cli.again import Start
from cli.console import console, progress
from cli.deliver import refuse_if_wrong
from cli.faults import job_kept
from cli.interrupt import run_stoppable
from cli.job_file import read_job
from cli.last_plan import option_of, read_last
from cli.output import STDOUT, check_target, reader_may_stop, write_text
from cli.tables.before_after import changed_line, changed_tables
from cli.tables.words import plain_name
from cli.things_words import counted
from solver.errors import CannotBeDoneError, InputError
from solver.inventory import Item
from solver.job import Job
from solver.listing.read import read_listing
from solver.outcome import Limits
from solver.planning.whatif import what_if
from solver.whatif import WhatIf


@dataclass(frozen=True)
class Asked:
    """A question as given on the command line."""

    start: Start
    add: tuple[str, ...]
    drop: tuple[str, ...]


def deliver(asked: Asked, limits: Limits, json: str | None, *, force: bool, quiet: bool) -> None:
    """Answer a question, check the plan behind it, show it and write it."""
    if json is not None:
        check_target(json, force=force)
    answer = answered(asked, limits)
    if answer.plan is not None:
        refuse_if_wrong(answer.plan)
    possible = answer.answer != "further case"
    if possible and not quiet and json != STDOUT:
        with reader_may_stop():
            show(answer)
    if json is not None:
        write_text(json, answer.model_dump_json(by_alias=True, indent=1) + "\n", force=force)
    if not possible:
        raise CannotBeDoneError(answer.text)


def answered(asked: Asked, limits: Limits) -> WhatIf:
    """Read the question and answer it."""
    if not asked.add and not asked.drop:
        msg = "nothing is asked; give --add or --drop, such as --add '4 x tall jug'"
        raise InputError(msg)
    job = read_job(asked.start.job or "")
    add = [added(job, text) for text in asked.add]
    drop = dict(dropped(job, text) for text in asked.drop)
    words = [*(f"add {text}" for text in asked.add), *(f"drop {text}" for text in asked.drop)]
    last = read_last(asked.start.job or "", asked.start.given)
    option = option_of(last, asked.start.option)
    with job_kept(job), progress() as line:
        return run_stoppable(
            lambda: what_if(job, last, add, drop, words, limits, option=option),
            limits.stopper,
            line.show,
        )


def added(job: Job, text: str) -> Item:
    """Read what is added: more of a kind of the job, or new things with their sizes."""
    known = _known(job, text)
    if known is not None:
        item, count = known
        return item.model_copy(update={"count": count or 1})
    return _listed(job, text)


def dropped(job: Job, text: str) -> tuple[str, int | None]:
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
    name, count = counted(text, names)
    return None if name is None else (names[name], count)


def _listed(job: Job, text: str) -> Item:
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


def show(answer: WhatIf) -> None:
    """Print the answer, then what would move."""
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
