"""``python -m tests.benchmark batch``: what batches save, what is proven, how long it takes."""

from __future__ import annotations

import argparse
import time
from collections.abc import Mapping, Sequence

from solver.batch.plan_batch import plan_batch
from solver.checking.batch import check_batch
from solver.job.job import Job
from solver.outcome import Limits
from tests.batches import client_job, clients

SECONDS = 60.0
"""Time limit of each batch [s]."""
HEAD = (
    "| batch | cases | parts | apart | together | not below | saved | gap | seconds | processor s |"
)


def batches() -> Mapping[str, Mapping[str, Job]]:
    """The batches by what they are."""
    wide = {"case": {"uprights": 1, "width": "58", "shelves": 4}}
    open_ = {"case": {"depth": {"least": "8", "most": "10", "wish": "9-1/2"}, "shelves": [3, 4]}}
    return {
        "5 clients": clients(5),
        "10 clients": clients(10),
        "20 clients": clients(20),
        "20 clients, two bays": {f"client {n}": client_job(n, **wide) for n in range(20)},
        "20 clients, depth and count open": {
            f"client {n}": client_job(n, **open_) for n in range(20)
        },
    }


def row(name: str, jobs: Mapping[str, Job], seconds: float) -> str:
    """Plan one batch; a line of the table."""
    started, worked = time.perf_counter(), time.process_time()
    batch = plan_batch(jobs, Limits(seconds=seconds))
    taken, work = time.perf_counter() - started, time.process_time() - worked
    faults = len(check_batch(batch))
    least = batch.sizes.bound if batch.sizes else batch.cost.stock_bound
    gap = (batch.cost.total - least) / batch.cost.total * 100
    cells = (
        name,
        sum(len(job.cases) for job in jobs.values()),
        len(batch.parts),
        f"{batch.alone_sheets} sheets, {batch.alone}",
        f"{batch.sheet_count} sheets, {batch.cost.total}",
        least,
        batch.saving,
        f"{gap:.1f} %" if gap else "proven",
        f"{taken:.1f}",
        f"{work:.1f}",
    )
    told = f" ({faults} findings)" if faults else ""
    return f"| {' | '.join(map(str, cells))} |{told}"


def main(argv: Sequence[str] | None = None) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmark batch", description=__doc__)
    parser.add_argument("--only", help="batches whose name has this in it")
    parser.add_argument("--time-limit", type=float, default=SECONDS, help="of each batch [s]")
    asked = parser.parse_args(argv)
    print(HEAD)
    print("|---" * HEAD.count(" |") + "|")
    for name, jobs in batches().items():
        if asked.only is None or asked.only in name:
            print(row(name, jobs, asked.time_limit), flush=True)
