"""From a job to its trade-off front as the user gets it: found, checked, shown, written."""

from __future__ import annotations

from dataclasses import dataclass

import typer

from cli.answers import kind_of, read_answer
from cli.console import console, progress
from cli.deliver import keep_last
from cli.deliver import show as show_plan
from cli.edition_words import age_of_answer, answer_made_by
from cli.faults import FaultError, job_kept, refused_text
from cli.front_export import write_front_csv
from cli.front_show import print_front
from cli.front_take import check_words, taken
from cli.interrupt import INTERRUPTED, run_stoppable
from cli.output import STDOUT, check_target, reader_may_stop, write_text
from solver.checking.front import check_front
from solver.errors import CannotBeDoneError, InputError
from solver.job import Job
from solver.outcome import Limits
from solver.planning.front.front import trade_off
from solver.tradeoff import TradeOff


@dataclass(frozen=True)
class Wanted:
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
    every
        Find and show also what differs by less than anybody sees.
    kept_for
        Job file beside which the option taken is kept as its last plan; None: it is not kept.
    """

    json: str | None = None
    csv: str | None = None
    plan: str | None = None
    take: str | None = None
    force: bool = False
    quiet: bool = False
    every: bool = False
    kept_for: str | None = None

    def check(self) -> None:
        """Raise InputError where a file could not be written, before the long work."""
        check_words(self.take)
        for path in (self.json, self.csv, self.plan):
            if path is not None:
                check_target(path, force=self.force)

    @property
    def shows(self) -> bool:
        """Whether tables are printed: not where standard output is for a file alone."""
        return not self.quiet and STDOUT not in (self.json, self.csv, self.plan)


def deliver_front(job: Job, limits: Limits, wanted: Wanted) -> None:
    """Find the front of `job`, check every plan of it, show it and write the files."""
    wanted.check()
    front = make_front(job, limits, every=wanted.every)
    refuse_if_wrong(front)
    _show_and_write(front, wanted)
    if limits.stopper.stopped:
        typer.echo("casewright: stopped; this is the front so far", err=True)
        raise typer.Exit(INTERRUPTED)
    if not front.points:
        raise CannotBeDoneError(nothing_works(front))


def deliver_known(path: str, wanted: Wanted) -> None:
    """Show a front that was written before, and write what is wanted of it."""
    wanted.check()
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
    _show_and_write(front, wanted)


def _show_and_write(front: TradeOff, wanted: Wanted) -> None:
    """Show the front and the option taken, write the files, keep the plan."""
    chosen = None
    if front.points and (wanted.take or wanted.plan):
        chosen = taken(front, wanted.take or "recommended")
    if wanted.shows:
        show(front, every=wanted.every)
        if wanted.take and chosen is not None:
            console().print()
            show_plan(chosen, every=False)
    write_files(front, wanted)
    if chosen is None:
        return
    if wanted.plan is not None:
        write_text(wanted.plan, chosen.to_json(), force=wanted.force)
    if wanted.take and wanted.kept_for is not None:
        keep_last(chosen, wanted.kept_for, quiet=wanted.quiet)
        if wanted.shows:
            start = "--hold, remark and whatif start from it"
            typer.echo(f"Kept as the last plan of {wanted.kept_for}: {start}.")


def make_front(job: Job, limits: Limits, *, every: bool) -> TradeOff:
    """Find the front where Ctrl-C can stop it, with its progress shown on a terminal."""
    with job_kept(job), progress() as line:
        return run_stoppable(
            lambda: trade_off(job, limits, line.tell, every=every), limits.stopper, line.show
        )


def refuse_if_wrong(front: TradeOff) -> None:
    """Raise FaultError, with the job kept, where the checker finds anything in any plan."""
    with job_kept(front.job):
        findings = [finding.text for finding in check_front(front)]
    if findings:
        raise FaultError(refused_text(front.job, findings))


def show(front: TradeOff, *, every: bool) -> None:
    """Print table and chart; a reader that stops reading does not stop the files."""
    with reader_may_stop():
        print_front(console(), front, every=every)


def write_files(front: TradeOff, wanted: Wanted) -> None:
    """Write the files that are wanted."""
    if wanted.json is not None:
        write_text(wanted.json, front.to_json(), force=wanted.force)
    if wanted.csv is not None:
        write_front_csv(front, wanted.csv, force=wanted.force)


def nothing_works(front: TradeOff) -> str:
    """Return why no option works, a combination of shelf counts a line."""
    said = [f"{one.name}: {one.why}" for one in front.not_on_front]
    said += [f"{part.name}: {part.why}" for part in front.open_parts]
    if front.open_parts:
        return "\n".join(
            ["nothing was found by the limit; give more time with --time-limit", *said]
        )
    head = "it cannot be done as asked; casewright plan says which changes would do"
    return "\n".join([head, *said])
