"""The words of --thickness: a measured thickness, with the name of its material or without."""

from __future__ import annotations

from collections.abc import Sequence

from solver.errors import InputError
from solver.job import Job
from solver.units import Ticks, parse_length

OPTION = "--thickness"


def thicknesses(job: Job, words: Sequence[str]) -> dict[str, Ticks]:
    """Return the measured thickness of each material named, by name [tick]."""
    found: dict[str, Ticks] = {}
    for text in words:
        named, sign, length = text.rpartition("=")
        name = named.strip() if sign else _only(job, text)
        if name in found:
            msg = f"the thickness of {name!r} is given twice; keep one of them"
            raise InputError(msg, OPTION)
        _check_known(job, name)
        try:
            found[name] = parse_length(length, job.unit)
        except InputError as error:
            raise InputError(error.message, OPTION) from None
        if not found[name]:
            msg = f"{text!r}: a board has some thickness; give what the calipers say"
            raise InputError(msg, OPTION)
    return found


def _check_known(job: Job, name: str) -> None:
    known = dict.fromkeys(sheet.material for sheet in job.sheets)
    if name not in known:
        msg = f"{name!r} is no material of the job; allowed: {', '.join(map(repr, known))}"
        raise InputError(msg, OPTION)


def _only(job: Job, text: str) -> str:
    """The material that a thickness without a name is of: the one open, or that of all cases."""
    from solver.thickness import bands

    still_open = list(bands(job))
    carcass = list(dict.fromkeys(case.material for case in job.cases))
    for names in (still_open, carcass):
        if len(names) == 1:
            return names[0]
    msg = (
        f"{text!r}: say of which material, such as {(still_open or carcass)[0]!r}={text}; "
        f"there are {', '.join(map(repr, still_open or carcass))}"
    )
    raise InputError(msg, OPTION)
