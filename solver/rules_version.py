"""Which rules a file was made under, so that an old file is not taken for a spoiled one.

The version of the program does not tell, since rules are added between two versions. So every
answer carries a number of its own beside it.
"""

from __future__ import annotations

import re
from typing import Literal, TypeAlias

RULES = 5
"""Number of the rules that answers are made and checked by [-]; a file without a number has 1.
Raise it by one whenever a plan that passed the checker before may no longer pass, or may no
longer be read: with a new finding, or with a key that every plan must have."""

UNNUMBERED = 1
"""Number of the rules of a file that carries none [-]."""

Age: TypeAlias = Literal["older", "newer", "same"]


def age_of(version: str, rules: int, now: str) -> Age:
    """Say whether a file of that program `version` and `rules` is older than this program.

    `now` is the version of this program. The rules count first; where they are the same, the
    version does, as far as it is made of whole numbers.
    """
    if rules != RULES:
        return "older" if rules < RULES else "newer"
    theirs, ours = _numbers(version), _numbers(now)
    if theirs == ours or not theirs or not ours:
        return "same"
    return "older" if theirs < ours else "newer"


def _numbers(version: str) -> tuple[int, ...]:
    match = re.fullmatch(r"(\d{1,9}(?:\.\d{1,9})*).*", version)
    return tuple(int(one) for one in match[1].split(".")) if match else ()
