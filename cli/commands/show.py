"""`casewright show`: the client page of a job or of a saved plan."""

from __future__ import annotations

import webbrowser
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated

import typer

from cli.commands.options import Force, Prices, Quiet, Seed, TimeLimit
from cli.drawings.pictures import read_pictures
from cli.files.output import STDOUT, check_target, write_text
from cli.files.price_file import read_prices
from cli.files.saved_answers import last_path
from cli.page.page_file import page_html
from cli.run.pipeline import show_and_write
from cli.run.plan_of import last_plan_of, saved_plan
from cli.run.plan_pipeline import PlanOutput, checked_plan, keep_last, works
from cli.run.plan_pipeline import steps as plan_steps
from cli.run.plan_request import PlanRequest, read_request
from solver.errors import InputError
from solver.job.price_terms import PriceList
from solver.outcome import Limits
from solver.plan.plan import Plan


@dataclass(frozen=True)
class PageRequest:
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


def show(
    job: Annotated[
        str,
        typer.Argument(metavar="JOB", help="A job file (.toml), or a plan as written by --json."),
    ],
    out: Annotated[
        str | None,
        typer.Option(
            "--out",
            "-o",
            metavar="FILE",
            help="The page; left out, JOB with .html, in this folder.",
        ),
    ] = None,
    open_it: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
    fresh: Annotated[
        bool,
        typer.Option("--fresh", help="Plan the job again although its last plan still holds."),
    ] = False,
    prices: Prices = None,
    force: Force = False,
    quiet: Quiet = False,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Write a page for the client, on which the shelves can be moved.

    One file that needs no network: the options side by side, drawn to scale. The last plan
    of a job is shown where it is still one of that job; else the job is planned and kept.
    Example: casewright show alcove.toml -o alcove.html --open
    """
    request = PageRequest(job, out, prices, open_it=open_it, fresh=fresh, force=force, quiet=quiet)
    request.check()
    known = read_prices(prices)
    limits = Limits(seed=seed, seconds=time_limit)
    plan = saved_plan(job) if request.is_saved else _of_job(request, limits, known)
    pictures = read_pictures(plan.job, job)

    def write(plan: Plan) -> None:
        _write(request, page_html(plan, known, pictures))

    show_and_write(plan, limits, replace(plan_steps(PlanOutput(quiet=True)), write=write))


def _write(asked: PageRequest, html: str) -> None:
    """Write the page, and open it where that is asked for."""
    write_text(asked.target, html, force=asked.force)
    if asked.target != STDOUT and not asked.quiet:
        typer.echo(f"{asked.target} is written; it opens in any browser")
    if asked.open_it:
        _open(asked.target)


def _of_job(asked: PageRequest, limits: Limits, prices: PriceList | None) -> Plan:
    """The last plan of a job where it still holds, else a new one, which is kept."""
    request = PlanRequest(asked.job)
    if request.is_list:
        msg = "a job file or a saved plan is shown; write one with casewright plan ... --json"
        raise InputError(msg, asked.job)
    job = read_request(request, quiet=asked.quiet)
    if prices is not None:
        prices.refuse_other_currency(job.head.currency)
    last = None if asked.fresh else last_plan_of(asked.job, job)
    if last is not None:
        if not asked.quiet:
            typer.echo(f"shown as kept in {last_path(asked.job)}; --fresh plans again", err=True)
        return last
    plan = checked_plan(job, limits)
    if works(plan) and not limits.stopper.stopped:
        keep_last(plan, asked.job, quiet=asked.quiet)
    return plan


def _open(path: str) -> None:
    """Open the page in the browser; say so where there is none."""
    if not webbrowser.open(Path(path).resolve().as_uri()):
        typer.echo(f"casewright: no browser was found; open {path} by hand", err=True)
