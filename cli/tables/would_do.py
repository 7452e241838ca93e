"""Changes that would let everything fit, a line each, the smallest first."""

from __future__ import annotations

from solver.plan import Change

LENGTHS = ("headroom", "gap", "end margin", "height", "width", "depth", "several")


def would_do(change: Change) -> str:
    """Return `would do: 3/8 in more height (proven least)`."""
    text = f"would do: {change.text}"
    if not change.proven:
        return text
    if change.what in LENGTHS:
        return f"{text} (proven least)"
    return f"{text} (proven fewest)" if change.what == "leave out" else text
