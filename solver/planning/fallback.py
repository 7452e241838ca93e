"""Fallback where the user stops before the first layout: one is still sought for a little."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from solver.outcome import Limits, Progress
from solver.sizing.combinations import Counts

GRACE = 10.0
"""How long somebody who stops early waits at most for the first layout [s]."""
T = TypeVar("T")


def first_layout(
    counts: Sequence[Counts],
    limits: Limits,
    progress: Progress | None,
    attempt: Callable[[Counts, Limits], T | None],
) -> tuple[int, T] | None:
    """Return the first combination that comes to anything within :data:`GRACE`, and what it is.

    What is left of that is shared by those not tried yet, so that a hard one does not take it all.

    `attempt` tries one combination with limits that have seconds of grace, and returns None where
    nothing came of it.
    """
    if progress is not None:
        progress(f"stopped before the first layout, which is looked for now, {GRACE:.0f} s at most")
    end = time.monotonic() + GRACE
    for number, one in enumerate(counts):
        left = (end - time.monotonic()) / (len(counts) - number)
        if left <= 0:
            break
        result = attempt(one, replace(limits, grace=left))
        if result is not None:
            return number, result
    return None
