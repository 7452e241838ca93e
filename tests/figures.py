"""Every figure of a plan, and the least change that makes another of it."""

from __future__ import annotations

import re
from typing import Any

WORDS = {
    "status": {"optimal": "feasible", "feasible": "optimal", "infeasible": "unknown"},
    "grain": {"length": "any", "any": "length"},
    "first_cut": {"rip": "crosscut", "crosscut": "rip"},
    "direction": {"rip": "crosscut", "crosscut": "rip"},
    "kind": {"trim": "rip", "rip": "crosscut", "crosscut": "rip", "wall": "standing"},
}
"""For words of which only some are allowed: another of them."""


def other(path: str, value: Any) -> Any:
    """A value of the same kind that differs by as little as can be."""
    word = WORDS.get(path.rpartition(".")[2])
    if isinstance(word, dict) and value in word:
        return word[value]
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return word or value + "x"
    return 1 if value is None else value + 1


def kind_of(path: str) -> str:
    """Return the path without the numbers of things in lists."""
    return re.sub(r"\.\d+", ".N", path.removeprefix("options.0."))
