"""Wall time of whole commands, start and imports included."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COMMANDS = (("--help", 5, 0.25), ("demo", 3, 5.0))
"""Arguments of `casewright`, runs of each, and the aim [s]."""


def wall_time(command: Sequence[str]) -> float:
    """Seconds that a command takes; it must succeed."""
    started = time.perf_counter()
    subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
    return time.perf_counter() - started


def command_lines(only: str | None) -> Iterator[str]:
    """Time each command, or those whose arguments contain `only`; yield a line for each."""
    for argument, runs, aim in COMMANDS:
        if only and only not in argument:
            continue
        taken = [wall_time([sys.executable, "-m", "cli", argument]) for _ in range(runs)]
        middle = statistics.median(taken)
        yield f"casewright {argument}: {middle:.2f} s, median of {runs} (aim: {aim:g} s)"
