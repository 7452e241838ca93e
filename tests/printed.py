"""Printed lengths read back, by the rule of the signs alone: not by what printed them."""

from __future__ import annotations

import re

from solver.errors import LengthError
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, parse_length

STEP = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM // 10}
"""Step to which lengths are printed [tick]."""
NUMBER = r"-?(?:\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
PRINTED = re.compile(rf"({NUMBER})([+−]?)(?: (?:in|mm))?")


def fault(text: str, ticks: Ticks, unit: Unit, *, exact: bool = False) -> str:
    """What is wrong with a text that is to say a length [tick]; nothing where it says it.

    It must be within half its step, a step's multiple, and followed by + or − exactly where
    the length is a little more or less; `exact`: by neither.
    """
    found = PRINTED.fullmatch(text)
    if found is None or ticks < 0:
        return f"{text!r} is no length"
    try:
        read = parse_length(found[1], unit)
    except LengthError as error:
        return str(error)
    rest = ticks - read
    if read % STEP[unit]:
        return f"{text!r} is not a whole number of steps"
    if 2 * abs(rest) > STEP[unit]:
        return f"{text!r} is {rest} ticks off"
    sign = "+" if rest > 0 else "−" if rest < 0 else ""
    if found[2] != sign:
        return f"{text!r} should end with {sign or 'no sign'}, being {rest} ticks off"
    return f"{text!r} is not exact" if exact and rest else ""


def faults(pairs: list[tuple[str, Ticks]], unit: Unit) -> list[str]:
    """All that is wrong with texts that are to say these lengths [tick]."""
    return [said for text, ticks in pairs if (said := fault(text, ticks, unit))]
