"""Width and height of cases that leave them to their doorway, filled in before validation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from pydantic import ValidationError

from solver.carcass.outline import boards_added
from solver.intake.check_job import check_sizes
from solver.intake.sizes_from_place import sizes_from_place
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.units import TICKS_PER_MM, Ticks

SIDES = ("width", "height")
_TRIAL_SHARE = 4, 5
"""Sizes tried while the true ones are worked out, as a share of the opening."""


def with_sizes_of_place(
    data: dict[str, Any], written: Sequence[Any], context: Mapping[str, Any] | None
) -> dict[str, Any]:
    """Fill in the sizes that cases leave to their doorway.

    Parameters
    ----------
    data
        The raw job with its defaults.
    written
        The cases as the user wrote them.
    context
        That of the validation: the unit of plain numbers.

    Returns
    -------
    dict
        The raw job with whole sizes. Where anything else is wrong with it, sizes that are sure
        to fit stand in, so that only the true faults are reported.
    """
    left = {at: _left_out(one) for at, one in enumerate(written) if _left_out(one)}
    doors = _doorways(data, context)
    left = {at: sides for at, sides in left.items() if data["case"][at].get("doorway") in doors}
    left = _without_shared_widths(written, left)
    if not left:
        return data
    trial = _with_sizes(data, {at: _trial_sizes(data["case"][at], doors, left[at]) for at in left})
    try:
        job = Job.model_validate(trial, context=context)
        check_sizes(job)
    except ValueError:
        return trial
    return _with_sizes(data, {at: _sizes_of_place(job, at, written[at], left[at]) for at in left})


def _left_out(case: Any) -> tuple[str, ...]:
    if not isinstance(case, dict) or "doorway" not in case:
        return ()
    return tuple(side for side in SIDES if side not in case)


def _without_shared_widths(
    written: Sequence[Any], left: dict[int, tuple[str, ...]]
) -> dict[int, tuple[str, ...]]:
    """Two cases of one doorway cannot both take their width from it; one must be given."""
    wide = [written[at]["doorway"] for at, sides in left.items() if "width" in sides]
    unshared = {
        at: tuple(s for s in sides if s != "width" or wide.count(written[at]["doorway"]) < 2)
        for at, sides in left.items()
    }
    return {at: sides for at, sides in unshared.items() if sides}


def _doorways(data: dict[str, Any], context: Mapping[str, Any] | None) -> dict[Any, Doorway]:
    """The doorways that can be read."""
    readable = {}
    for one in data.get("doorway", ()):
        try:
            door = Doorway.model_validate(one, context=dict(context or {}))
        except ValidationError:
            continue
        readable[door.name] = door
    return readable


def _with_sizes(data: dict[str, Any], changes: Mapping[int, dict[str, Any]]) -> dict[str, Any]:
    cases = [{**one, **changes.get(at, {})} for at, one in enumerate(data["case"])]
    return {**data, "case": cases}


def _trial_sizes(case: Any, doors: Mapping[Any, Doorway], sides: Sequence[str]) -> dict[str, Any]:
    door, (part, of) = doors[case["doorway"]], _TRIAL_SHARE
    opening = {"width": door.clear_width, "height": door.clear_height}
    return {side: _in_mm(opening[side] * part // of) for side in sides}


def _sizes_of_place(job: Job, at: int, written: Any, sides: Sequence[str]) -> dict[str, Any]:
    case = job.cases[at]
    place = sizes_from_place(job, case)
    across, up = boards_added(job, case)
    each = {"width": place.width.size - across, "height": place.height.size - up}
    given = {side: _in_mm(max(each[side], TICKS_PER_MM)) for side in sides}
    if "height" in sides and "above_floor" not in written:
        given["above_floor"] = _in_mm(place.above_floor)
    return given


def _in_mm(length: Ticks) -> str:
    return f"{Decimal(length) / TICKS_PER_MM} mm"
