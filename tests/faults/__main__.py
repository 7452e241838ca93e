"""Try every fault, and print the table of how each ended.

    python -m tests.faults [KIND…] [--write] [--interrupts N]

--write writes the table to tests/faults.md. Interrupts are tried N times, 200 unless asked
otherwise.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from tests.faults.every import every
from tests.faults.fault import tried
from tests.faults.interrupts import interrupted, killed
from tests.faults.table import page

PAGE = Path(__file__).resolve().parents[1] / "faults.md"


def main(given: list[str]) -> int:
    """Try them, print each as it ends, and return how many ended wrongly."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults")
    parser.add_argument("kinds", nargs="*", help="only faults of these kinds")
    parser.add_argument("--write", action="store_true", help="write tests/faults.md")
    parser.add_argument("--interrupts", type=int, default=200)
    asked = parser.parse_args(given)

    results = []
    for fault in every():
        if not asked.kinds or fault.kind in asked.kinds:
            result = tried(fault)
            results.append(result)
            print(f"{fault.kind}: {fault.what}: exit {result.code}", *result.wrong, flush=True)
    moments = []
    if asked.interrupts and not asked.kinds:
        moments = [interrupted(asked.interrupts), killed(asked.interrupts)]
        for outcome in moments:
            print(outcome.line(), *outcome.wrong, flush=True)
    if asked.write:
        PAGE.write_text(page(results, moments), "utf-8")
    return sum(bool(one.wrong) for one in results) + sum(bool(one.wrong) for one in moments)


if __name__ == "__main__":
    sys.exit(min(1, main(sys.argv[1:])))
