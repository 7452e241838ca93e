"""``python -m tests.benchmark load``: the largest jobs, each in a process of its own.

10 cases with 1,000 kinds, 5,000 parts in one list, 200 jobs in a batch: seconds, peak memory, what
came of it, and the gap that is left when the limit is up.
"""

from __future__ import annotations

import argparse
import multiprocessing
import resource
import time
from collections.abc import Callable, Sequence
from random import Random

from solver.batch.plan_batch import plan_batch
from solver.checking.batch import check_batch
from solver.checking.check import check
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from solver.planning.plan_job import plan_job
from solver.units import mm
from tests.batches import clients
from tests.generators import from_large_sheets, generate_job

HEAD = "| load | limit | seconds | peak memory | answer | findings |"


def many_kinds(seconds: float) -> tuple[str, int]:
    """Plan 10 cases of two bays, 1,000 kinds, 1,500 things, from large sheets."""
    job = from_large_sheets(generate_job(1000, 1500, cases=10, bays=2, beside=False))
    plan = plan_job(job, Limits(seconds=seconds))
    (option, *_) = plan.options
    left = sum(one.count for one in option.left_out)
    gaps = ", ".join(
        f"{stage.name} {stage.value} (not below {stage.bound})"
        for stage in option.stages
        if not stage.proven
    )
    said = f"{option.status}, {left} things left out, {option.sheet_count} sheets"
    return f"{said}; open: {gaps or 'nothing'}", len(check(plan))


def many_parts(seconds: float) -> tuple[str, int]:
    """Cut 5,000 parts of 300 kinds."""
    draw = Random(7)
    kinds = [(mm(draw.randint(150, 900)), mm(draw.randint(80, 450))) for _ in range(300)]
    parts = tuple(
        CutPart(f"p{n}", *kinds[draw.randrange(300)], may_turn=bool(n % 2)) for n in range(5000)
    )
    board = CutSheet("board", "ply", mm(2440), mm(1220), None)
    answer = solve_cutting(
        CuttingProblem(parts, (board,), kerf=mm(3), edge_trim=mm(10)), Limits(seconds=seconds)
    )
    gap = (answer.count - answer.count_bound) / answer.count
    return f"{answer.count} sheets, not below {answer.count_bound} ({gap:.1%})", 0


def many_jobs(seconds: float) -> tuple[str, int]:
    """Plan 200 clients' jobs together."""
    batch = plan_batch(clients(200), Limits(seconds=seconds))
    gap = (batch.cost.total - batch.cost.stock_bound) / batch.cost.total
    said = f"{batch.sheet_count} sheets, {batch.cost.total}, apart {batch.alone}, gap {gap:.1%}"
    return said, len(check_batch(batch))


LOADS: dict[str, tuple[Callable[[float], tuple[str, int]], float]] = {
    "10 cases, 1,000 kinds": (many_kinds, 120.0),
    "5,000 parts": (many_parts, 30.0),
    "200 jobs in a batch": (many_jobs, 300.0),
}


def _measured(name: str, seconds: float) -> str:
    started = time.perf_counter()
    said, findings = LOADS[name][0](seconds)
    taken = time.perf_counter() - started
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    return f"| {name} | {seconds:g} s | {taken:.0f} | {memory} MiB | {said} | {findings} |"


def main(argv: Sequence[str] | None = None) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmark load", description=__doc__)
    parser.add_argument("--only", help="loads whose name has this in it")
    parser.add_argument("--time-limit", type=float, help="of each [s]")
    asked = parser.parse_args(argv)
    print(HEAD)
    print("|---" * HEAD.count(" |") + "|")
    for name, (_, usual) in LOADS.items():
        if asked.only is None or asked.only in name:
            with multiprocessing.get_context("spawn").Pool(1) as pool:
                line = pool.apply(_measured, (name, asked.time_limit or usual))
            print(line, flush=True)
