"""The words of --hold: a shelf at a mark, some of a kind of thing in an opening, or none there."""

from __future__ import annotations

import re
from collections.abc import Container, Mapping, Sequence
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError

from cli.files.job_value_errors import whole_range
from solver.errors import InputError, message_of
from solver.job.holds import Hold
from solver.job.job import Job
from solver.units import TICKS_PER_MM, Ticks, Unit, format_length, parse_length

FORMS = (
    "forms that work: alcove:shelf2=31-1/2, alcove/2:shelf2=31-1/2 for its second bay, "
    "shelf2=31-1/2 where there is one case, 'mantel clock=opening 3', "
    "'2 x mantel clock=alcove/2:opening 3', 'mantel clock=opening 3 place 1' for the place at the "
    "left, 'alcove:opening 3=empty'"
)
_PLACE = r"(?:(?P<case>.+?)(?:/(?P<bay>\d+))?\s*:\s*)?"
_SHELF = re.compile(_PLACE + r"shelf\s*(?P<shelf>\d+)", re.IGNORECASE)
_OPENING = re.compile(
    _PLACE + r"opening\s*(?P<opening>\d+)(?:\s*,?\s*place\s*(?P<place>\d+))?", re.IGNORECASE
)
_COUNT = re.compile(r"(?P<count>\d+)\s*[x×]\s+(?P<item>.+)", re.IGNORECASE)


def with_holds(job: Job, words: Sequence[str]) -> Job:
    """Return the job with the holds of the command line beside those of the file.

    A hold of the command line takes the place of one of the file about the same shelf or
    kind of thing, and goes last.
    """
    if not words:
        return job
    data: dict[str, Any] = job.model_dump(by_alias=True)
    new = [hold_of(job, text) for text in words]
    subjects = [_subject(_in_range(one, text)) for one, text in zip(new, words, strict=True)]
    others = [one for one in data.get("hold", ()) if _subject(one) not in subjects]
    return validated_job({**data, "hold": [*others, *new]}, "--hold")


def validated_job(data: dict[str, Any], option: str) -> Job:
    """Validate a job changed by the command line; what is wrong is a fault of that option."""
    from pydantic import ValidationError

    from solver.intake.load import load

    try:
        return load(data)
    except ValidationError as error:
        reasons = [message_of(fault) for fault in error.errors()]
        raise InputError("; ".join(dict.fromkeys(reasons)), option) from None


def hold_of(job: Job, text: str) -> dict[str, Any]:
    """Read one hold; the keys are those of [[hold]], lengths are ticks."""
    subject, sign, value = text.rpartition("=")
    if not sign or not subject.strip() or not value.strip():
        raise _not_understood(text)
    opening = _OPENING.fullmatch(value.strip())
    if opening:
        numbers = {key: _number(opening[key]) for key in ("opening", "place")}
        return _without_gaps({**_things(job, subject.strip()), **_where(opening), **numbers})
    empty = _OPENING.fullmatch(subject.strip()) if value.strip().lower() == "empty" else None
    if empty and not empty["place"]:
        where = _where_of_case(job, empty, text)
        return _without_gaps({**where, "opening": int(empty["opening"]), "empty": True})
    shelf = _SHELF.fullmatch(subject.strip())
    if not shelf:
        raise _not_understood(text)
    where = _where_of_case(job, shelf, text)
    try:
        mark = parse_length(value, job.unit)
    except InputError as error:
        raise InputError(error.message, f"--hold {text}") from None
    return _without_gaps({**where, "shelf": int(shelf["shelf"]), "mark": mark})


def hold_text(hold: Hold, unit: Unit) -> str:
    """Write a hold as --hold reads it, exactly; `unit` is that of the job."""
    where = "" if hold.case is None else f"{hold.case}{f'/{hold.bay}' if hold.bay else ''}:"
    if hold.mark is not None:
        return f"{where}shelf{hold.shelf}={_exactly(hold.mark, unit)}"
    if hold.empty:
        return f"{where}opening {hold.opening}=empty"
    many = "" if hold.count is None else f"{hold.count} x "
    place = "" if hold.place is None else f" place {hold.place}"
    return f"{many}{hold.item}={where}opening {hold.opening}{place}"


def _exactly(ticks: Ticks, unit: Unit) -> str:
    """A length that is read as the same ticks: as printed where that is exact, else in mm."""
    shown = format_length(ticks, unit)
    if shown[-1] in "+−":
        return f"{Decimal(ticks) / TICKS_PER_MM:f} mm"
    return shown


def _not_understood(text: str) -> InputError:
    return InputError(f"{text!r} is not understood; {FORMS}", "--hold")


def _where(found: re.Match[str]) -> dict[str, Any]:
    return {"case": found["case"], "bay": _number(found["bay"])}


def _number(text: str | None) -> int | None:
    return None if text is None else int(text)


def _where_of_case(job: Job, found: re.Match[str], text: str) -> dict[str, Any]:
    """Case and bay; the only case where none is named, InputError where there are several."""
    where = _where(found)
    if where["case"] is None and len(job.cases) == 1:
        where["case"] = job.cases[0].name
    if where["case"] is None:
        names = ", ".join(repr(case.name) for case in job.cases)
        what = found[0].strip().replace(" ", "")
        msg = f"{text!r}: say of which case, such as {job.cases[0].name}:{what}; cases: {names}"
        raise InputError(msg, "--hold")
    return where


def _things(job: Job, words: str) -> dict[str, Any]:
    """The kind, and how many where that is said; a kind whose name begins so is meant itself."""
    names = {item.name.casefold(): item.name for item in job.items}
    match = _COUNT.fullmatch(words)
    if words.casefold() not in names and match:
        return {"item": _named(match["item"], names), "count": int(match["count"])}
    return {"item": _named(words, names)}


def _named(word: str, names: Mapping[str, str]) -> str:
    """The kind of that name; InputError with the nearest one where there is none."""
    if word.casefold() in names:
        return names[word.casefold()]
    close = get_close_matches(word.casefold(), names, n=1)
    meant = f"did you mean {names[close[0]]!r}? " if close else ""
    msg = f"{word!r} is not in the job; {meant}its things: {', '.join(map(repr, names.values()))}"
    raise InputError(msg, "--hold")


def _without_gaps(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if value is not None}


def _in_range(hold: dict[str, Any], text: str) -> dict[str, Any]:
    """Return the hold; InputError where a number of it can be in no job."""
    try:
        Hold.model_validate(hold)
    except ValidationError as error:
        key = str(error.errors()[0]["loc"][0])
        allowed = "a length above 0" if key == "mark" else whole_range("hold", key)
        msg = f"{text!r}: {key} {hold[key]} is given; allowed: {allowed}"
        raise InputError(msg, "--hold") from None
    return hold


def _subject(hold: dict[str, Any]) -> tuple[Any, ...]:
    """What a hold is about, as :attr:`solver.job.holds.Hold.subject` tells it."""
    return Hold.model_validate(hold).subject


SOME_OF_A_KIND = re.compile(r"(?P<count>\d+)\s*[x×]\s*(?P<name>\D.*)", re.IGNORECASE)


def kind_and_count(text: str, names: Container[str]) -> tuple[str | None, int | None]:
    """Return the name that is meant, in small letters, and the number before it, if any.

    `names` are the known ones in small letters; a name that itself begins with a number
    goes first. (None, None) where no known name is meant.
    """
    words = text.strip().casefold()
    if words in names:
        return words, None
    match = SOME_OF_A_KIND.fullmatch(words)
    if match and match["name"].strip() in names:
        return match["name"].strip(), int(match["count"])
    return None, None
