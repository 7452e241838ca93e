"""Cutting against published instances: ``python -m tests.benchmark.cutting --data FOLDER``.

The folder holds guillotine.csv, furniture.csv and sticks.csv: sizes are plain integers, no
kerf, no trim, one size of sheet; `best` is the fewest sheets known. Where `best` is blank an
instance counts as neither equal nor over.
"""

from __future__ import annotations

import argparse
import csv
import statistics
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from solver.cutting.problem import StickPart, StickProblem, StickStock
from solver.cutting.solve import solve_cutting, solve_sticks
from solver.outcome import Limits, Status
from tests.cutting_checks import faults, problem
from tests.validation.test_cutting_published import rectpack_count

BESIDE = Path(__file__).resolve().parents[3] / "shared" / "benchmarks"
"""Where the lists lie if no folder is given: beside the checkout."""


@dataclass
class Tally:
    """What one class of instances came to."""

    sheets: int = 0
    best: int = 0
    equal: int = 0
    one_over: int = 0
    more: int = 0
    proven: int = 0
    beside: int = 0
    seconds: list[float] = field(default_factory=list)

    def count(self, sheets: int, best: int, proven: bool, seconds: float) -> None:
        """Add one instance; `best` 0 is not known."""
        self.sheets += sheets
        self.best += best
        self.proven += proven
        self.seconds.append(seconds)
        if best:
            self.equal += sheets <= best
            self.one_over += sheets == best + 1
            self.more += sheets > best + 1

    def line(self, name: str) -> str:
        """One line of the table."""
        times = f"{statistics.median(self.seconds):8.2f} {max(self.seconds):8.2f}"
        figures = (self.sheets, self.best, self.equal, self.one_over, self.more, self.proven)
        shown = " ".join(f"{figure:7d}" for figure in figures)
        return f"{name:22} {len(self.seconds):5d} {shown} {times} {self.beside or '':>8}"


HEAD = (
    f"{'class':22} {'lists':>5} {'sheets':>7} {'best':>7} {'equal':>7} {'one over':>8}"
    f" {'more':>6} {'proven':>7} {'median s':>8} {'worst s':>8} {'rectpack':>8}"
)


def read(text: str) -> list[list[int]]:
    """Sizes and quantity of each part: `LENGTHxWIDTH*QUANTITY`, or `LENGTH*QUANTITY`."""
    return [[int(x) for x in row.replace("*", "x").split("x")] for row in text.split()]


def run_sheets(row: dict[str, str], limit: float, beside: bool) -> Iterator[tuple[str, Tally]]:
    """Cut one list, with its parts fixed and turning."""
    parts = [(a, b, n) for a, b, n in read(row["parts"])]
    size = int(row["sheet_length"]), int(row["sheet_width"])
    for mode in ("fixed", "turning"):
        asked = problem(parts, size, turn=mode == "turning")
        started = time.perf_counter()
        answer = solve_cutting(asked, Limits(seconds=limit))
        seconds = time.perf_counter() - started
        wrong = faults(asked, answer)
        best = int(row[f"{mode}_best"] or 0)
        if wrong or (best and answer.sheet_bound > best):
            msg = f"{row['instance']} {mode}: {wrong}, bound {answer.sheet_bound}, best {best}"
            raise AssertionError(msg)
        tally = Tally()
        tally.count(answer.sheet_count, best, answer.status is Status.OPTIMAL, seconds)
        if beside:
            tally.beside = rectpack_count(parts, size, turn=mode == "turning")
        yield f"{row.get('class', 'furniture')} {mode}", tally


def run_sticks(row: dict[str, str], limit: float) -> Iterator[tuple[str, Tally]]:
    """Cut one list of sticks."""
    lengths = [length for length, count in read(row["parts"]) for _ in range(count)]
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    stick = StickStock("stick", int(row["stick_length"]), None)
    started = time.perf_counter()
    answer = solve_sticks(StickProblem(pieces, (stick,), kerf=0), Limits(seconds=limit))
    tally = Tally()
    proven = answer.status is Status.OPTIMAL
    tally.count(answer.stick_count, int(row["best"]), proven, time.perf_counter() - started)
    yield row["instance"].split()[0], tally


def add(total: Tally, one: Tally) -> None:
    """Add one instance's figures to its class."""
    for name in ("sheets", "best", "equal", "one_over", "more", "proven", "beside"):
        setattr(total, name, getattr(total, name) + getattr(one, name))
    total.seconds += one.seconds


def main() -> None:
    """Run the lists and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--set", choices=("guillotine", "furniture", "sticks"), required=True)
    parser.add_argument("--limit", type=int, help="run only so many lists, evenly taken")
    parser.add_argument("--time-limit", type=float, default=60.0, help="seconds for each list")
    parser.add_argument("--data", type=Path, default=BESIDE, help="folder of the lists")
    parser.add_argument("--rectpack", action="store_true", help="run rectpack beside")
    options = parser.parse_args()
    with (options.data / f"{options.set}.csv").open(encoding="utf-8", newline="") as file:
        lists = list(csv.DictReader(file))
    step = max(1, len(lists) // options.limit) if options.limit else 1
    totals: dict[str, Tally] = {}
    for row in lists[::step]:
        done = (
            run_sticks(row, options.time_limit)
            if options.set == "sticks"
            else run_sheets(row, options.time_limit, options.rectpack)
        )
        for name, tally in done:
            add(totals.setdefault(name, Tally()), tally)
    print(HEAD)
    everything = Tally()
    for name in sorted(totals):
        print(totals[name].line(name))
        add(everything, totals[name])
    print(everything.line("all"))


if __name__ == "__main__":
    main()
