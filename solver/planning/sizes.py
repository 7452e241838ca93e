"""Open depths: the least that lets most things fit, the cheapest stock, the size nearest the wish.

Why this is exact for one open depth. Parts depend on counts and depth only. A deeper case
never lets fewer things fit, and never costs less to cut, since a pattern for the deeper
parts also cuts the shallower ones. So with the fewest things left out (stage 1) found at
the most depth, the least depth that still leaves so few out has the least price (stage 2),
and the depths of that price are an unbroken range, whose end nearest the wish is found by
halving (stage 3).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from solver.case import SizeRange
from solver.job import Job, depth_wanted
from solver.layout.problem import LayoutProblem, build
from solver.layout.solve import fewest_left
from solver.outcome import Limits
from solver.planning.combinations import Counts
from solver.planning.stock import Buyer, StockAnswer
from solver.units import Ticks, round_up

Depths = Mapping[str, Ticks]


@dataclass(frozen=True)
class Sized:
    """Depths chosen, the stock at them, and the bound over all depths that let as much fit.

    `least` is the stock at the least depths, whose bound holds for all of them;
    `distance` is how far the depths are from the wished ones together [tick], `nearest` its
    proven lower bound. `proven` is False where several depths are open at once.
    """

    depths: dict[str, Ticks]
    stock: StockAnswer
    least: StockAnswer
    distance: Ticks
    nearest: Ticks


def choose_depths(job: Job, counts: Counts, buyer: Buyer, limits: Limits, *, share: bool) -> Sized:
    """Choose the inside depth of each case for one combination of shelf counts."""
    wanted = {case.name: depth_wanted(job, case) for case in job.cases}
    open_ = {name: size for name, size in wanted.items() if isinstance(size, SizeRange)}
    most = {
        name: size.most if isinstance(size, SizeRange) else size for name, size in wanted.items()
    }
    least = _least_depths(job, counts, most, open_, limits, share=share)
    cheapest = buyer.stock(counts, least)
    depths = dict(least)
    for name, size in open_.items():
        depths[name] = _nearest(
            job, depths, name, size, lambda d: buyer.stock(counts, d).weight <= cheapest.weight
        )
    distance = sum(abs(depths[n] - s.wished) for n, s in open_.items())
    single = len(open_) <= 1
    return Sized(depths, buyer.stock(counts, depths), cheapest, distance, distance if single else 0)


def _allowed(job: Job, size: SizeRange) -> list[Ticks]:
    """Depths on the cutting step within the range, its ends and the wished one, ascending."""
    step = job.shop.cutting_step
    on_step = range(round_up(size.least, step), size.most + 1, step)
    return sorted({size.least, *on_step, size.wished, size.most})


def _least_depths(
    job: Job,
    counts: Counts,
    most: Depths,
    open_: Mapping[str, SizeRange],
    limits: Limits,
    *,
    share: bool,
) -> dict[str, Ticks]:
    """Case by case the least depth at which no more is left out than at the most depth."""
    depths = dict(most)
    if not open_:
        return depths
    left = fewest_left(build(job, counts, most, share=share), limits).count
    for name, size in open_.items():
        allowed = _allowed(job, size)
        candidates = sorted(
            {
                allowed[min(bisect_left(allowed, d), len(allowed) - 1)]
                for d in _critical(job, counts, depths, name)
            }
        )
        low, high = 0, len(candidates) - 1
        while low < high:
            middle = (low + high) // 2
            tried = {**depths, name: candidates[middle]}
            if _fits_as_much(build(job, counts, tried, share=share), left, limits):
                high = middle
            else:
                low = middle + 1
        depths[name] = candidates[high]
    return depths


def _critical(job: Job, counts: Counts, depths: Depths, name: str) -> set[Ticks]:
    """Depths at which one more way of standing becomes possible, and both ends of the range."""
    problem = build(job, counts, depths)
    number = [case.name for case in job.cases].index(name)
    bay = next(b for b in problem.bays if b.case == number)
    front = depths[name] - bay.deep
    sizes = {form.depth + front for kind in problem.kinds for form in kind.forms}
    return {0, depths[name]} | {s for s in sizes if s <= depths[name]}


def _fits_as_much(problem: LayoutProblem, left: int | None, limits: Limits) -> bool:
    """Whether no more than `left` things are left out; None: even the most depth gave no layout."""
    return left is None or fewest_left(problem, limits, enough=left).within(left)


def _nearest(
    job: Job, depths: Depths, name: str, size: SizeRange, cheap: Callable[[Depths], bool]
) -> Ticks:
    """The depth nearest to the wish that is still as cheap; `depths` holds the least one."""
    allowed = [d for d in _allowed(job, size) if d >= depths[name]]
    goal = bisect_left(allowed, size.wished)  # the wish itself, or the least depth above it
    if goal == 0 or cheap({**depths, name: allowed[goal]}):
        return allowed[goal]
    good, bad = 0, goal
    while bad - good > 1:
        middle = (good + bad) // 2
        if cheap({**depths, name: allowed[middle]}):
            good = middle
        else:
            bad = middle
    return allowed[good]
