"""Every layout of a tiny job that is not beaten on rhythm and headroom, by trying all of them.

Rules and rhythm scores are those of :mod:`tests.brute_force`, which knows nothing of the
program's own layout. Headroom is compared as the description of the job says: fewest empty
openings first, then the largest less the smallest room over the tallest thing; under `to-fit`,
where the rooms are the rhythm, only the empty openings.
"""

from __future__ import annotations

from fractions import Fraction

from solver.job.job import Job
from tests.brute_force import Clear, Tallest, all_clear, all_contents, rhythm_of_heights, to_fit

Look = tuple[Fraction, int, int]
"""Rhythm [tick], empty openings [-], spread of the headroom [tick]."""


def looks(job: Job) -> set[Look]:
    """Return what every layout looks like that leaves nothing out."""
    heights = list(all_clear(job))
    if not heights:
        return set()
    contents = all_contents(job, len(heights[0])).get(0, set())
    return {
        look_of(job, clear, tallest)
        for clear in heights
        for tallest in contents
        if all(h >= top + job.look.headroom for h, top in zip(clear, tallest, strict=True) if top)
    }


def look_of(job: Job, clear: Clear, tallest: Tallest) -> Look:
    """Return what one layout looks like."""
    rooms = [h - top for h, top in zip(clear, tallest, strict=True) if top]
    empty = tallest.count(0)
    if job.look.rhythm == "to-fit":
        return to_fit(clear, tallest), empty, 0
    return rhythm_of_heights(job, clear), empty, max(rooms) - min(rooms)


def unbeaten(looks: set[Look]) -> set[Look]:
    """Return those that no other is as good as in both."""
    kept: set[Look] = set()
    for rhythm, *even in sorted(looks):
        if all(even < others for _, *others in kept):
            kept.add((rhythm, *even))  # type: ignore[arg-type]
    return kept
