"""What ends a command early: Ctrl-C, and faults of the program itself.

The first Ctrl-C keeps the best plan so far, a second one ends the program at once. After a fault
the job is kept for the report, and no traceback is shown.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import tempfile
import threading
import traceback
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, Any, TypeVar

from cli.files.output import write_text
from solver.errors import CasewrightError, InputError, SelfCheckError
from solver.outcome import Stopper

if TYPE_CHECKING:
    from solver.job.job import Job

T = TypeVar("T")

INTERRUPTED = 130
"""Exit code of an interrupted command: 128 + SIGINT."""


@contextmanager
def stops_on_interrupt(stopper: Stopper) -> Iterator[None]:
    """Let Ctrl-C ask the searches to stop; the solver itself swallows the signal.

    The second Ctrl-C leaves without any clean-up: nothing is written while a
    search runs, and its threads would otherwise be waited for.
    """

    def handler(_signal: int, _frame: FrameType | None) -> None:
        if stopper.stopped:
            _show_cursor()
            os._exit(INTERRUPTED)
        stopper.stop()
        print("casewright: stopping; Ctrl-C again to leave at once", file=sys.stderr, flush=True)

    before = signal.signal(signal.SIGINT, handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def caused_by_interrupt(error: BaseException | None) -> bool:
    """Whether Ctrl-C is behind an error: a package that is being loaded makes another of it."""
    while error is not None:
        if isinstance(error, KeyboardInterrupt):
            return True
        error = error.__cause__ or error.__context__
    return False


def _show_cursor() -> None:
    """Bring back the cursor that a status line hides."""
    if sys.stderr.isatty():
        print("\x1b[?25h", file=sys.stderr, flush=True)


def run_stoppable(
    work: Callable[[], T], stopper: Stopper, meanwhile: Callable[[], None] = lambda: None
) -> T:
    """Run `work` in a thread of its own and return its result, or raise its error.

    The calling thread waits in short steps, so that the interrupt handler runs at
    once, and calls `meanwhile` ten times a second.
    """
    future: Future[T] = Future()
    thread = threading.Thread(target=_settle, args=(future, work), daemon=True)
    with stops_on_interrupt(stopper):
        thread.start()
        while thread.is_alive():
            thread.join(0.1)
            meanwhile()
    return future.result()


def _settle(future: Future[T], work: Callable[[], T]) -> None:
    try:
        future.set_result(work())
    except BaseException as error:
        future.set_exception(error)


class FaultError(SelfCheckError):
    """Something went wrong that no input should be able to cause."""


@contextmanager
def reporting_faults(job: Job | None) -> Iterator[None]:
    """Turn an unexpected exception inside into a FaultError, with the job kept in a file."""
    try:
        yield
    except CasewrightError:
        raise
    except Exception as error:
        if caused_by_interrupt(error):
            raise KeyboardInterrupt from error
        raise FaultError(fault_text(error, job)) from error


def fault_text(error: Exception, job: Job | None = None) -> str:
    """Return the message for an unexpected exception, after keeping a report of it."""
    what = f"a fault in Casewright: {type(error).__name__}: {error}".rstrip(": ")
    return f"{what}\n{keep_report(job, traceback.format_exception(error))}"


def refused_text(job: Job | None, findings: list[str]) -> str:
    """Return the message for a plan that the checker refused, after keeping a report of it."""
    first = "\n".join(findings[:5])
    more = f"\n… and {len(findings) - 5} more" if len(findings) > 5 else ""
    head = "a fault in Casewright: its own check refused the plan, so nothing is shown or written"
    return f"{head}\n{first}{more}\n{keep_report(job, findings)}"


def keep_report(job: Job | None, details: list[str]) -> str:
    """Save the job and the details in the current folder, else in the temporary one; say where."""
    data: dict[str, Any] = {
        "schema": "casewright/report/1",
        "job": job.model_dump(mode="json", by_alias=True) if job else None,
        "details": details,
    }
    name = f"casewright-report-{job.hash[:12] if job else 'nojob'}.json"
    text = json.dumps(data, ensure_ascii=False, indent=1) + "\n"
    what = "the job is kept in" if job else "what happened is kept in"
    for folder in (Path(), Path(tempfile.gettempdir())):
        try:
            write_text(str(folder / name), text, force=True)
        except InputError:
            continue
        return f"{what} {folder / name}; please report the fault with it"
    return "no report could be saved; please report the fault with your job file"
