"""Jobs with open sizes for the joint benchmark: two hundred drawn ones, three for the speed table.

**Drawn jobs.** A collection and a case of :mod:`tests.generators`, in inches, whose sizes are
then left open as a client's place leaves them: the depth always, from what the deepest thing
asks for to 2-1/2 in more, wished 1 in deeper; the width in two of five, 3 in either way of the
case that the things ask for; the height in one of five, 3 in more or less. The shelf count
may be one more or one less. A third of the jobs has two cases, a third has two bays, of which
every third may have three.
"""

from __future__ import annotations

from random import Random
from typing import Any

from solver.job.case import Case, CountRange, SizeRange
from solver.job.job import Job
from solver.units import inches
from tests.benchmark.jobs import SHEET
from tests.generators import generate_job

PRICE_SLACK = 0.0
"""Per cent over the cheapest that the joint plan may pay for its look, so that both plans are
compared by what they cost alone."""


def drawn(seed: int) -> Job:
    """Draw a job of realistic shape with open sizes; the same seed, the same job."""
    random = Random(seed)
    kinds = random.randint(4, 8)
    things = random.randint(3 * kinds, 6 * kinds)
    cases, bays = ((2, 1), (1, 2), (1, 1))[seed % 3]
    tight = random.uniform(0.5, 0.7)
    job = generate_job(kinds, things, cases, bays, seed=seed, tight=tight, unit="in")
    opened = [_opened(random, seed, case) for case in job.cases]
    look = job.look.model_copy(update={"price_slack": PRICE_SLACK})
    return _again(job, opened, look=look)


def _opened(random: Random, seed: int, case: Case) -> Case:
    width, height, depth = case.width, case.height, case.depth
    assert isinstance(width, int)
    assert isinstance(height, int)
    assert isinstance(depth, int)
    shelves = case.shelf_counts[0]
    changes: dict[str, Any] = {
        "depth": SizeRange(least=depth, most=depth + inches("2-1/2"), wish=depth + inches(1)),
        "shelves": CountRange(least=max(1, shelves - 1), most=shelves + 1),
    }
    if random.random() < 0.4:
        changes["width"] = SizeRange(least=width, most=width + inches(6), wish=width + inches(3))
    if random.random() < 0.2:
        least = height - inches(3)
        changes["height"] = SizeRange(least=least, most=height + inches(3), wish=height)
    if seed % 9 == 1:
        changes["uprights"] = (1, 2)
    return case.model_copy(update=changes)


def _again(job: Job, cases: list[Case], **update: Any) -> Job:
    return job.model_copy(update={"cases": tuple(cases), **update})


def one_case() -> Job:
    """One case, four to six shelves, an inch of depth open."""
    job = generate_job(20, 60, seed=1, tight=0.6, unit="in")
    return _again(job, [_deeper(case, 1, CountRange(least=4, most=6)) for case in job.cases])


def pair() -> Job:
    """Two cases beside each other, four to six shelves, an inch of depth open in each."""
    job = generate_job(30, 90, cases=2, seed=1, tight=0.6, unit="in")
    return _again(job, [_deeper(case, 1, CountRange(least=4, most=6)) for case in job.cases])


def three_bays() -> Job:
    """Two or three bays, six inches of width and an inch of depth open."""
    job = generate_job(40, 100, bays=3, seed=1, tight=0.6, unit="in")
    sheets = tuple(sheet.model_copy(update=SHEET) for sheet in job.sheets)
    (case,) = job.cases
    assert isinstance(case.width, int)
    width = SizeRange(least=case.width - inches(3), most=case.width + inches(3), wish=case.width)
    opened = _deeper(case, 1, case.shelves)
    opened = opened.model_copy(update={"width": width, "uprights": CountRange(least=1, most=2)})
    return _again(job, [opened], sheets=sheets)


def _deeper(case: Case, by: int, shelves: Any) -> Case:
    assert isinstance(case.depth, int)
    depth = SizeRange(least=case.depth, most=case.depth + inches(by))
    return case.model_copy(update={"depth": depth, "shelves": shelves})


SPEED = {"one case": (one_case, 2.0), "a pair": (pair, 6.0), "three bays": (three_bays, 30.0)}
"""Jobs of the speed table, and the aim for each [s]."""
