"""The jobs that the layout benchmark plans, and how fast each is meant to be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from cli.files.job_file import read_job
from solver.job.job import Job
from solver.units import TICKS_PER_MM
from tests.generators import generate_job

ROOT = Path(__file__).resolve().parents[2]
FIXTURES = (
    *sorted((ROOT / "fixtures" / "jobs").glob("*.toml")),
    ROOT / "cli/demo/clock-alcove.toml",
)


@dataclass(frozen=True)
class Drawn:
    """Size of a generated job, and its aim in seconds (None: no aim of its own)."""

    kinds: int
    things: int
    cases: int = 1
    bays: int = 1
    aim: float | None = None


GENERATED = {
    "one case 10": Drawn(10, 30),
    "one case 20": Drawn(20, 60, aim=2),
    "one case 40": Drawn(40, 80, aim=4),
    "two cases 40": Drawn(40, 120, cases=2, aim=4),
    "three bays 60": Drawn(60, 150, bays=3, aim=10),
    "ten bays 200": Drawn(200, 600, cases=5, bays=2, aim=60),
}
"""Two or three things a kind. Several cases stand beside each other and share shelf lines; ten
bays are five cases, since no sheet is as long as a case of ten."""

SHEET = {"length": 3050 * TICKS_PER_MM, "width": 1525 * TICKS_PER_MM}
"""Every board comes in 5 x 10 ft, so that the largest generated cases can be cut."""


@dataclass(frozen=True)
class BenchJob:
    """A job by name, made when it is wanted."""

    name: str
    make: Callable[[], Job]
    aim: float | None = None


def bench_jobs(seed: int, tight: float, options: int = 1) -> tuple[BenchJob, ...]:
    """Return all jobs: fixtures first, then generated ones, smallest first.

    Parameters
    ----------
    seed, tight
        Seed of the generated jobs and the share of their run that is wanted [-].
    options
        How many shelf counts of generated jobs are tried: the one they can be done with, and
        more [-].
    """
    fixtures = [BenchJob(path.stem, partial(read_job, str(path))) for path in FIXTURES]
    drawn = [
        BenchJob(name, partial(_generate, size, seed, tight, options), size.aim)
        for name, size in GENERATED.items()
    ]
    return (*fixtures, *drawn)


def _generate(size: Drawn, seed: int, tight: float, options: int) -> Job:
    job = generate_job(size.kinds, size.things, size.cases, size.bays, seed=seed, tight=tight)
    sheets = tuple(sheet.model_copy(update=SHEET) for sheet in job.sheets)
    cases = tuple(
        case.model_copy(update={"shelves": tuple(case.shelf_counts[0] + n for n in range(options))})
        for case in job.cases
    )
    return job.model_copy(update={"sheets": sheets, "cases": cases})
