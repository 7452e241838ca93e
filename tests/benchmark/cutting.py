"""Cutting against published instances and shop lists: ``python -m tests.benchmark cutting``.

The folder of the published lists holds guillotine.csv, furniture.csv and sticks.csv: sizes are
plain integers, no kerf, no trim, one size of sheet; `best` is the fewest sheets known. Shop lists
are drawn by seed (--limit of them, 200 if left out), `fixtures` are the jobs of this repository,
`big` are lists of 1,000 and 5,000 parts, each in its own process so that memory is its own.

"of proven best" counts equal + one over + more where the best known is proven; "in 2 s" are proven
by then; "late" are answers later than a second over the limit. Beside stand a general-purpose
packer (its best over 72 guillotine settings, merging off) and strips first-fit, both on the lists
that they can cut; "over it" is of the engine, the packer and the strips.
Every answer is judged by rules that know nothing of the engine; one that is wrong, or a bound
above a known answer, fails the run. Times are honest with one worker only.
"""

from __future__ import annotations

import argparse
import shlex
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from tests.benchmark.cutting_run import Result, run
from tests.benchmark.cutting_sets import SETS, Instance, instances, long_list
from tests.benchmark.cutting_tables import SOON, Rows, beside, markdown, plain, table

NEAR = Path(__file__).resolve().parents[3] / "shared" / "benchmarks"
"""Where the published lists lie if no folder is given: beside the checkout."""


def main() -> None:
    """Run the sets and print their tables; exit 1 where an answer is wrong."""
    options = _parser().parse_args()
    print(f"{time.strftime('%Y-%m-%d')}: `python -m tests.benchmark cutting {_given()}`")
    wrong: list[str] = []
    for which in SETS if options.set == "all" else (options.set,):
        results = run_set(which, options)
        form = markdown if options.markdown else plain
        print(f"\n{which}\n")
        print("\n\n".join(shown(results, form)), flush=True)
        wrong += [fault for result in results for fault in result.wrong]
    if wrong:
        print("\nWRONG:\n" + "\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)


def _given() -> str:
    """Return the options as given, without the folder, which differs from place to place."""
    words = sys.argv[1:]
    if "--data" in words:
        words[words.index("--data") + 1] = "FOLDER"
    return shlex.join(words)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark cutting",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--set", choices=(*SETS, "all"), default="all")
    parser.add_argument("--limit", type=int, help="run only so many lists of a set, evenly taken")
    parser.add_argument("--time-limit", type=float, default=10.0, help="seconds for each problem")
    parser.add_argument("--data", type=Path, default=NEAR, help="folder of the published lists")
    parser.add_argument("--workers", type=int, default=1, help="lists cut at a time")
    parser.add_argument("--markdown", action="store_true", help="tables for the results file")
    parser.add_argument("--alone", action="store_true", help="without the packer and the strips")
    return parser


def run_set(which: str, options: argparse.Namespace) -> list[Result]:
    """Cut every list of a set; what is wrong is told at once."""
    lists = instances(which, options.data, options.limit)
    cut = partial(run, limit=options.time_limit, beside=not options.alone)
    found = []
    for result in _results(lists, cut, options.workers, apart=which == "big"):
        found.append(result)
        for fault in result.wrong:
            print(f"WRONG: {fault}", file=sys.stderr, flush=True)
    return found


def _results(
    lists: Sequence[Instance], cut: Callable[[Instance], Result], workers: int, *, apart: bool
) -> Iterator[Result]:
    if workers == 1 and not apart:
        warm_up()
        yield from map(cut, lists)
        return
    fresh = 1 if apart else None
    with ProcessPoolExecutor(
        workers, get_context("spawn"), warm_up, max_tasks_per_child=fresh
    ) as pool:
        yield from pool.map(cut, lists)


def warm_up() -> None:
    """Load the engine's libraries, so that the first list is not charged for them."""
    run(long_list(12, 6, turn=True), limit=2.0, beside=False)


def shown(results: Sequence[Result], form: Callable[[Rows], str]) -> list[str]:
    """Return the engine's table, the one beside others, and the lists that fall short."""
    tables = [form(rows) for rows in (table(results), beside(results)) if rows]
    over = [r for r in results if r.instance.best and r.sheets > r.instance.best]
    open_ = [r for r in results if not r.instance.best and not (r.proven and r.seconds < SOON)]
    names = [f"{r.instance.name} {r.sheets} for {r.instance.best}" for r in over]
    late = [f"{r.instance.name} {r.bound} to {r.sheets}, {r.seconds:.1f} s" for r in open_]
    tables += [f"Over best known: {'; '.join(names)}."] if names else []
    slow = [f"{r.instance.name} {r.seconds:.1f} s" for r in results if r.late]
    tables += [f"Late: {'; '.join(slow)}."] if slow else []
    return tables + ([f"Not proven in {SOON:g} s: {'; '.join(late)}."] if late else [])
