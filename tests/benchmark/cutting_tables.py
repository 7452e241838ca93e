"""Tables of the cutting benchmark, for the terminal and for the results file."""

from __future__ import annotations

import statistics
from collections import defaultdict
from collections.abc import Callable, Sequence

from tests.benchmark.cutting_run import Result

SOON = 2.0
"""Shop lists are meant to be proven within so many seconds."""
Rows = list[list[str]]

HEAD = [
    *("class", "lists", "sheets", "bound", "best known", "equal", "one over", "more"),
    *("of proven best", "proven", "in 2 s", "median s", "worst s", "late", "peak MiB"),
]
BESIDE = ["class", "lists", "engine", "packer", "strips", "best known or found", "over it"]


def table(results: Sequence[Result]) -> Rows:
    """One row for each class and one for all: what the engine did."""
    return [HEAD, *_each(results, _row)]


def beside(results: Sequence[Result]) -> Rows:
    """One row for each class that can be compared: the same lists cut by others.

    The per cents over best known are of the engine, the packer and the strips.
    """
    known = [r for r in results if r.packer is not None or r.strips is not None]
    return [BESIDE, *_each(known, _beside_row)] if known else []


def _each(results: Sequence[Result], row: Callable[[str, Sequence[Result]], list[str]]) -> Rows:
    classes: dict[str, list[Result]] = defaultdict(list)
    for result in results:
        classes[result.instance.kind].append(result)
    rows = [row(kind, classes[kind]) for kind in sorted(classes)]
    for mode in ("fixed", "turning"):
        some = [r for r in results if r.instance.kind.endswith(mode)]
        if len(rows) > 1 and some:
            rows.append(row(f"all {mode}", some))
    return [*rows, row("all", results)] if len(classes) > 1 else rows


def _row(kind: str, some: Sequence[Result]) -> list[str]:
    known = [r for r in some if r.instance.best]
    surely = [r for r in known if r.instance.best_proven]
    over = _over(known)
    seconds = [r.seconds for r in some]
    soon = sum(r.proven and r.seconds < SOON for r in some)
    return [
        kind,
        str(len(some)),
        str(sum(r.sheets for r in some)),
        str(sum(r.bound for r in some)),
        str(sum(r.instance.best for r in known)) if known else "",
        *(map(str, over) if known else ("", "", "")),
        " + ".join(map(str, _over(surely))) if surely else "",
        str(sum(r.proven for r in some)),
        f"{soon} ({soon / len(some):.0%})",
        f"{statistics.median(seconds):.2f}",
        f"{max(seconds):.2f}",
        str(sum(r.late for r in some)),
        f"{max(r.peak for r in some):.0f}",
    ]


def _over(some: Sequence[Result]) -> tuple[int, int, int]:
    """How many are equal to the best known or better, one over, and more."""
    over = [r.sheets - r.instance.best for r in some]
    return sum(x <= 0 for x in over), over.count(1), sum(x > 1 for x in over)


def _beside_row(kind: str, some: Sequence[Result]) -> list[str]:
    """Sums over the lists that all three have cut; without the packer where it cut none.

    Where the best known is not proven, or not known, the best found in this run stands for it
    if it is better.
    """
    whole = [r for r in some if r.packer is not None and r.strips is not None]
    shown = whole or list(some)
    best = sum(_best(r) for r in shown)
    sums = [sum(r.sheets for r in shown)]
    sums += [sum(r.packer or 0 for r in shown)] if whole else []
    sums += [sum(r.strips or 0 for r in shown)]
    cells = [str(x) for x in sums]
    over = " / ".join(f"{x / best - 1:.2%}" for x in sums)
    if not whole:
        cells.insert(1, "")
    return [kind, str(len(shown)), *cells, str(best), over]


def _best(result: Result) -> int:
    known = (result.instance.best, result.sheets, result.packer, result.strips)
    return min(count for count in known if count)


def plain(rows: Rows) -> str:
    """Columns for the terminal: names to the left, figures to the right."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return "\n".join(
        "  ".join([row[0].ljust(widths[0]), *map(str.rjust, row[1:], widths[1:])]) for row in rows
    )


def markdown(rows: Rows) -> str:
    """Return the same as a table of a text file."""
    head, *body = rows
    lines = [head, ["---", *("---:" for _ in head[1:])], *body]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)
