"""`casewright tradeoff`: every option that is not beaten on price and places parted together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated

import typer

from cli.commands.options import (
    AcceptGuesses,
    Force,
    Headroom,
    Inside,
    Items,
    JobOrList,
    NoKeep,
    Opening,
    Outside,
    Prefer,
    Quiet,
    Rhythm,
    Seed,
    ShelfStyle,
    Shelves,
    Tallest,
    TimeLimit,
    UnitOfSizes,
)
from cli.files.export import write_front_csv
from cli.files.output import STDOUT, check_targets, write_text
from cli.files.saved_answers import age_of_answer, answer_made_by, kind_of, read_answer
from cli.run.pipeline import Steps, Tell, deliver, show_and_write
from cli.run.plan_pipeline import keep_last
from cli.run.plan_request import PlanRequest, read_request
from cli.screen.console import console
from cli.screen.front_tables import print_front
from cli.screen.plan_screen import print_plan
from cli.screen.wording import tag_words
from solver.checking.front import check_front
from solver.errors import InputError
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.price_front import TradeOff

MARKS = ("recommended", "cheapest", "least stock", "best-looking")


@dataclass(frozen=True)
class FrontOutput:
    """What the user wants to get.

    Attributes
    ----------
    json, csv
        Files to write, None: not wanted; ``-`` is standard output.
    force
        Whether existing files may be replaced.
    quiet
        Print nothing but errors.
    plan
        File for the option taken, as a plan.
    take
        Which option becomes the plan: its number, or what it is; None: none.
    kept_for
        Job file beside which the option taken is kept as its last plan; None: it is not kept.
    """

    json: str | None = None
    csv: str | None = None
    plan: str | None = None
    take: str | None = None
    force: bool = False
    quiet: bool = False
    kept_for: str | None = None

    def check(self) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        check_take(self.take)
        check_targets(self.json, self.csv, self.plan, force=self.force)

    @property
    def shows(self) -> bool:
        """Whether tables are printed: not where standard output is for a file alone."""
        return not self.quiet and STDOUT not in (self.json, self.csv, self.plan)


def tradeoff(
    job: JobOrList,
    items: Items = None,
    accept: AcceptGuesses = False,
    inside: Inside = None,
    outside: Outside = None,
    opening: Opening = None,
    shelves: Shelves = None,
    unit: UnitOfSizes = None,
    headroom: Headroom = None,
    rhythm: Rhythm = None,
    prefer: Prefer = None,
    tallest: Tallest = None,
    shelf_style: ShelfStyle = None,
    json: Annotated[
        str | None,
        typer.Option(
            "--json", metavar="FILE", help="Write the front as JSON; - for standard output, alone."
        ),
    ] = None,
    csv: Annotated[
        str | None,
        typer.Option(
            "--csv", metavar="FILE", help="Write its table as CSV; - for standard output, alone."
        ),
    ] = None,
    take: Annotated[
        str | None,
        typer.Option(
            "--take",
            metavar="NO.",
            help="The option that becomes the plan: its number, or recommended, cheapest,"
            " best-looking. It is shown in full and kept beside the job file as its last plan.",
        ),
    ] = None,
    plan: Annotated[
        str | None,
        typer.Option(
            "--plan",
            metavar="FILE",
            help="Write the option taken as a plan (JSON); without --take the recommended one.",
        ),
    ] = None,
    no_keep: NoKeep = False,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Show every option that is not beaten on price and places parted together.

    With a table, a chart, and which one is recommended and why. --take makes one of them
    the plan; a front written by --json may stand in place of the job, to choose from.

    Example: casewright tradeoff alcove.toml --csv front.csv
    """
    request = PlanRequest(
        *(job, items, inside, outside, opening, shelves, unit),
        headroom=headroom,
        rhythm=rhythm,
        prefer=prefer,
        tallest=tallest,
        shelf_style=shelf_style,
        accept=accept,
    )
    wanted = FrontOutput(
        json=json,
        csv=csv,
        plan=plan,
        take=take,
        force=force,
        quiet=quiet,
        kept_for=None if no_keep or request.is_list or request.is_front else job,
    )
    wanted.check()
    limits = Limits(seed=seed, seconds=time_limit)
    if request.is_front:
        show_and_write(_read_front(job), limits, _steps(wanted))
        return
    read = read_request(request, quiet=quiet)
    deliver(read, _finder(read, limits), limits, _steps(wanted))


def _finder(job: Job, limits: Limits) -> Callable[[Tell], TradeOff]:
    from solver.tradeoff.trade_off import trade_off

    return lambda tell: trade_off(job, limits, tell)


def _steps(wanted: FrontOutput) -> Steps[TradeOff]:
    return Steps(
        findings=lambda front: [finding.text for finding in check_front(front)],
        show=(lambda front: _show(front, wanted)) if wanted.shows else None,
        write=lambda front: _write(front, wanted),
        what="the front",
        job_of=lambda front: front.job,
        why_not=lambda front: None if front.points else nothing_works(front),
    )


def _show(front: TradeOff, wanted: FrontOutput) -> None:
    """Print table and chart, and in full the option that is taken."""
    print_front(console(), front)
    chosen = _chosen(front, wanted)
    if wanted.take and chosen is not None:
        console().print()
        print_plan(console(), chosen, every=False)


def _chosen(front: TradeOff, wanted: FrontOutput) -> Plan | None:
    """Return the option that is taken, or the recommended one where a plan is to be written."""
    if front.points and (wanted.take or wanted.plan):
        return option_taken(front, wanted.take or "recommended")
    return None


def _write(front: TradeOff, wanted: FrontOutput) -> None:
    """Write the files that are wanted, and keep the option taken as the last plan."""
    chosen = _chosen(front, wanted)
    if wanted.json is not None:
        write_text(wanted.json, front.to_json(), force=wanted.force)
    if wanted.csv is not None:
        write_front_csv(front, wanted.csv, force=wanted.force)
    if chosen is None:
        return
    if wanted.plan is not None:
        write_text(wanted.plan, chosen.to_json(), force=wanted.force)
    if wanted.take and wanted.kept_for is not None:
        keep_last(chosen, wanted.kept_for, quiet=wanted.quiet)
        if wanted.shows:
            start = "--hold, --thickness and whatif start from it"
            typer.echo(f"Kept as the last plan of {wanted.kept_for}: {start}.")


def _read_front(path: str) -> TradeOff:
    """Read a front that was written before; InputError where it is none, or not a good one."""
    front = read_answer(path)
    if not isinstance(front, TradeOff):
        msg = f"this is {kind_of(front)}, no trade-off front; give one, or a job file"
        raise InputError(msg, path)
    findings = check_front(front)
    if findings:
        if age_of_answer(front) == "same":
            what = f"this is not a good front ({findings[0]})"
        else:
            what = f"this front was {answer_made_by(front)}, whose rules differ ({findings[0]})"
        msg = f"{what}; casewright verify shows all of it, casewright tradeoff JOB makes it anew"
        raise InputError(msg, path)
    return front


def nothing_works(front: TradeOff) -> str:
    """Return why no option works, a combination of shelf counts a line."""
    reasons = [f"{one.name}: {one.why}" for one in front.not_on_front]
    reasons += [f"{part.name}: {part.why}" for part in front.open_parts]
    if front.open_parts:
        return "\n".join(
            ["nothing was found by the limit; give more time with --time-limit", *reasons]
        )
    head = "it cannot be done as asked; casewright plan says which changes would do"
    return "\n".join([head, *reasons])


def check_take(which: str | None) -> None:
    """Raise InputError where an option is named in no way that is known."""
    if which is not None and which not in MARKS and not which.isdecimal():
        msg = f"--take: {which!r} is neither a number of the table nor one of {', '.join(MARKS)}"
        raise InputError(msg)


def option_taken(front: TradeOff, which: str) -> Plan:
    """Return the option taken as a plan.

    Parameters
    ----------
    which
        Its number in the table, or what it is: recommended, cheapest, best-looking.

    Raises
    ------
    InputError
        Where the front has no such option.
    """
    for point, plan in zip(front.points, front.plans(), strict=True):
        if which in (str(point.number), *point.option.tags, *tag_words(point.option)):
            return plan.model_copy(update={"not_shown": len(front.points) - 1})
    numbers = f"1 to {len(front.points)}" if len(front.points) > 1 else "1"
    msg = f"--take: {which} is not there; the options are {numbers}"
    raise InputError(msg)
