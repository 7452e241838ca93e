"""From a job, its last plan or a saved plan to the client page."""

from __future__ import annotations

import webbrowser
from dataclasses import dataclass
from pathlib import Path

import typer

from cli.deliver import is_working, keep_last, make_plan, refuse_if_wrong, what_would_do
from cli.drawings.pictures import read_pictures
from cli.interrupt import INTERRUPTED
from cli.last_plan import last_path
from cli.output import STDOUT, check_target, write_text
from cli.page.build import page_html
from cli.plan_of import last_of, saved_plan
from cli.price_file import read_prices
from cli.request import Request, read_request
from solver.errors import CannotBeDoneError, InputError, InterruptedPlanError
from solver.outcome import Limits
from solver.plan import Plan
from solver.price_list import PriceList


@dataclass(frozen=True)
class Asked:
    """What is asked for on the command line.

    Attributes
    ----------
    job
        A job file, or a saved plan (.json).
    out
        The page; None: named after the job.
    prices
        A price list; None: prices are those of the job.
    open_it
        Open it in the browser.
    fresh
        Plan again although the last plan is still one of the job.
    force, quiet
        Replace files that exist; print nothing but errors.
    """

    job: str
    out: str | None
    prices: str | None = None
    open_it: bool = False
    fresh: bool = False
    force: bool = False
    quiet: bool = False

    @property
    def is_saved(self) -> bool:
        """Whether a saved plan is to be shown."""
        return Path(self.job).suffix.lower() == ".json"

    @property
    def target(self) -> str:
        """Where the page goes."""
        return f"{Path(self.job).stem}.html" if self.out is None else self.out

    def check(self) -> None:
        """Raise InputError where the page could not be written, before the long work."""
        if self.open_it and self.target == STDOUT:
            msg = "--open goes with a file; give -o the name of one"
            raise InputError(msg)
        if self.target not in (STDOUT, self.job):
            check_target(self.target, force=self.force)
        if Path(self.target).resolve() == Path(self.job).resolve():
            msg = "the page would replace the job itself; give -o another name"
            raise InputError(msg, self.target)


def deliver(asked: Asked, limits: Limits) -> None:
    """Write the page; raise where it did not work out, as `casewright plan` does."""
    asked.check()
    known = read_prices(asked.prices)
    plan = saved_plan(asked.job) if asked.is_saved else _of_job(asked, limits, known)
    pictures = read_pictures(plan.job, asked.job)
    works = any(is_working(option) for option in plan.options)
    if limits.stopper.stopped and not any(option.cases for option in plan.options):
        msg = "stopped before any plan was found; nothing is written"
        raise InterruptedPlanError(msg)
    write_text(asked.target, page_html(plan, known, pictures), force=asked.force)
    if asked.target != STDOUT and not asked.quiet:
        typer.echo(f"{asked.target} is written; it opens in any browser")
    if asked.open_it:
        _open(asked.target)
    if limits.stopper.stopped:
        typer.echo("casewright: stopped; this is the best plan so far", err=True)
        raise typer.Exit(INTERRUPTED)
    if not works:
        raise CannotBeDoneError(what_would_do(plan))


def _of_job(asked: Asked, limits: Limits, prices: PriceList | None) -> Plan:
    """The last plan of a job where it still holds, else a new one, which is kept."""
    request = Request(asked.job)
    if request.is_quick:
        msg = "a job file or a saved plan is shown; write one with casewright plan ... --json"
        raise InputError(msg, asked.job)
    job = read_request(request, quiet=asked.quiet)
    if prices is not None:
        prices.refuse_other_currency(job.head.currency)
    last = None if asked.fresh else last_of(asked.job, job)
    if last is not None:
        if not asked.quiet:
            typer.echo(f"shown as kept in {last_path(asked.job)}; --fresh plans again", err=True)
        return last
    plan = make_plan(job, limits, near=False)
    refuse_if_wrong(plan)
    if any(is_working(option) for option in plan.options) and not limits.stopper.stopped:
        keep_last(plan, asked.job, quiet=asked.quiet)
    return plan


def _open(path: str) -> None:
    """Open the page in the browser; say so where there is none."""
    if not webbrowser.open(Path(path).resolve().as_uri()):
        typer.echo(f"casewright: no browser was found; open {path} by hand", err=True)
