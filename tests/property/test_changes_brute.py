"""Tiny jobs: the least change of each length is the least of all, by trying every one of them."""

from __future__ import annotations

from random import Random

import pytest

from solver.changes.situation import Situation, altered
from solver.job.job import Job
from solver.plan.plan import Change
from solver.plan.slack_and_advice import Alteration
from solver.units import TICKS_PER_MM
from tests.brute_force import solve
from tests.near_jobs import changes_of, thing, tight_job

STEP = 10 * TICKS_PER_MM
SEEDS = range(24)


def tiny(seed: int) -> Job:
    """A job of a few things in a case that is a little too small for them."""
    draw = Random(seed)
    things = [
        thing(
            name,
            f"{draw.randrange(60, 220)}x{draw.randrange(60, 220)}x{draw.randrange(60, 160)}",
            draw.randint(1, 2),
        )
        for name in ("urn", "jug", "tin")[: draw.randint(1, 3)]
    ]
    case = {
        "width": str(draw.randrange(200, 420, 10)),
        "height": str(draw.randrange(200, 420, 10)),
        "depth": str(draw.randrange(100, 160, 10)),
        "shelves": draw.randint(0, 2),
    }
    return tight_job(*things, case=case, look={"clear_least": "30"})


def everything_fits(job: Job, alters: tuple[Alteration, ...]) -> bool:
    case = job.cases[0]
    after = altered(Situation(job, {case.name: tuple(case.shelf_counts)}), alters).job
    best = solve(after)
    return best is not None and best.left_out == 0


def least_by_trying(job: Job, change: Change) -> int | None:
    """The fewest steps of the same change that do, up to those told."""
    (one,) = change.alters
    assert one.by is not None
    for steps in range(1, one.by // STEP + 1):
        if everything_fits(job, (one.model_copy(update={"by": steps * STEP}),)):
            return steps
    return None


def lengths(job: Job) -> dict[str, Change]:
    found = changes_of(job)
    return {one.what: one for one in found if one.by is not None}


@pytest.mark.parametrize("seed", SEEDS)
def test_the_least_change_of_a_length_is_the_least_of_all(seed: int) -> None:
    job = tiny(seed)
    if everything_fits(job, ()):
        assert changes_of(job) == ()
        return
    for what, one in lengths(job).items():
        if one.by is not None and one.by <= 20 * STEP:
            assert least_by_trying(job, one) == one.by // STEP, (what, one.text)
            assert one.proven


@pytest.mark.parametrize("seed", SEEDS)
def test_a_look_that_would_do_is_told(seed: int) -> None:
    job = tiny(seed)
    told = lengths(job)
    fits_as_it_is = everything_fits(job, ())
    for what, now in (("headroom", 20), ("gap", 10), ("end margin", 10)):
        all_of_it = Alteration.model_validate(
            {"what": what, "by": now * TICKS_PER_MM, "less": True}
        )
        would_do = not fits_as_it_is and everything_fits(job, (all_of_it,))
        assert (what in told) is would_do, what
