"""Plans of the collections, made by the planner of any checkout, and kept as JSON."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tests.benchmark.eye_collections import SETTLED, Settled, counts, digest, draw, job_text

Json = dict[str, Any]
ATTEMPTS = 50
"""How often a seed may be drawn before its collection fits."""


def plan(job: Path, tree: Path, answer: Path, limit: float) -> Json:
    """Plan a job file with the checkout at `tree`, and keep what it answers.

    Nothing is near and nothing kept beside the job; `limit` is in seconds. A job that does not
    fit is answered too.
    """
    command = (sys.executable, "-m", "cli", "plan", job, "--json", answer, "--force", "--quiet")
    options = ("--no-near", "--no-keep", "--time-limit", str(limit))
    subprocess.run(
        [*map(str, command), *options],
        cwd=tree,
        env={**os.environ, "PYTHONPATH": str(tree)},
        check=False,
        capture_output=True,
    )
    found: Json = json.loads(answer.read_text("utf-8"))
    return found


def fits_all(found: Json) -> bool:
    """Tell whether the first option of a plan has everything."""
    option = found["options"][0]
    return bool(option["cases"]) and not option["left_out"]


def plans(
    collections: Sequence[Settled], tree: Path, folder: Path, limit: float
) -> Iterator[tuple[int, Json]]:
    """Yield the plan of each collection by its seed; one that is in the folder stands."""
    folder.mkdir(parents=True, exist_ok=True)
    for one in collections:
        job, answer = folder / f"{one.seed}.toml", folder / f"{one.seed}.json"
        if not answer.exists():
            job.write_text(one.job, "utf-8")
            plan(job.resolve(), tree.resolve(), answer.resolve(), limit)
        yield one.seed, json.loads(answer.read_text("utf-8"))


def settle(seeds: Sequence[int], tree: Path, limit: float) -> Iterator[Settled]:
    """Yield the first draw and shelf count of each seed that the checkout's planner can fit.

    What is settled already stands; each is written as soon as it is found.
    """
    known = json.loads(SETTLED.read_text("utf-8")) if SETTLED.exists() else []
    done = {one["seed"] for one in known}
    for seed in seeds:
        if seed in done:
            continue
        found = _settled(seed, tree, limit)
        known = sorted([*known, asdict(found)], key=lambda one: int(one["seed"]))
        lines = ",\n".join(json.dumps(one) for one in known)
        SETTLED.write_text(f"[\n{lines}\n]\n", "utf-8")
        yield found


def _settled(seed: int, tree: Path, limit: float) -> Settled:
    with TemporaryDirectory() as folder:
        job, answer = Path(folder) / "job.toml", Path(folder) / "plan.json"
        for attempt in range(ATTEMPTS):
            collection = draw(seed, attempt)
            for count in counts(collection):
                text = job_text(collection, count)
                job.write_text(text, "utf-8")
                if fits_all(plan(job, tree.resolve(), answer, limit)):
                    return Settled(seed, attempt, count, digest(text))
    msg = f"no collection of seed {seed} fits"
    raise AssertionError(msg)
