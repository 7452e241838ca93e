"""Trim of any case: larger cases never take less moulding; both roads to a length agree."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.trim.moulding_pieces import trim_cuts
from solver.units import TICKS_PER_INCH, Ticks
from tests.trims import EVERY, trim_job

ANY = st.sampled_from([name for name, (kind, _) in EVERY.items() if kind != "hung"])


def cuts(name: str, wide: int, high: int, depth: int) -> dict[str, Ticks]:
    """Pieces of the job of that name with its case so much larger, in sixteenths [1/16 in]."""
    kind, trim = EVERY[name]
    job = trim_job(kind, trim, doorway={"widths": ["40"], "heights": ["90"]}, case=_sized(kind))
    step = TICKS_PER_INCH // 16
    case = job.cases[0]
    assert isinstance(case.width, int)
    assert isinstance(case.height, int)
    sized = case.model_copy(
        update={"width": case.width + wide * step, "height": case.height + high * step}
    )
    at = job.model_copy(update={"cases": (sized,)})
    found = trim_cuts(at, sized, (2,), 6 * TICKS_PER_INCH + depth * step)
    return {cut.id: cut.cut for cut in found}


def _sized(kind: str) -> dict[str, Any]:
    return {"width": "38-1/4", "height": "88-3/4"} if kind == "built-in" else {}


@given(
    name=ANY,
    wide=st.integers(0, 24),
    high=st.integers(0, 16),
    depth=st.integers(0, 60),
)
@settings(max_examples=80, deadline=None)
def test_the_same_parts_of_a_larger_case_are_no_shorter(
    name: str, wide: int, high: int, depth: int
) -> None:
    """The search for open sizes rests on this: the same parts, larger, never cost less."""
    small, large = cuts(name, 0, 0, 0), cuts(name, wide, high, depth)
    assert small.keys() == large.keys()
    assert all(large[ident] >= length for ident, length in small.items())
