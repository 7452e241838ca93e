"""Terms of the trade that differ between an inch job and a metric one."""

from __future__ import annotations

from solver.units import Unit

_METRIC = {
    "baseboard": "skirting board",
    "casing": "architrave",
    "dado": "housing",
    "lip": "lipping",
    "rabbet": "rebate",
    "shim": "packer",
    "strike": "keep",
    "toe": "plinth",
}
"""Terms of an inch job and what they are called in a metric one; others are the same in both."""


def word(term: str, unit: Unit) -> str:
    """Return a term of the trade as it is called in a job of that unit."""
    return _METRIC.get(term, term) if unit == "mm" else term
