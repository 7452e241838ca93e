"""The wheel in an empty environment of each Python that is named: installed, and the demo run.

    python -m tests.wheel [PYTHON…]

Left out, the Python that runs this. Packages come from where pip gets them.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def main(pythons: list[str]) -> int:
    """Build the wheel, try it with each Python, and return how many failed."""
    failed = 0
    with tempfile.TemporaryDirectory(prefix="casewright-wheel-") as name:
        folder = Path(name)
        wheel = built(folder)
        for python in pythons or [sys.executable]:
            start = time.monotonic()
            said = tried(python, wheel, folder)
            failed += bool(said)
            print(f"{python}: {said or 'runs'} ({time.monotonic() - start:.0f} s)", flush=True)
    return failed


def built(folder: Path) -> Path:
    """Build the wheel into a folder and return its path."""
    subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "wheel",
            "--quiet",
            "--no-deps",
            "-w",
            str(folder),
            str(ROOT),
        ],
        check=True,
        capture_output=True,
    )
    (wheel,) = folder.glob("casewright-*.whl")
    return wheel


def tried(python: str, wheel: Path, folder: Path) -> str:
    """Install the wheel with a Python and run it elsewhere; return what went wrong, or nothing."""
    place = Path(tempfile.mkdtemp(dir=folder))
    inside = place / "venv" / "bin"
    for command in (
        [python, "-m", "venv", str(place / "venv")],
        [str(inside / "pip"), "install", "--quiet", str(wheel)],
        [str(inside / "casewright"), "demo"],
        [str(inside / "casewright"), "defaults"],
    ):
        done = subprocess.run(command, cwd=place, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            return f"{' '.join(command[-3:])} ends with {done.returncode}: {done.stderr[-500:]}"
    return ""


if __name__ == "__main__":
    sys.exit(min(1, main(sys.argv[1:])))
