"""What all jobs of a batch must have in common: one saw cuts all sheets, one purse pays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from solver.errors import InputError, ManyInputsError
from solver.intake.load import load
from solver.job.job import Job
from solver.units import Ticks, Unit, with_unit

LENGTHS = ("kerf", "edge_trim", "margin")
WORDS = ("stages", "trimming", "first_cut", "saws", "place")
LIMITS = (
    "mitre_capacity",
    "sled_capacity",
    "least_rip",
    "least_length",
    "least_offcut",
    "longest_rip",
    "largest_panel",
)
"""Keys of [shop] that make the cuts; `cutting_step` concerns each job by itself."""
NAMES_MOST = 6
"""Jobs named for one value at most [-]."""


def agreed(
    jobs: Mapping[str, Job], given: Mapping[str, Ticks], shop_of: str | None = None
) -> dict[str, Job]:
    """Return the jobs with one [shop].

    Parameters
    ----------
    given
        Lengths of [shop] that hold for all jobs, whatever they say: kerf, edge_trim, margin [tick].
    shop_of
        Name of the job whose [shop] holds for all; None: they must be the same.

    Raises
    ------
    ManyInputsError
        With every key in which jobs differ, who says what, and what to do.
    """
    unit = next(iter(jobs.values())).unit
    if shop_of is not None and shop_of not in jobs:
        msg = f"--shop: {shop_of!r} is no job of the batch; allowed: {', '.join(jobs)}"
        raise InputError(msg)
    taken: dict[str, Any] = dict(given)
    if shop_of is not None:
        own = jobs[shop_of].shop
        taken = {**{key: getattr(own, key) for key in (*LENGTHS, *WORDS, *LIMITS)}, **taken}
    changed = {name: _with(job, taken) for name, job in jobs.items()}
    there = [
        InputError(
            f"{name}: [[have]] says what is there already; plan this job by itself, around that"
        )
        for name, job in jobs.items()
        if job.have
    ]
    errors = there + [
        error
        for key in ("currency", *LENGTHS, *WORDS, *LIMITS)
        if (error := _differing(changed, key, unit)) is not None
    ]
    if errors:
        raise ManyInputsError(errors, "the jobs cannot be cut together as they are:")
    return changed


def _with(job: Job, taken: Mapping[str, Any]) -> Job:
    if not taken:
        return job
    shop = job.shop.model_copy(update=dict(taken))
    return load({**job.model_dump(by_alias=True), "shop": shop.model_dump()})


def _value(job: Job, key: str) -> Any:
    return job.head.currency if key == "currency" else getattr(job.shop, key)


def _differing(jobs: Mapping[str, Job], key: str, unit: Unit) -> InputError | None:
    """Return the error of a key in which jobs differ."""
    values: dict[Any, list[str]] = {}
    for name, job in jobs.items():
        values.setdefault(_value(job, key), []).append(name)
    if len(values) < 2:
        return None
    told = "; ".join(f"{_shown(value, unit)} in {_some(names)}" for value, names in values.items())
    if key == "currency":
        return InputError(f"currency differs: {told}; prices must be in one currency")
    option = f"--{key.replace('_', '-')} or " if key in LENGTHS else ""
    return InputError(f"[shop] {key} differs: {told}; give {option}--shop JOB, or change a file")


def _shown(value: Any, unit: Unit) -> str:
    if isinstance(value, int):
        return with_unit(value, unit)
    if isinstance(value, tuple):
        return " x ".join(_shown(one, unit) for one in value)
    return "not set" if value is None else str(value)


def _some(names: list[str]) -> str:
    more = len(names) - NAMES_MOST
    return ", ".join(names[:NAMES_MOST]) + (f" and {more} more" if more > 0 else "")
