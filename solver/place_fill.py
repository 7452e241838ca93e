"""Cases that leave their width or height to the doorway get it from there, before validation."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from solver.carcass.sizes import boards_added
from solver.doorway import Doorway
from solver.units import TICKS_PER_MM, Ticks

if TYPE_CHECKING:
    from solver.job import Job

SIDES = ("width", "height")
_TRIED = 4, 5
"""Sizes tried while the true ones are worked out, as a share of the opening."""


def placed(
    data: dict[str, Any],
    said: Sequence[Any],
    context: Mapping[str, Any] | None,
    validate: Callable[[dict[str, Any]], Job],
) -> dict[str, Any]:
    """Fill in the sizes that cases leave to their doorway.

    Parameters
    ----------
    data
        The raw job with its defaults.
    said
        The cases as the user wrote them.
    context
        That of the validation: the unit of plain numbers.
    validate
        Makes a job of a raw one; it is tried with sizes that are sure to fit.

    Returns
    -------
    dict
        The raw job with whole sizes. Where anything else is wrong with it, sizes that are sure
        to fit stand in, so that only the true faults are told.
    """
    left = {at: _left_out(one) for at, one in enumerate(said) if _left_out(one)}
    doors = _doorways(data, context)
    left = {at: sides for at, sides in left.items() if data["case"][at].get("doorway") in doors}
    left = _unshared(said, left)
    if not left:
        return data
    tried = _with(data, {at: _trial(data["case"][at], doors, left[at]) for at in left})
    try:
        job = validate(tried)
    except ValidationError:
        return tried
    return _with(data, {at: _resolved(job, at, said[at], left[at]) for at in left})


def _left_out(case: Any) -> tuple[str, ...]:
    if not isinstance(case, dict) or "doorway" not in case:
        return ()
    return tuple(side for side in SIDES if side not in case)


def _unshared(said: Sequence[Any], left: dict[int, tuple[str, ...]]) -> dict[int, tuple[str, ...]]:
    """Two cases of one doorway cannot both take their width from it; one must be given."""
    wide = [said[at]["doorway"] for at, sides in left.items() if "width" in sides]
    kept = {
        at: tuple(s for s in sides if s != "width" or wide.count(said[at]["doorway"]) < 2)
        for at, sides in left.items()
    }
    return {at: sides for at, sides in kept.items() if sides}


def _doorways(data: dict[str, Any], context: Mapping[str, Any] | None) -> dict[Any, Doorway]:
    """The doorways that can be read."""
    found = {}
    for one in data.get("doorway", ()):
        try:
            door = Doorway.model_validate(one, context=dict(context or {}))
        except ValidationError:
            continue
        found[door.name] = door
    return found


def _with(data: dict[str, Any], changes: Mapping[int, dict[str, Any]]) -> dict[str, Any]:
    cases = [{**one, **changes.get(at, {})} for at, one in enumerate(data["case"])]
    return {**data, "case": cases}


def _trial(case: Any, doors: Mapping[Any, Doorway], sides: Sequence[str]) -> dict[str, Any]:
    door, (part, of) = doors[case["doorway"]], _TRIED
    opening = {"width": door.clear_width, "height": door.clear_height}
    return {side: _text(opening[side] * part // of) for side in sides}


def _resolved(job: Job, at: int, said: Any, sides: Sequence[str]) -> dict[str, Any]:
    from solver.place import sizes  # it needs Job, which needs this module

    case = job.cases[at]
    found = sizes(job, case)
    across, up = boards_added(job, case)
    each = {"width": found.width.size - across, "height": found.height.size - up}
    made = {side: _text(max(each[side], TICKS_PER_MM)) for side in sides}
    if "height" in sides and "above_floor" not in said:
        made["above_floor"] = _text(found.above_floor)
    return made


def _text(length: Ticks) -> str:
    return f"{Decimal(length) / TICKS_PER_MM} mm"
