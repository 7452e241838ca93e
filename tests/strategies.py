"""Tiny jobs for property tests: small enough to try everything, awkward enough to matter."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from solver.job.job import Job
from tests.builders import make_job

MOST_THINGS = 7
"""Most things of a tiny job, so that every share of them among the openings can be tried."""


def lengths(least: int, most: int, unit: str) -> st.SearchStrategy[str]:
    """Lengths in quarters of an inch from `least` to `most` in, or near them in 5 mm steps."""
    if unit == "in":
        return st.integers(4 * least, 4 * most).map(lambda n: f"{n // 4} {n % 4}/4 in")
    return st.integers(5 * least, 5 * most).map(lambda n: f"{5 * n} mm")


@st.composite
def things(
    draw: st.DrawFn, unit: str, *, stack: bool, may_lie: bool, group: bool
) -> list[dict[str, Any]]:
    """One to four kinds, at most seven things in all."""
    kinds: list[dict[str, Any]] = []
    left = MOST_THINGS
    for number in range(draw(st.integers(1, 4))):
        count = draw(st.integers(1, min(3, left)))
        left -= count
        kind = {
            "name": f"thing {number + 1}",
            "width": draw(lengths(3, 14, unit)),
            "height": draw(lengths(2, 13, unit)),
            "depth": draw(lengths(2, 8, unit)),
            "count": count,
        }
        optional = {
            "weight": st.sampled_from(["400 g", "2 kg", "9 kg"]),
            "gap": st.sampled_from(["0 mm", "1 in"]),
            "guessed": st.just(True),
        }
        if stack:
            optional["stack"] = st.integers(1, 3)
        if may_lie:
            optional["may_lie"] = st.booleans()
        if group:
            optional["group"] = st.sampled_from(["one", "two"])
        kinds.append(kind | draw(st.fixed_dictionaries({}, optional=optional)))
        if left == 0:
            break
    return kinds


@st.composite
def tiny_jobs(
    draw: st.DrawFn, *, stack: bool = False, may_lie: bool = False, group: bool = True
) -> Job:
    """One bay, one to three shelves, marks on whole inches or 25 mm; often tight."""
    unit = draw(st.sampled_from(["in", "mm"]))
    case = {
        "width": draw(lengths(14, 32, unit)),
        "height": draw(lengths(18, 34, unit)),
        "depth": draw(lengths(6, 10, unit)),
        "shelves": draw(st.integers(1, 3)),
        "raised_bottom": draw(st.sampled_from(["0 mm", "2 1/2 in"])),
    }
    look = {
        "rhythm": draw(st.sampled_from(["even", "symmetric", "graduated", "to-fit"])),
        "headroom": draw(st.sampled_from(["0 mm", "1/2 in", "25 mm"])),
        "gap": draw(st.sampled_from(["0 mm", "1/2 in"])),
        "end_margin": draw(st.sampled_from(["0 mm", "1/2 in"])),
        "front_margin": draw(st.sampled_from(["0 mm", "1 in"])),
        "clear_least": draw(st.sampled_from(["2 in", "3 in", "100 mm"])),
        "spare": draw(st.sampled_from([0, 0.1, 0.33])),
        **draw(
            st.fixed_dictionaries(
                {},
                optional={
                    "clear_most": st.sampled_from(["12 in", "400 mm"]),
                    "shelf_load": st.sampled_from(["5 kg", "20 kg"]),
                    "step": st.sampled_from(["0 mm", "1 in"]),
                },
            )
        ),
    }
    step = draw(st.sampled_from(["1 in", "25 mm"]))
    items = draw(things(unit, stack=stack, may_lie=may_lie, group=group))
    return make_job(unit=unit, case=case, items=items, look=look, job={"marking_step": step})
