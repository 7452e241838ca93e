"""The table of faults tried, as a page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from itertools import groupby

from tests.faults.fault import Tried
from tests.faults.interrupts import Moments

HEAD = """# Faults tried

Each is given to the command in a process of its own, in a folder of its own. It must end with a
right answer or with a clear error (exit 1 or 2), without a traceback, within 90 s and 1 GiB, with
nothing left behind and every file that was there as it was. To repeat all of it, and to write this
page:

    python -m tests.faults --write

The readers of lengths, lists, workbooks and job files are fuzzed as well, steered by coverage; the
seeds are in `tests/fuzz/seeds`, a short run is among the tests:

    python -m tests.fuzz lengths --runs 9000000
"""


def page(results: Sequence[Tried], moments: Sequence[Moments]) -> str:
    """Return the page as Markdown."""
    lines = [HEAD, f"Tried on {datetime.now(UTC):%Y-%m-%d}.", ""]
    lines += ["| kind | tried | right | exit codes | longest | most memory |",
              "|---|---|---|---|---|---|"]  # fmt: skip
    for kind, found in groupby(results, key=lambda one: one.fault.kind):
        lines.append(_row(kind, list(found)))
    lines += ["", *(f"- {one.line()}; {len(one.wrong)} wrong" for one in moments)]
    lines += ["", "| kind | fault | exit | outcome |", "|---|---|---|---|"]
    for one in results:
        outcome = "right" if not one.wrong else "WRONG: " + "; ".join(one.wrong)[:200]
        what = one.fault.what.replace("|", "\\|")
        lines.append(f"| {one.fault.kind} | {what} | {one.code} | {outcome} |")
    return "\n".join(lines) + "\n"


def _row(kind: str, found: Sequence[Tried]) -> str:
    right = sum(not one.wrong for one in found)
    codes = ", ".join(map(str, sorted({one.code for one in found})))
    seconds, memory = max(one.seconds for one in found), max(one.memory for one in found)
    return f"| {kind} | {len(found)} | {right} | {codes} | {seconds:.0f} s | {memory >> 20} MiB |"
