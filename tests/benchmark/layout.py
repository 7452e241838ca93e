"""Time to the first plan, time to proof, gaps at the limit and peak memory of whole plans.

Every run is a process of its own with one job, so that its peak memory is its own; seconds
count from the call of plan_job, without start and imports.

  first    stock chosen and a first layout of all bays with every rule (of any option)
  stock    sheets and mouldings chosen, of the last option
  proof    all stages up to the rhythm settled, of the last option; with > before it where the
           recommended option's are not all proven
  whole    the plan with all later wishes
  mirrored, together (places), rhythm (mm; steady, or even): value of the recommended option /
           its gap to the bound, ? where there is none
  peak     most memory of the process, MiB
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import asdict, replace
from pathlib import Path

from solver.outcome import Limits
from tests import generators
from tests.benchmark.commands import command_lines
from tests.benchmark.jobs import GENERATED, ROOT, BenchJob, bench_jobs
from tests.benchmark.measure import Figures, measure

COLUMNS = ("first", "stock", "proof", "whole")
HEAD = (
    f"{'job':16} {'kinds':>5} {'things':>6} {'bays':>4} {'options':>7} {'status':10}"
    + "".join(f" {name + ' s':>8}" for name in COLUMNS)
    + f" {'aim s':>5} {'mirrored/gap':>13} {'together/gap':>13} {'rhythm/gap':>17} {'peak MiB':>8}"
)


def seconds(value: float | None, mark: str = "") -> str:
    """Seconds with two decimals, or a dash."""
    return "-" if value is None else f"{mark}{value:.2f}"


def gap(reached: tuple[float | None, float | None] | None, digits: int) -> str:
    """A stage's value and how far above its bound it is; a dash where the stage is not there."""
    value, bound = reached or (None, None)
    if value is None:
        return "-"
    return f"{value:.{digits}f}/{'?' if bound is None else format(value - bound, f'.{digits}f')}"


def line(name: str, one: Figures, aim: float | None) -> str:
    """One line of the table."""
    times = (one.first, one.stock, one.settled, one.whole)
    shown = [seconds(t, "" if one.proven or i != 2 else ">") for i, t in enumerate(times)]
    return (
        f"{name:16} {one.kinds:5d} {one.things:6d} {one.bays:4d} {one.options:7d} {one.status:10}"
        + "".join(f" {text:>8}" for text in shown)
        + f" {'' if aim is None else format(aim, 'g'):>5}"
        + f" {gap(one.stages.get('mirrored'), 0):>13} {gap(one.stages.get('together'), 0):>13}"
        + f" {gap(one.stages.get('steady', one.stages.get('even')), 3):>17} {one.peak:8.0f}"
    )


def median(runs: Sequence[Figures]) -> Figures:
    """The first run with the median of all times, and the most memory of any."""

    def of(name: str) -> float | None:
        times = [getattr(run, name) for run in runs if getattr(run, name) is not None]
        return statistics.median(times) if times else None

    return replace(
        runs[0],
        first=of("first"),
        stock=of("stock"),
        settled=of("settled"),
        whole=statistics.median(run.whole for run in runs),
        peak=max(run.peak for run in runs),
    )


def parser() -> argparse.ArgumentParser:
    """The command line, with the generators described in its help."""
    sizes = [
        f"  {name:16} {d.kinds} kinds, {d.things} things, {d.cases} case(s) of {d.bays} bay(s)"
        for name, d in GENERATED.items()
    ]
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark",
        description=__doc__,
        epilog="\n".join(
            ["Generated jobs, sheets of 5 x 10 ft:", *sizes, "", generators.__doc__ or ""]
        ),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--only", metavar="NAME", help="jobs whose name contains NAME")
    parser.add_argument("--runs", type=int, default=1, help="runs of each job; medians are shown")
    parser.add_argument(
        "--seeds", type=int, default=1, help="run so many seeds, from --seed on (1)"
    )
    parser.add_argument("--options", type=int, default=1, help="shelf counts of generated jobs (1)")
    parser.add_argument("--seconds", type=float, default=60.0, help="wall-clock limit of each run")
    parser.add_argument("--seed", type=int, default=1, help="seed of the generated jobs (1)")
    parser.add_argument("--tight", type=float, default=0.7, help="how tight they are (0.7)")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write all figures of all runs")
    parser.add_argument("--child", action="store_true", help=argparse.SUPPRESS)
    return parser


def run(job: BenchJob, options: argparse.Namespace, seed: int) -> Figures:
    """Plan one job, drawn with a seed, in a process of its own."""
    limits = ["--seconds", str(options.seconds)]
    made = ["--seed", str(seed), "--tight", str(options.tight), "--options", str(options.options)]
    done = subprocess.run(
        [sys.executable, "-m", "tests.benchmark", "--child", "--only", job.name, *limits, *made],
        cwd=ROOT,
        env={**os.environ, "PYTHONHASHSEED": "0"},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        msg = f"{job.name}: the run failed\n{done.stderr}"
        raise RuntimeError(msg)
    return Figures(**json.loads(done.stdout))


def child(options: argparse.Namespace) -> None:
    """Plan the job of exactly that name and print its figures as JSON."""
    drawn = bench_jobs(options.seed, options.tight, options.options)
    jobs = {job.name: job for job in drawn}
    made = jobs[options.only].make()
    print(json.dumps(asdict(measure(made, Limits(seconds=options.seconds)))))


def main(argv: Sequence[str] | None = None) -> None:
    """Run the jobs and print the table line by line."""
    options = parser().parse_args(argv)
    if options.child:
        child(options)
        return
    print(HEAD, flush=True)
    kept: dict[str, list[Figures]] = {}
    for job in bench_jobs(options.seed, options.tight):
        if options.only and options.only not in job.name:
            continue
        seeds = range(options.seed, options.seed + options.seeds)
        seeds = seeds if job.name in GENERATED else seeds[:1]
        runs = [run(job, options, seed) for seed in seeds for _ in range(options.runs)]
        kept[job.name] = runs
        print(line(job.name, median(runs), job.aim), flush=True)
        if len(seeds) == 1 and len({one.digest for one in runs}) > 1:
            print(f"{job.name}: the runs gave different plans", flush=True)
    for text in command_lines(options.only):
        print(text, flush=True)
    if options.json:
        data = {name: [asdict(one) for one in runs] for name, runs in kept.items()}
        options.json.write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
