"""``python -m tests.benchmark joint``: everything decided at once against step by step.

Step by step: open sizes at the wish, else in the middle; then the number of bays and shelves that
looks best with as much as possible in it; then the sheets. At once: the cheapest sizes and counts
at which as much fits, and of these the best-looking (price_slack 0). Then the speed table: time
until sizes and price of every count are settled, until the first option is done, until the
recommended one is (`proof`, `>` where a stage up to the rhythm was not proven), all of it, and the
gaps of price and rhythm at 5 s and 30 s.
"""

from __future__ import annotations

import argparse
import multiprocessing
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from statistics import median

from cli.files.job_file import read_job
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.planning.assemble import PROVABLE
from solver.planning.plan_job import plan_job
from solver.sizing.option_sizes import stepwise_job
from tests.benchmark.jobs import FIXTURES
from tests.benchmark.joint_jobs import PRICE_SLACK, SPEED, drawn

GENERATED = 200
WORK = 1.0
"""Work for each stage where prices are compared: less than usual, since prices ask for little."""
RHYTHMS = ("steady", "even", "symmetric", "to-fit", "graduated")
AT = (5.0, 30.0)
"""Wall-clock limits at which the gaps are told [s]."""


@dataclass(frozen=True)
class Outcome:
    """What one way of deciding came to: things left out, price, sheets, and its time [s]."""

    left: int
    price: Decimal
    sheets: int
    seconds: float


@dataclass(frozen=True)
class Pair:
    """One job, decided at once and step by step; None where nothing works."""

    name: str
    joint: Outcome | None
    stepwise: Outcome | None


def outcome(job: Job, seconds: float) -> Outcome | None:
    """Plan a job and return what its recommended option came to."""
    started = time.perf_counter()
    option = plan_job(job, Limits(seconds=seconds, work=WORK), near=False).options[0]
    if option.cost is None:
        return None
    left = sum(one.count for one in option.left_out)
    taken = time.perf_counter() - started
    return Outcome(left, option.cost.total, option.sheet_count, taken)


def both(name: str, job: Job, seconds: float) -> Pair:
    """Decide a job both ways."""
    look = job.look.model_copy(update={"price_slack": PRICE_SLACK})
    at_once = job.model_copy(update={"look": look})
    return Pair(name, outcome(at_once, seconds), outcome(stepwise_job(job), seconds))


def row(pair: Pair) -> str:
    """Return one line of the table."""
    return f"{pair.name:24}{_cells(pair.joint)}{_cells(pair.stepwise)}"


HEAD = (
    f"{'':24}{'at once':>30}{'step by step':>30}\n"
    f"{'job':24}" + 2 * f"{'left':>6}{'price':>10}{'sheets':>7}{'s':>7}"
)


def _cells(one: Outcome | None) -> str:
    if one is None:
        return f"{'cannot work':>30}"
    return f"{one.left:6d}{one.price:10.2f}{one.sheets:7d}{one.seconds:7.2f}"


def summary(pairs: Sequence[Pair]) -> Iterator[str]:
    """Say how often joint costs less, how much, and whether it ever costs more."""
    known = [(p.joint, p.stepwise) for p in pairs if p.joint is not None and p.stepwise is not None]
    fits = [(a, b) for a, b in known if a.left < b.left]
    alike = [(a, b) for a, b in known if a.left == b.left]
    less = [(a, b) for a, b in alike if a.price < b.price]
    more = [(a, b) for a, b in alike if a.price > b.price]
    fewer = [(a, b) for a, b in alike if a.sheets < b.sheets]
    only = sum(p.joint is not None and p.stepwise is None for p in pairs)
    yield f"{len(pairs)} jobs: {only} work only decided at once; in {len(fits)} more fits at once"
    yield (
        f"of {len(alike)} in which as much fits: cheaper at once {len(less)}, dearer {len(more)}, "
        f"fewer sheets {len(fewer)}"
    )
    if less:
        saved = [100 * (b.price - a.price) / b.price for a, b in less]
        whole = 100 * (1 - sum(a.price for a, _ in alike) / sum(b.price for _, b in alike))
        yield (
            f"saved where cheaper: {median(saved):.1f} % (median), {max(saved):.1f} % at most; "
            f"over all {whole:.1f} %"
        )
    if known:
        times = [median(one.seconds for one in side) for side in zip(*known, strict=True)]
        yield f"median time: at once {times[0]:.2f} s, step by step {times[1]:.2f} s"


class Clock:
    """Notes when sizes were chosen, when there was a first plan, and when each option was done."""

    def __init__(self) -> None:
        self._started = time.perf_counter()
        self.sizes: float | None = None
        self.first: float | None = None
        self.done: dict[str, float] = {}

    def __call__(self, text: str) -> None:
        """Note a line of progress."""
        now = time.perf_counter() - self._started
        if text.endswith("sizes chosen"):
            self.sizes = now
        elif not text.endswith("placing shelves"):
            self.first = self.first or now
            self.done[text.split(": ", 1)[1]] = now

    def of(self, option: Option) -> float | None:
        """When an option was done [s]."""
        times = (at for text, at in self.done.items() if text.startswith(f"{option.name}:"))
        return next(times, None)


def speed_lines() -> Iterator[str]:
    """Yield the speed table: sizes, first plan, the recommended one proven, gaps at the limits."""
    times = f"{'sizes s':>9}{'first s':>9}{'proof s':>9}{'aim s':>7}{'all s':>8}"
    yield f"{'job':12}{'options':>8}{times}" + "".join(f"{f'gaps at {at:g} s':>24}" for at in AT)
    for name, (make, aim) in SPEED.items():
        clock = Clock()
        plan = plan_job(make(), Limits(seconds=AT[-1] * 2), clock, near=False)
        best = plan.options[0]
        sure = all(one.proven for one in best.stages if one.name in PROVABLE)
        proof = f"{'' if sure else '>'}{_seconds(clock.of(best))}"
        cells = f"{_seconds(clock.sizes):>9}{_seconds(clock.first):>9}{proof:>9}{aim:7g}"
        gaps = "".join(f"{_gaps(make, at):>24}" for at in AT)
        yield f"{name:12}{len(plan.options):8d}{cells}{plan.timing.seconds:8.2f}{gaps}"


def _seconds(time_: float | None) -> str:
    return "-" if time_ is None else f"{time_:.2f}"


def _gaps(make: Callable[[], Job], seconds: float) -> str:
    option = plan_job(make(), Limits(seconds=seconds), near=False).options[0]
    return f"{_gap(option, 'price')} / {_gap(option, *RHYTHMS)} mm"


def _gap(option: Option, *names: str) -> str:
    """Return value less bound of the first such stage; "-" where none was reached."""
    for stage in option.stages:
        if stage.name in names and stage.value is not None and stage.bound is not None:
            return f"{Decimal(str(stage.value)) - Decimal(str(stage.bound)):.2f}"
    return "-"


def jobs(limit: int) -> Iterator[tuple[str, Callable[[], Job]]]:
    """Return every job by name: fixtures, then as many drawn ones."""
    for path in FIXTURES:
        yield path.stem, partial(read_job, str(path))
    for seed in range(1, limit + 1):
        yield f"drawn {seed}", partial(drawn, seed)


def all_pairs(limit: int, seconds: float, processes: int) -> Iterator[Pair]:
    """Decide every job both ways, several jobs at a time where there are several processes."""
    if processes == 1:
        yield from (both(name, make(), seconds) for name, make in jobs(limit))
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn")) as pool:
        futures = [pool.submit(both, name, make(), seconds) for name, make in jobs(limit)]
        yield from (future.result() for future in futures)


def main(argv: Sequence[str] | None = None) -> None:
    """Print the tables line by line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark joint",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--limit", type=int, default=GENERATED, help="drawn jobs (200)")
    parser.add_argument("--seconds", type=float, default=20.0, help="limit of each plan (20)")
    parser.add_argument("--processes", type=int, default=1, help="jobs at a time (1)")
    parser.add_argument("--only", choices=("stepwise", "speed"), help="one of the two tables")
    options = parser.parse_args(argv)
    if options.only != "speed":
        print(HEAD, flush=True)
        pairs = []
        for pair in all_pairs(options.limit, options.seconds, options.processes):
            pairs.append(pair)
            print(row(pair), flush=True)
        for text in summary(pairs):
            print(text, flush=True)
    if options.only != "stepwise":
        for text in speed_lines():
            print(text, flush=True)
