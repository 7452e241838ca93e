"""What two jobs ask for differently, in words: walked field by field, lists by their names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from solver.job import Job
from solver.quantities import mass_keys
from solver.signed import JobChange
from solver.units import TICKS_PER_MM, Unit, format_mass, with_unit

PASSED_OVER = ("have",)
"""What is there already is no change of the order."""
MASSES = mass_keys(Job)
"""Keys that hold grams [g]."""


def asked_otherwise(before: Job, after: Job) -> tuple[JobChange, ...]:
    """Return every field of the job that differs, in the order of the job file."""
    old, new = _dumped(before), _dumped(after)
    return tuple(
        JobChange(
            where=where, what=what, before=_said(was, after.unit), after=_said(now, after.unit)
        )
        for table in dict.fromkeys((*new, *old))
        if table not in PASSED_OVER
        for where, what, was, now in _table(table, old.get(table), new.get(table))
    )


def _dumped(job: Job) -> dict[str, Any]:
    """The job as plain data; lengths stay ticks but are told from counts."""
    ticks = job.model_dump(mode="python", by_alias=True)
    shown = job.model_dump(mode="json", by_alias=True)
    marked: dict[str, Any] = _marked("", ticks, shown)
    return marked


def _marked(key: str, ticks: Any, shown: Any) -> Any:
    """Return `ticks` with each length, which JSON has in millimetres, marked as one."""
    if isinstance(shown, dict):
        return {name: _marked(name, ticks[name], shown[name]) for name in shown}
    if isinstance(shown, list):
        return [_marked(key, a, b) for a, b in zip(ticks, shown, strict=True)]
    if key in MASSES and isinstance(ticks, int):
        return ("mass", ticks)
    length = type(ticks) is int and isinstance(shown, int | float) and ticks != shown
    return ("length", ticks) if length and round(shown * TICKS_PER_MM) == ticks else shown


def _table(table: str, was: Any, now: Any) -> Iterator[tuple[str, str, Any, Any]]:
    """Yield what differs in one table, or in each entry of a list of tables by its name."""
    if not _named(was) and not _named(now):
        yield from ((table, what, a, b) for what, a, b in _fields("", was, now))
        return
    old, new = ({one["name"]: one for one in some or ()} for some in (was, now))
    for name in dict.fromkeys((*old, *new)):
        where = f"{table} {name!r}"
        if name not in new or name not in old:
            yield where, "", old.get(name), new.get(name)
            continue
        yield from ((where, what, a, b) for what, a, b in _fields("", old[name], new[name]))


def _named(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, dict) and "name" in one for one in value)


def _fields(path: str, was: Any, now: Any) -> Iterator[tuple[str, Any, Any]]:
    if was == now:
        return
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*was, *now)):
            deeper = f"{path}, {key}" if path else key
            yield from _fields(deeper.replace("_", " "), was.get(key), now.get(key))
        return
    yield path, was, now


def _said(value: Any, unit: Unit) -> str:
    """Return a value in words; nothing for None."""
    if value is None:
        return ""
    if isinstance(value, tuple) and value[0] == "length":
        return with_unit(value[1], unit)
    if isinstance(value, tuple):
        return format_mass(value[1], unit)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_said(one, unit) for one in value) or "none"
    if isinstance(value, dict):
        return _entry(value, unit)
    return str(value)


def _entry(value: Mapping[str, Any], unit: Unit) -> str:
    """Return a whole entry in words: its sizes first, and how many where that is said."""
    keys = ("width", "height", "depth") if "height" in value else ("length", "width")
    sizes = [_said(value[key], unit) for key in keys if value.get(key) is not None]
    count = value.get("count")
    times = f"{count} of " if isinstance(count, int) and sizes else ""
    if sizes and not any(isinstance(value[key], dict) for key in keys if key in value):
        return times + " x ".join(sizes)
    return ", ".join(f"{k.replace('_', ' ')} {_said(v, unit)}" for k, v in value.items() if v)
