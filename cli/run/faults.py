"""Faults of the program itself: the job is kept for the report, and no traceback is shown."""

from __future__ import annotations

import json
import tempfile
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cli.files.output import write_text
from cli.run.interrupt import came_of_interrupt
from solver.errors import CasewrightError, InputError, SelfCheckError

if TYPE_CHECKING:  # loaded by main, so that nothing heavy may be
    from solver.job.job import Job


class FaultError(SelfCheckError):
    """Something went wrong that no input should be able to cause."""


@contextmanager
def job_kept(job: Job | None) -> Iterator[None]:
    """Turn an unexpected exception inside into a FaultError, with the job kept in a file."""
    try:
        yield
    except CasewrightError:
        raise
    except Exception as error:
        if came_of_interrupt(error):
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
    kept = "the job is kept in" if job else "what happened is kept in"
    for folder in (Path(), Path(tempfile.gettempdir())):
        try:
            write_text(str(folder / name), text, force=True)
        except InputError:
            continue
        return f"{kept} {folder / name}; please report the fault with it"
    return "no report could be saved; please report the fault with your job file"
