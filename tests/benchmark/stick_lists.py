"""Lists of sticks drawn by the papers' descriptions: ``python -m tests.benchmark.stick_lists``.

Other lists than the published ones, of the same kinds:

* uniform and triplets: Falkenauer, J. of Heuristics 2 (1996): lengths 20 to 100 on sticks of 150;
  and triplets that fill sticks of 1000 (380 to 490, the second from 250 to half of the rest);
* hard: as Schoenfield (2002): 160 to 200 lengths from 1 to 800 on sticks of 1000;
* many kinds: as Waescher and Gau, OR Spektrum 18 (1996): sticks of 10000, up to 65 kinds;
* alike: Schwerin and Waescher, ITOR 4 (1997): 100 or 120 lengths from 150 to 200 on 1000;
* shop: lips, casing and baseboard from up to four lengths with prices, one of them scarce.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Callable, Iterator
from decimal import Decimal
from random import Random

from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from solver.units import inches

Drawn = Callable[[Random], tuple[list[int], int]]


def uniform(chance: Random) -> tuple[list[int], int]:
    """120 to 1000 lengths from 20 to 100 on 150."""
    return [chance.randint(20, 100) for _ in range(chance.choice((120, 250, 500, 1000)))], 150


def triplets(chance: Random) -> tuple[list[int], int]:
    """Threes that fill their stick of 1000."""
    lengths: list[int] = []
    for _ in range(chance.choice((20, 40, 83, 167))):
        first = chance.randint(380, 490)
        second = chance.randint(250, (1000 - first) // 2)
        lengths += [first, second, 1000 - first - second]
    return lengths, 1000


def hard(chance: Random) -> tuple[list[int], int]:
    """160 to 200 lengths from 1 to 800 on 1000."""
    return [chance.randint(1, 800) for _ in range(chance.choice((160, 180, 200)))], 1000


def many_kinds(chance: Random) -> tuple[list[int], int]:
    """30 to 65 kinds of up to half of a stick of 10000, each some times."""
    most = chance.choice((2500, 5000))
    kinds = [chance.randint(10, most) for _ in range(chance.randint(30, 65))]
    return [length for length in kinds for _ in range(chance.randint(1, 5))], 10_000


def alike(chance: Random) -> tuple[list[int], int]:
    """100 or 120 lengths from 150 to 200 on 1000."""
    return [chance.randint(150, 200) for _ in range(chance.choice((100, 120)))], 1000


def one_size(drawn: Drawn, chance: Random) -> StickProblem:
    """Make a problem without a kerf, with one length of stick."""
    lengths, whole = drawn(chance)
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    return StickProblem(pieces, (StickStock("stick", whole, None),), kerf=0)


def shop(chance: Random) -> StickProblem:
    """Up to 12 kinds and 60 pieces, in sixteenths, from two to four lengths with prices."""
    step = inches("1/16")
    kinds = [chance.randint(6 * 16, 84 * 16) * step for _ in range(chance.randint(3, 12))]
    count = chance.randint(len(kinds), 60)
    lengths = [*kinds, *(chance.choice(kinds) for _ in range(count - len(kinds)))]
    feet = sorted(chance.sample((8, 10, 12, 14, 16), chance.randint(2, 4)))
    sticks = [
        StickStock(
            f"{n} ft",
            n * inches(12),
            Decimal(n * 95 + chance.randint(-60, 60)) / 100,
            limit=chance.choice((None, None, 2)) if n != feet[-1] else None,
        )
        for n in feet
    ]
    offcut = StickStock("offcut", chance.randint(20, 90) * inches(1), None, on_hand=1, limit=0)
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    return StickProblem(pieces, (*sticks, offcut), kerf=inches("1/8"))


def lists(many: int) -> Iterator[tuple[str, StickProblem]]:
    """Yield so many lists of each kind."""
    for drawn in (uniform, triplets, hard, many_kinds, alike):
        for seed in range(many):
            yield drawn.__name__, one_size(drawn, Random(f"{drawn.__name__} {seed}"))
    for seed in range(many):
        yield "shop", shop(Random(f"shop {seed}"))


def main() -> None:
    """Cut the lists and print, by kind, how far the answers are from their bounds."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--many", type=int, default=20, help="lists of each kind")
    parser.add_argument("--seconds", type=float, default=10.0, help="limit for each list")
    asked = parser.parse_args()
    found: dict[str, list[tuple[bool, int, float]]] = {}
    for kind, problem in lists(asked.many):
        started = time.perf_counter()
        answer = solve_sticks(problem, Limits(seconds=asked.seconds))
        taken = time.perf_counter() - started
        over = answer.count - answer.count_bound
        found.setdefault(kind, []).append((answer.status is Status.OPTIMAL, over, taken))
    print(f"{'kind':12} {'lists':>6} {'proven':>7} {'median s':>9} {'worst s':>8}  not proven")
    for kind, rows in found.items():
        seconds = [row[2] for row in rows]
        print(
            f"{kind:12} {len(rows):6d} {sum(row[0] for row in rows):7d}"
            f" {statistics.median(seconds):9.2f} {max(seconds):8.2f} "
            f" {[f'{row[1]} over, {row[2]:.1f} s' for row in rows if not row[0]]}"
        )


if __name__ == "__main__":
    main()
