"""Wall and processor time of whole commands, start and imports included."""

from __future__ import annotations

import os
import resource
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.files.saved_answers import last_path

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "cli" / "demo" / "clock-alcove.toml"
JOB = "JOB"
"""Stands for a copy of the demo's job, planned before, in the arguments of a command."""


@dataclass(frozen=True)
class Command:
    """Arguments of `casewright`, runs of it, and the aim [s]."""

    arguments: tuple[str, ...]
    runs: int
    aim: float

    @property
    def shown(self) -> str:
        """As it is typed."""
        return " ".join(("casewright", *self.arguments))


COMMANDS = (
    Command(("--help",), 5, 0.25),
    Command(("demo",), 3, 5.0),
    Command(("plan", JOB, "--hold", "alcove:shelf3=50"), 5, 1.0),
)


@dataclass(frozen=True)
class Taken:
    """What one run took [s]."""

    wall: float
    processor: float


def time_of(command: Sequence[str], compiled: Path) -> Taken:
    """Time a command, which must succeed; its modules are kept compiled in a folder.

    So they are where the program is installed, whatever this process says of it.
    """
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    before, started = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(
        command,
        cwd=ROOT,
        env={**env, "PYTHONPYCACHEPREFIX": str(compiled)},
        capture_output=True,
        check=True,
    )
    wall, after = time.perf_counter() - started, resource.getrusage(resource.RUSAGE_CHILDREN)
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Taken(wall, used)


def runs_of(command: Command, folder: Path) -> list[Taken]:
    """Time the runs of a command, each from the same last plan, after one that compiles all."""
    compiled, job, planned = folder / "compiled", folder / DEMO.name, folder / "planned.json"
    casewright = (sys.executable, "-m", "cli")
    arguments = [str(job) if one == JOB else one for one in command.arguments]
    if JOB in command.arguments and not job.exists():
        shutil.copy(DEMO, job)
        time_of((*casewright, "plan", str(job)), compiled)
        shutil.copy(last_path(str(job)), planned)
    taken = []
    for _ in range(command.runs + 1):
        if planned.exists():
            shutil.copy(planned, last_path(str(job)))
        taken.append(time_of((*casewright, *arguments), compiled))
    return taken[1:]


def command_lines(only: str | None) -> Iterator[str]:
    """Time each command, or those whose arguments contain `only`; yield a line for each."""
    with TemporaryDirectory() as folder:
        for command in COMMANDS:
            if only and only not in command.shown:
                continue
            taken = runs_of(command, Path(folder))
            wall = statistics.median(one.wall for one in taken)
            used = statistics.median(one.processor for one in taken)
            yield (
                f"{command.shown}: {wall:.2f} s, {used:.2f} s of a processor,"
                f" median of {command.runs} (aim: {command.aim:g} s)"
            )
