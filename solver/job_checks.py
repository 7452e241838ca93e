"""Names that must be known, and known once, in a job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from solver.case import Case

if TYPE_CHECKING:
    from solver.job import Job


def check_unique(table: str, names: list[str]) -> None:
    """Raise ValueError where a name of a table is given twice."""
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        msg = f"[[{table}]] names must differ; given twice: {', '.join(map(repr, twice))}"
        raise ValueError(msg)


def check_known(what: str, name: str, known: set[str]) -> None:
    """Raise ValueError where a name is not among those known."""
    if name not in known:
        allowed = ", ".join(map(repr, sorted(known))) or "none is listed"
        msg = f"{what} = {name!r} is not in the job; allowed: {allowed}"
        raise ValueError(msg)


def check_lip(job: Job, case: Case) -> None:
    """Raise ValueError where a lip's moulding is not known or does not cover the edge."""
    assert case.lip is not None
    check_known(
        f"case {case.name!r} lip.moulding", case.lip.moulding, {m.name for m in job.mouldings}
    )
    most = job.moulding(case.lip.moulding).width - job.thickness(case.material)
    if not 0 <= case.lip.above <= most:
        msg = (
            f"case {case.name!r} lip.above: the moulding must cover the shelf's edge; "
            f"its width must be the shelf's thickness and what stands above, or more"
        )
        raise ValueError(msg)
