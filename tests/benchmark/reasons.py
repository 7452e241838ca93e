"""``python -m tests.benchmark reasons``: does what is said to bind bind, and does the cure do?"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Sequence

from tests.reasons import first_cure_does, fits_without, impossible


def main(arguments: Sequence[str]) -> None:
    """Check drawn jobs that cannot be done; print one line, and one for each that is wrong."""
    parser = argparse.ArgumentParser(prog="reasons", description=__doc__)
    parser.add_argument("--jobs", type=int, default=200)
    number = parser.parse_args(arguments).jobs
    named: Counter[str] = Counter()
    wrong = without = 0
    for job, option in impossible(number):
        limits = option.binds[0].limits if option.binds else ()
        named[" + ".join(limits) or "several"] += 1
        without += not option.changes
        bound = not limits or fits_without(job, limits)
        cured = first_cure_does(job, option)
        if not (bound and cured):
            wrong += 1
            print(f"wrong: {job.hash[:8]} {limits} binds {bound}, cure does {cured}: {option.why}")
    counts = ", ".join(f"{name} {count}" for name, count in named.most_common())
    print(f"{number} jobs that cannot be done, {wrong} wrong, {without} without a cure")
    print(f"named: {counts}")
