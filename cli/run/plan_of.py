"""The plan that a command shows or writes papers of: a saved one, the last one, or a new one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from cli.files.output import STDOUT, check_targets, write_answer, write_text
from cli.files.saved_answers import has_last, read_last
from cli.run.plan_pipeline import checked_plan
from cli.run.plan_request import read_job_aloud
from solver.carcass.thickness_band import as_measured
from solver.errors import CannotBeDoneError, InputError
from solver.job.job import Job
from solver.job.price_terms import PriceList
from solver.outcome import Limits
from solver.plan.plan import Option, Plan


def plan_of(path: str, seconds: float, prices: PriceList | None = None) -> Plan:
    """Read a plan (.json), or the job's last one where it is of this job; else plan the job.

    What only [price] says differently needs no new plan: nothing in it follows from that.

    Parameters
    ----------
    path
        A job file, or a plan as written by ``casewright plan --json``.
    seconds
        Limit of the planning, where that is needed [s].
    prices
        What the plan will be priced with, so that a list that cannot be used is told before
        the planning.

    Raises
    ------
    InputError
        Where the file is neither, the plan does not pass the checker, or the prices are in
        another currency.
    """
    if path.endswith(".json"):
        return saved_plan(path)
    job = read_job_aloud(path)
    if prices is not None:
        prices.refuse_other_currency(job.head.currency)
    last = last_plan_of(path, job)
    if last is not None:
        return last
    return checked_plan(job, Limits(seconds=seconds))


def saved_plan(path: str) -> Plan:
    """Read a saved plan; InputError where it is none, or the checker refuses it."""
    return read_last("", path)


def last_plan_of(path: str, job: Job) -> Plan | None:
    """Return the last plan kept beside a job file, where it is one of the job as it is now.

    What was held, measured and found there since is still of this job, and [price] decides
    nothing.
    """
    if not has_last(path):
        return None
    try:
        last = read_last(path, None)
    except InputError:
        return None  # of an older program, or changed by hand
    now = as_measured(job, last)
    if not all(hold in last.job.holds for hold in now.holds):
        return None
    if last.job.have[: len(now.have)] != now.have:
        return None
    now = now.model_copy(update={"holds": last.job.holds, "have": last.job.have})
    if now.have:
        from solver.sizing.on_hand_outcome import settled_by_on_hand

        now = settled_by_on_hand(now)[0]
    if _but_price(now) != _but_price(last.job):
        return None
    return last.model_copy(update={"job": now, "job_hash": now.hash})


def _but_price(job: Job) -> str:
    return job.model_copy(update={"price": None}).hash


def option_named(plan: Plan, name: str | None) -> Option:
    """Return the option of that name, left out the first with a layout.

    Raises InputError where there is no such option, CannotBeDoneError where there is no layout
    at all.
    """
    named = {option.name: option for option in plan.options if option.cases}
    if not named:
        msg = "there is no layout of this job; casewright plan says why and what would do"
        raise CannotBeDoneError(msg)
    if name is None:
        return next(iter(named.values()))
    if name not in named:
        msg = f"{name!r} is no option with a layout; allowed: {', '.join(map(repr, named))}"
        raise InputError(msg, "--option")
    return named[name]


@dataclass(frozen=True)
class OptionRequest:
    """One option of a plan that is asked for, and where what is worked out of it goes.

    Attributes
    ----------
    job, option
        A job file or a plan, and the name of its option; None: the recommended one.
    seconds
        Limit of the planning, where that is needed [s].
    json, csv
        Files to write, None: not wanted; ``-`` is standard output.
    force
        Whether existing files may be replaced.
    """

    job: str
    option: str | None
    seconds: float
    json: str | None = None
    csv: str | None = None
    force: bool = False

    def read(self, prices: PriceList | None = None) -> tuple[Plan, Option]:
        """Return the plan and its option, after the targets are checked."""
        check_targets(self.json, self.csv, force=self.force)
        plan = plan_of(self.job, self.seconds, prices)
        return plan, option_named(plan, self.option)

    def deliver(
        self,
        kind: str,
        plan: Plan,
        data: Callable[[], Mapping[str, object]],
        show: Callable[[], None],
        table: Callable[[], str] = str,
    ) -> None:
        """Write the answer of its `kind` as JSON, and its `table` as CSV, as wanted; show it.

        Nothing is shown where standard output is for a file alone.
        """
        if self.json is not None:
            answer = {"job_hash": plan.job_hash, **data()}
            write_answer(self.json, kind, plan.unit, answer, force=self.force)
        if self.csv is not None:
            write_text(self.csv, table(), force=self.force)
        if STDOUT not in (self.json, self.csv):
            show()
