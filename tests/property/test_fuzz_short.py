"""A short run of each fuzzer; the long runs are `python -m tests.fuzz`, see tests/faults.md."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("atheris", reason="atheris has no package for this Python")

ROOT = Path(__file__).parents[2]
RUNS = {"lengths": 10_000, "inventory": 400, "workbook": 100, "job": 400}


@pytest.mark.parametrize("target", RUNS)
def test_the_fuzzer_finds_no_fault_in(target: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz", target, "--runs", str(RUNS[target])],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )

    assert done.returncode == 0, done.stderr[-2000:]
    executed = re.search(r"number_of_executed_units: (\d+)", done.stderr)
    assert executed
    assert int(executed[1]) >= RUNS[target]


def test_the_fuzzer_would_tell_a_fault(tmp_path: Path) -> None:
    """The same harness over a reader that fails on a letter: it ends with a fault."""
    script = tmp_path / "broken.py"
    script.write_text(
        "import sys, atheris\n"
        "def run(data):\n"
        "    assert b'x' not in data\n"
        "atheris.Setup([sys.argv[0], '-runs=20000', '-seed=1', '-artifact_prefix='"
        " + sys.argv[1] + '/'], run)\n"
        "atheris.Fuzz()\n",
        "utf-8",
    )
    done = subprocess.run(
        [sys.executable, str(script), str(tmp_path)],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )

    assert done.returncode != 0
    assert "AssertionError" in done.stderr + done.stdout
