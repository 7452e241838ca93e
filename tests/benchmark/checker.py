"""How much the checker notices, and whether the planner's best is the best there is.

    python -m tests.benchmark checker
    python -m tests.benchmark brute [--jobs 2000]

`checker`: each figure of a plan is changed by as little as can be, one at a time, in plans of the
fixtures, and the share that the checker finds is its mutation score. Figures that may be otherwise
in a plan just as good (room to either side of a thing, notes) count as not found.
`brute`: tiny jobs as the property tests draw them, planned, checked, and what fits tried out
completely (the wishes about the look: `eye-brute`).
"""

from __future__ import annotations

import argparse
import warnings
from collections import Counter
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings

from cli.files.job_file import read_job
from solver.checking.check import check
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from tests.brute_force import solve
from tests.edits import put
from tests.figures import kind_of, other
from tests.leaves import leaves
from tests.sample_plans import good_plan
from tests.strategies import tiny_jobs

ROOT = Path(__file__).resolve().parents[2]
JOBS = ("symmetric.toml", "pantry-door.toml", "pins.toml")
EACH_MOST = 40
"""Most figures of one kind that are changed in one plan [-]."""


def main_checker() -> None:
    """Print the mutation score of each plan, and the kinds of figure that are missed."""
    missed: Counter[str] = Counter()
    for name, plan in _plans():
        tried = found = 0
        for path, value in _chosen(plan):
            noticed = _noticed(plan, path, value)
            if noticed is None:
                continue
            tried, found = tried + 1, found + noticed
            missed[kind_of(path)] += not noticed
        print(f"{name}: {found} of {tried} figures, {100 * found / tried:.1f} %", flush=True)
    print(
        "missed:", ", ".join(f"{kind} ({count})" for kind, count in missed.most_common() if count)
    )


def _plans() -> list[tuple[str, Plan]]:
    made = [("the worked plan of two bays", good_plan())]
    for name in JOBS:
        job = read_job(str(ROOT / "fixtures" / "jobs" / name))
        made.append((name, plan_job(job, Limits(seconds=20))))
    return made


def _chosen(plan: Plan) -> list[tuple[str, Any]]:
    """At most so many figures of each kind, of the first option."""
    seen: Counter[str] = Counter()
    chosen = []
    for path, value in leaves(plan.options[0]):
        seen[kind_of(path)] += 1
        if seen[kind_of(path)] <= EACH_MOST:
            chosen.append((f"options.0.{path}", value))
    return chosen


def _noticed(plan: Plan, path: str, value: Any) -> bool | None:
    """Whether the checker finds the change; None where no plan file can hold such a value."""
    try:
        changed = other(path, value)
        broken = put(plan, path, Status(changed) if path.endswith("status") else changed)
        if check(broken):
            return True
        with warnings.catch_warnings(action="ignore"):
            Plan.model_validate_json(broken.to_json())
        return False
    except (KeyError, TypeError, ValueError, AttributeError):
        return None  # reading the file refuses it


def main_brute(given_args: list[str]) -> None:
    """Plan tiny jobs and hold each against everything tried; stop at the first that differs."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmark brute")
    parser.add_argument("--jobs", type=int, default=2000)
    asked = parser.parse_args(given_args)
    seen: Counter[str] = Counter()

    @seed(1)
    @settings(
        max_examples=asked.jobs,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(tiny_jobs(may_lie=True))
    def every(job: Job) -> None:
        seen[_compared(job)] += 1
        if sum(seen.values()) % 100 == 0:
            print(dict(seen), flush=True)

    every()
    print(f"{sum(seen.values())} jobs:", ", ".join(f"{n} {what}" for what, n in seen.items()))


def _compared(job: Job) -> str:
    """Return how a job came out; AssertionError where the planner is not right."""
    plan = plan_job(job, near=False)
    (option,) = plan.options
    best = solve(job)
    if best is None:
        assert option.status is Status.INFEASIBLE
        assert not option.cases
        return "without a layout, as tried"
    stages = {stage.name: stage for stage in option.stages}
    assert stages["fit"].value == best.left_out
    assert stages["fit"].proven
    assert option.status is Status.INFEASIBLE or not best.left_out
    assert not check(plan)
    return "with things left out, as few as tried" if best.left_out else "with everything in"
