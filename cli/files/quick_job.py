"""The quick form: a pasted list, the sizes of one case, and a few words; no job file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel, ValidationError

from cli.files.job_key_errors import nearest
from cli.files.job_value_errors import faults_of
from solver.errors import InputError, LengthError, ManyInputsError
from solver.intake.load import load
from solver.job.case import SHELVES_MOST, Case
from solver.job.job import Head, Job, Look, Shop
from solver.listing.line_readings import Listing
from solver.units import TICKS_PER_MM, Ticks, Unit, parse_length

_TRIPLES: dict[Unit, tuple[str, str]] = {
    "in": ("25-1/2x71x7", "25-1/2x71"),
    "mm": ("650x1800x180", "650x1800"),
}


def triple_forms(unit: Unit) -> str:
    """Return forms that work for the size of a case, in the unit of the job."""
    whole, flat = _TRIPLES[unit]
    return f"{whole} (width x height x depth), or {flat} to leave the depth open"


SHELF_FORMS = "4, or 4,5 for either, or 4-6 for a range"
CASE_NAME = "case"
_TABLES: Mapping[str, type[BaseModel]] = {"look": Look, "shop": Shop, "case": Case, "job": Head}
_JOINT = re.compile(r"\s*(?:[x×X*]|\bby\b)\s*")
_SIDES = ("width", "height", "depth")


def parse_triple(text: str, unit: Unit) -> tuple[Ticks, Ticks, Ticks | None]:
    """Read the sizes of a case.

    Parameters
    ----------
    text
        Width x height x depth, such as ``25-1/2x71x7``; the depth may be left out. A unit
        word after the last size holds for all that have none [text].
    unit
        The unit of a size without one: "in" or "mm" [-].

    Returns
    -------
    tuple
        Width, height, and depth or None [tick].
    """
    words = _JOINT.split(text.strip())
    last = re.search(r"\s*(mm|cm|m|in|inch|inches)\.?$", words[-1], re.IGNORECASE)
    if last and len(words) > 1:
        words = [w if re.search(r"[a-z\"'″′]", w, re.I) else f"{w} {last[1]}" for w in words]
    if len(words) not in (2, 3):
        msg = f"{text!r} is not the size of a case; forms that work: {triple_forms(unit)}"
        raise LengthError(msg)
    sizes = [_size(word, side, text, unit) for word, side in zip(words, _SIDES, strict=False)]
    return sizes[0], sizes[1], sizes[2] if len(sizes) == 3 else None


def _size(word: str, side: str, text: str, unit: Unit) -> Ticks:
    try:
        return parse_length(word, unit)
    except LengthError as error:
        msg = f"{side} in {text!r}: {error.message}"
        raise LengthError(msg) from None


def parse_shelves(text: str) -> int | list[int] | dict[str, int]:
    """Read shelf counts as a job file has them: ``4``, ``4,5`` or ``4-6``.

    Returns a number, a list, or a table with least and most [-]. They count the boards
    between the lowest board and the top.
    """
    plain = re.sub(r"\s+", " ", text.strip().replace("–", "-"))
    span = re.fullmatch(r"(\d+) ?(?:-|to|\.\.) ?(\d+)", plain)
    words = [span[1], span[2]] if span else re.split(r" ?(?:,|or|/) ?", plain)
    if not all(re.fullmatch(r"\d{1,3}", word) and int(word) <= SHELVES_MOST for word in words):
        msg = f"shelves {text!r} are not counts from 0 to {SHELVES_MOST}; write {SHELF_FORMS}"
        raise InputError(msg)
    counts = [int(word) for word in words]
    if span:
        if counts[0] > counts[1]:
            msg = f"shelves {text!r}: the first count is the larger; write {counts[1]}-{counts[0]}"
            raise InputError(msg)
        return {"least": counts[0], "most": counts[1]}
    return counts[0] if len(counts) == 1 else sorted(set(counts))


def quick_job(
    listing: Listing,
    *,
    inside: str | None = None,
    outside: str | None = None,
    opening: str | None = None,
    shelves: str | None = None,
    unit: Unit,
    overrides: Mapping[str, Any] | None = None,
) -> Job:
    """Make a job of one plain case from a list and a few words of the command line.

    Parameters
    ----------
    listing
        The things, as read.
    inside, outside, opening
        The case's sizes, or those of the alcove or niche that it is built into, one of the
        three, such as ``25-1/2x71x7`` [text].
    shelves
        Shelf counts, such as ``4,5``; left out, the default [text].
    unit
        "in" or "mm" [-].
    overrides
        Further keys of the job file by name, such as ``headroom`` or ``rhythm``; None
        leaves the default.

    Returns
    -------
    Job
        The job with defaults filled in.
    """
    listing.raise_if_unreadable()
    case = _case({"inside": inside, "outside": outside, "opening": opening}, shelves, unit)
    data: dict[str, Any] = {"job": {"unit": unit}, "case": [case], "look": {}, "shop": {}}
    if opening is not None:
        data["doorway"] = [_built_into(case)]
    for key, value in (overrides or {}).items():
        if value is not None:
            table = _table_of(key)
            (case if table == "case" else data[table])[key] = value
    data["item"] = list(listing.items)
    try:
        return load(data, unit)
    except ValidationError as error:
        raise _as_options(error, data) from None


def _case(given: Mapping[str, str | None], shelves: str | None, unit: Unit) -> dict[str, Any]:
    sizes = {key: text for key, text in given.items() if text is not None}
    if len(sizes) != 1:
        msg = (
            "give the case's size once, with --inside or --outside, or --opening for the alcove "
            f"that it is built into, such as {triple_forms(unit)}"
        )
        raise InputError(msg)
    ((key, text),) = sizes.items()
    width, height, depth = parse_triple(text, unit)
    case: dict[str, Any] = {
        "name": CASE_NAME,
        "sizes": "inside" if key == "inside" else "outside",
        "width": _exact(width),
        "height": _exact(height),
    }
    if depth is not None:
        case["depth"] = _exact(depth)
    if shelves is not None:
        case["shelves"] = parse_shelves(shelves)
    return case


OPENING_NAME = "opening"


def _built_into(case: dict[str, Any]) -> dict[str, Any]:
    """Make a case built in, its width and height left to the opening, whose table is returned."""
    door = {"name": OPENING_NAME, "widths": [case.pop("width")], "heights": [case.pop("height")]}
    if "depth" in case:
        door["jamb_depth"] = case["depth"]
    case.update(kind="built-in", doorway=OPENING_NAME)
    return door


def _exact(ticks: Ticks) -> str:
    """A length as a text that is read back to the same tick, whatever the job's unit."""
    return f"{Decimal(ticks) / TICKS_PER_MM:f} mm"


def _table_of(key: str) -> str:
    for table, model in _TABLES.items():
        if key in model.model_fields:
            return table
    known = [field for model in _TABLES.values() for field in model.model_fields]
    close = nearest(key, known)
    msg = f"{key!r} is no key of a job file" + (f"; did you mean {close}?" if close else "")
    raise InputError(msg)


def _as_options(error: ValidationError, data: Mapping[str, Any]) -> InputError:
    """Turn faults into errors that name the key only: there is no file to point into."""
    errors = []
    for fault in faults_of(error, data):
        key = fault.spot[-1] if fault.spot and isinstance(fault.spot[-1], str) else None
        errors.append(InputError(fault.message, str(key) if key else None))
    return errors[0] if len(errors) == 1 else ManyInputsError(errors)
