"""Drawn jobs that cannot be done, and each limit taken away from the job itself, solved anew.

Limits are taken from the job as written: a higher case, narrower things, no load limit … nothing
of how the program takes them from its own problem is used.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM
from tests.near_jobs import made, thing, tight_job

HUGE = 1400 * TICKS_PER_MM
"""Added to a case that may be as high as it likes; its sides still come out of a sheet [tick]."""


def drawn(seed: int) -> Job:
    """A tiny job of one case that one thing or another makes impossible."""
    draw = Random(seed)
    kinds = [
        thing(
            f"kind {number}",
            f"{draw.randrange(60, 240, 5)}x{draw.randrange(80, 300, 5)}x{draw.randrange(60, 125)}",
            draw.randint(1, 4),
            weight=f"{draw.choice([1, 1, 1, 2, 2, 6])} kg",
        )
        for number in range(draw.randint(1, 4))
    ]
    case: dict[str, Any] = {
        "width": f"{draw.randrange(450, 1100, 10)}",
        "height": f"{draw.randrange(350, 800, 10)}",
        "depth": f"{draw.randrange(120, 200, 10)}",
        "shelves": draw.randint(0, 2),
    }
    look: dict[str, Any] = {}
    if draw.random() < 0.1:
        look["clear_most"] = f"{draw.randrange(260, 380, 10)}"
    if draw.random() < 0.2:
        look["shelf_load"] = f"{draw.randint(5, 25)} kg"
    site = {"sag": draw.choice(["display", "industry", "none"])}
    boards = {"site": {**site, "boards": {DEFAULT_PLY: "veneer-core plywood"}}}
    if len(kinds) > 1 and draw.random() < 0.2:
        for kind in kinds[:2]:
            kind["group"] = "pair"
    return tight_job(*kinds, case=case, look=look, **boards)


DEFAULT_PLY = "plywood 18"


def impossible(number: int) -> Iterator[tuple[Job, Option]]:
    """Yield so many drawn jobs in which not everything fits, with their one option."""
    seed = 0
    while number:
        seed += 1
        job = drawn(seed)
        option = option_of(job)
        if not option.fits_all:
            number -= 1
            yield job, option


def option_of(job: Job) -> Option:
    """Return the one option of a job, solved."""
    return plan_job(job, Limits(work=2.0), near=False, advice=False).options[0]


def _look(job: Job, **keys: Any) -> Job:
    return job.model_copy(update={"look": job.look.model_copy(update=keys)})


def _case(job: Job, **more: int) -> Job:
    cases = tuple(
        case.model_copy(update={key: getattr(case, key) + by for key, by in more.items()})
        for case in job.cases
    )
    return job.model_copy(update={"cases": cases})


def _items(job: Job, **keys: Any) -> Job:
    return job.model_copy(
        update={"items": tuple(item.model_copy(update=keys) for item in job.items)}
    )


def taken_away(job: Job, limit: str) -> list[Job]:
    """Return jobs without a limit; it is taken away where everything fits in one of them."""
    if limit == "sag":
        site = job.ground.model_copy(update={"sag": "none"})
        return [job.model_copy(update={"site": site})]
    if limit == "height" and job.look.clear_most is not None:  # no case too high for its openings
        step = 10 * TICKS_PER_MM
        return [_case(job, height=step * more) for more in range(1, 80)]
    changed = {
        "load": lambda: _look(job, shelf_load=10**7),
        "depth": lambda: _items(job, depth=TICKS_PER_MM),
        "height": lambda: _case(job, height=HUGE),
        "width": lambda: _look(_items(job, width=1, gap=0), gap=0, end_margin=0),
        "most clear height": lambda: _look(job, clear_most=None),
        "least clear height": lambda: _look(job, clear_least=1),
        "groups": lambda: _items(job, group=None),
        "headroom": lambda: _look(job, headroom=0, lift=0),
        "gap": lambda: _look(_items(job, gap=0), gap=0),
        "end margin": lambda: _look(job, end_margin=0),
        "marks": lambda: job.model_copy(
            update={"head": job.head.model_copy(update={"marking_step": 32})}
        ),
    }
    return [changed[limit]()]


def fits_without(job: Job, limits: tuple[str, ...]) -> bool:
    """Whether everything fits in a job without these limits, solved anew."""
    jobs = [job]
    for limit in limits:
        jobs = [one for before in jobs for one in taken_away(before, limit)]
    return any(option_of(one).fits_all for one in jobs)


def first_cure_does(job: Job, option: Option) -> bool:
    """Whether everything fits with the first change made, or the things left out that it names.

    True where none is named: nothing within reason does.
    """
    if not option.changes:
        return True
    first = option.changes[0]
    if first.alters:
        counts = {case.name: tuple(case.shelf_counts) for case in job.cases}
        after = made(job, first.alters, counts=counts)
        return option_of(after).fits_all
    kept = tuple(
        item.model_copy(update={"count": item.count - first.leaves.get(item.name, 0)})
        for item in job.items
        if item.count > first.leaves.get(item.name, 0)
    )
    return not kept or option_of(job.model_copy(update={"items": kept})).fits_all
