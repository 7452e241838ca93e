"""Tiny jobs, solved and tried out completely: stages that are proven must be the best there is.

python -m tests.benchmark eye-brute [--jobs 2000] [--first 0]
"""

from __future__ import annotations

import argparse
import time
from collections import Counter

from solver.layout.layout_engine import solve_layout
from solver.outcome import Limits
from tests.eye_brute import best
from tests.eye_compare import judge
from tests.eye_contents import TooLargeError
from tests.eye_jobs import problem_of


def main(arguments: list[str]) -> None:
    """Print how many jobs were right, how long they took, and every mismatch by its number."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmark eye-brute")
    parser.add_argument("--jobs", type=int, default=2000)
    parser.add_argument("--first", type=int, default=0)
    asked = parser.parse_args(arguments)
    count: Counter[str] = Counter()
    spent = {"tried out": 0.0, "solved": 0.0}
    for seed in range(asked.first, asked.first + asked.jobs):
        _one(seed, count, spent)
    print(", ".join(f"{name}: {number}" for name, number in count.items()))
    print(", ".join(f"{name} {seconds:.1f} s" for name, seconds in spent.items()))


def _one(seed: int, count: Counter[str], spent: dict[str, float]) -> None:
    problem = problem_of(seed)
    started = time.perf_counter()
    try:
        least = best(problem)
    except TooLargeError:
        count["too large to try out"] += 1
        return
    tried = time.perf_counter()
    answer = solve_layout(problem, Limits())
    spent["tried out"] += tried - started
    spent["solved"] += time.perf_counter() - tried
    judged = judge(problem, answer, least)
    count["jobs"] += 1
    count["without any layout"] += least is None
    count["with things left out"] += least is not None and any(least.loss)
    count["stages up to the rhythm"] += judged.asked
    count["of these proven and right"] += judged.proven
    count["jobs wrong"] += bool(judged.wrong)
    count["jobs wrong in a later stage"] += bool(judged.later)
    for text in [*judged.wrong, *(f"later: {one}" for one in judged.later)]:
        print(f"job {seed}: {text}", flush=True)


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
