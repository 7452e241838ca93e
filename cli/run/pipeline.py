"""One pipeline for every command that decides something: decide, check, show, write.

Before it a command reads what is asked and checks its targets (`output.check_targets`), so that
nothing long is begun in vain.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import typer

from cli.files.output import reader_may_stop
from cli.run.faults import INTERRUPTED, FaultError, refused_text, reporting_faults, run_stoppable
from cli.screen.console import progress
from solver.errors import CannotBeDoneError, InterruptedPlanError
from solver.job.job import Job
from solver.outcome import Limits

A = TypeVar("A")
Tell = Callable[[str], None]
"""Takes a word about how far the search is."""


@dataclass(frozen=True)
class Steps(Generic[A]):
    """What a command does with its answer.

    Attributes
    ----------
    findings
        What the checker finds, a line each; anything at all refuses the answer.
    show
        Prints the answer; None: nothing is printed.
    write
        Writes the files.
    what
        The answer in words, for the message of an interrupted command.
    job_of
        The job in the answer, kept in a report where the checker refuses it.
    why_not
        Why the answer is not what was asked for, None where it is.
    is_empty
        Whether a stopped search has left nothing to show.
    keep
        Keeps an answer as the one to start from; not called where it is interrupted or
        not what was asked for.
    """

    findings: Callable[[A], Sequence[str]]
    show: Callable[[A], None] | None
    write: Callable[[A], None]
    what: str = "the best plan"
    job_of: Callable[[A], Job | None] = lambda _: None
    why_not: Callable[[A], str | None] = lambda _: None
    is_empty: Callable[[A], bool] = lambda _: False
    keep: Callable[[A], None] = lambda _: None


def deliver(job: Job | None, decide: Callable[[Tell], A], limits: Limits, steps: Steps[A]) -> A:
    """Decide, check, show and write; return the answer, or raise where it did not work out."""
    answer = run_decision(job, decide, limits)
    refuse_if_wrong(steps.job_of(answer), lambda: steps.findings(answer))
    show_and_write(answer, limits, steps)
    return answer


def run_decision(job: Job | None, decide: Callable[[Tell], A], limits: Limits) -> A:
    """Search where Ctrl-C can stop it, with its progress shown on a terminal.

    A fault in it is reported with the job, where there is a single one.
    """
    with reporting_faults(job), progress() as line:
        return run_stoppable(lambda: decide(line.tell), limits.stopper, line.show)


def refuse_if_wrong(job: Job | None, findings: Callable[[], Sequence[str]]) -> None:
    """Raise FaultError, with the job kept, where the checker finds anything at all."""
    with reporting_faults(job):
        wrong = list(findings())
    if wrong:
        raise FaultError(refused_text(job, wrong))


def show_and_write(answer: A, limits: Limits, steps: Steps[A]) -> None:
    """Show and write an answer that is checked, and end as the shell is to be told.

    A reader that stops reading does not stop the files.
    """
    stopped = limits.stopper.stopped
    if stopped and steps.is_empty(answer):
        msg = "stopped before any plan was found; nothing is written"
        raise InterruptedPlanError(msg)
    if steps.show is not None:
        with reader_may_stop():
            steps.show(answer)
    steps.write(answer)
    if stopped:
        typer.echo(f"casewright: stopped; this is {steps.what} so far", err=True)
        raise typer.Exit(INTERRUPTED)
    why = steps.why_not(answer)
    if why is not None:
        raise CannotBeDoneError(why)
    steps.keep(answer)
