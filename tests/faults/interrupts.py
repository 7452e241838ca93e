"""Ctrl-C and kill -9 at random moments: a whole answer, or none; old files stay whole."""

from __future__ import annotations

import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from solver.checking.check import check
from solver.plan.plan import Plan
from tests.faults.fault import ROOT

JOB = ROOT / "cli" / "demo" / "clock-alcove.toml"
SECONDS = 4.0
"""Time limit of the solve that is interrupted [s]."""
OLD = '{"schema": "somebody else\'s", "keep": true}\n'


ENDS = (0, 1, 130, -signal.SIGINT)
"""Right exit codes; the last is what a shell calls 130, and what Python makes of Ctrl-C while it
loads modules, whatever is done about it."""


@dataclass
class Moments:
    """What came of many moments."""

    what: str
    tried: int
    ended: dict[str, int] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)

    def count(self, ending: str) -> None:
        """Count one more that ended so."""
        self.ended[ending] = self.ended.get(ending, 0) + 1

    def line(self) -> str:
        """Say it in one line."""
        said = ", ".join(f"{count} {ending}" for ending, count in sorted(self.ended.items()))
        return f"{self.what}, {self.tried} moments: {said}"


def interrupted(times: int, seed: int = 1) -> Moments:
    """Press Ctrl-C once at a random moment of a solve: the best plan, checked, or a clean stop."""
    draw, found = random.Random(seed), Moments("Ctrl-C", times)
    for _ in range(times):
        with tempfile.TemporaryDirectory(prefix="casewright-fault-") as name:
            folder = Path(name)
            process = _started(folder)
            _wait_for_solver(process)
            time.sleep(draw.random() * SECONDS)
            process.send_signal(signal.SIGINT)
            _judge(found, process, folder)
    return found


def _started(folder: Path) -> subprocess.Popen[bytes]:
    (folder / "job.toml").write_bytes(JOB.read_bytes())
    (folder / "plan.json").write_text(OLD, "utf-8")
    args = ("plan", "job.toml", "--json", "plan.json", "--force", "--no-near", "--quiet")
    return subprocess.Popen(
        [sys.executable, "-m", "cli", *args, "--time-limit", str(SECONDS)],
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


def _wait_for_solver(process: subprocess.Popen[bytes]) -> None:
    """Return once the solver is loaded; where the system does not tell, after a second."""
    maps = Path(f"/proc/{process.pid}/maps")
    if not maps.exists():
        time.sleep(1)
        return
    while process.poll() is None and "ortools" not in maps.read_text("utf-8", errors="replace"):
        time.sleep(0.01)


def _judge(found: Moments, process: subprocess.Popen[bytes], folder: Path) -> None:
    try:
        _, raw = process.communicate(timeout=60)
    except subprocess.TimeoutExpired:
        process.kill()
        process.communicate()
        found.wrong.append("it did not stop within a minute")
        return
    said, text = raw.decode("utf-8", errors="replace"), (folder / "plan.json").read_text("utf-8")
    if "Traceback" in said or process.returncode not in ENDS:
        found.wrong.append(f"exit {process.returncode}: {said[-400:]}")
    found.count("without a plan" if text == OLD else "with a plan")
    if text != OLD and check(Plan.model_validate_json(text)):
        found.wrong.append("the plan kept breaks a rule")
    if list(folder.glob(".casewright-*")):
        found.wrong.append("a half-written file was left")


def killed(times: int, seed: int = 2) -> Moments:
    """Kill the command at random moments, half of them about where it writes."""
    draw, found = random.Random(seed), Moments("kill -9", times)
    usual = _seconds_of_one_run()
    for n in range(times):
        with tempfile.TemporaryDirectory(prefix="casewright-fault-") as name:
            folder = Path(name)
            process = _started(folder)
            moment = draw.random() if n % 2 else 0.9 + 0.2 * draw.random()
            time.sleep(moment * usual)
            process.kill()
            process.communicate()
            text = (folder / "plan.json").read_text("utf-8")
            found.count("with the old file" if text == OLD else "with the new file")
            if text != OLD and not _whole(text):
                found.wrong.append("a file is half written")
            if (folder / "job.toml").read_bytes() != JOB.read_bytes():
                found.wrong.append("the job file has changed")
    return found


def _seconds_of_one_run() -> float:
    with tempfile.TemporaryDirectory(prefix="casewright-fault-") as name:
        start = time.monotonic()
        _started(Path(name)).communicate()
        return time.monotonic() - start


def _whole(text: str) -> bool:
    try:
        return bool(json.loads(text)["options"])
    except (ValueError, KeyError):
        return False
