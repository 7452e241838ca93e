"""Coverage-guided fuzzing of what reads the user's text.

    python -m tests.fuzz TARGET --runs N [--seconds S] [--seed N] [--corpus FOLDER]

Seeds are in tests/fuzz/seeds; what the fuzzer finds worth keeping goes to the folder named, or
nowhere. It ends with a message and an input file at the first fault, else says how many runs
there were.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

import atheris

SEEDS = Path(__file__).parent / "seeds"


def main(given: list[str]) -> None:
    """Read the options and hand over to the fuzzer, which never returns."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz")
    parser.add_argument("target", choices=["lengths", "inventory", "workbook", "job"])
    parser.add_argument("--runs", type=int, default=100_000)
    parser.add_argument("--seconds", type=int, default=0, help="stop after so long; 0: never")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--corpus", help="folder for inputs that reach something new")
    asked = parser.parse_args(given)

    with atheris.instrument_imports(include=["solver", "cli"], enable_loader_override=False):
        from tests.fuzz.targets import TARGETS

    target = TARGETS[asked.target]
    corpus = asked.corpus or tempfile.mkdtemp(prefix="casewright-corpus-")
    options = [
        f"-runs={asked.runs}",
        f"-max_total_time={asked.seconds}",
        f"-seed={asked.seed}",
        f"-max_len={target.longest}",
        f"-artifact_prefix={tempfile.gettempdir()}/casewright-fault-",
        f"-dict={SEEDS.parent / 'words.dict'}",
        "-print_final_stats=1",
        "-timeout=20",
        "-rss_limit_mb=1024",
        corpus,
        str(SEEDS / asked.target),
    ]
    atheris.Setup([sys.argv[0], *options], target.run)
    atheris.Fuzz()


if __name__ == "__main__":
    main(sys.argv[1:])
