"""The trade-off front of a job: price against rhythm against even headroom, proven.

All price levels (:mod:`solver.tradeoff.price_levels`) find their best rhythm first. What is known
then shows in every level which boxes cannot hold anything new, and only the rest is searched; last
come the larger sizes at higher prices (:func:`roomier`). Levels run side by side, each
deterministic, and meet between these rounds only, so that the front repeats byte for byte.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from solver.errors import CannotBeDoneError, InterruptedPlanError
from solver.job.job import Job
from solver.layout.layout_problem import BayShape, LayoutProblem
from solver.layout.pareto_front import ParetoSearch
from solver.layout.pareto_points import PERFECT, Fineness
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Progress
from solver.plan.plan import Timing
from solver.plan.price_front import TradeOff
from solver.planning.fallback import first_layout
from solver.planning.option_stages import rounded
from solver.sizing.combinations import Counts, combinations, name_of
from solver.sizing.on_hand_outcome import settled_by_on_hand
from solver.sizing.pricing import INFINITE_COST, Pricing, StockCost
from solver.sizing.purchase import Buyer
from solver.sizing.size_grid import Grid, Point
from solver.strength.cautions import refuse
from solver.tradeoff.front_report import FrontReport, NoOption
from solver.tradeoff.price_levels import (
    Finisher,
    LevelSearch,
    PriceLevel,
    UncomparedSizes,
    beaten_in,
    start_search,
    with_matched,
)
from solver.units import with_unit

LEVELS_MOST = 6
"""Most prices of one combination of shelf counts that are looked at [-]."""
NO_RHYTHM = Fraction(0)
"""Score of a perfect rhythm [tick]."""
T = TypeVar("T")
U = TypeVar("U")


def trade_off(
    job: Job,
    limits: Limits | None = None,
    progress: Progress | None = None,
    *,
    every: bool = False,
) -> TradeOff:
    """Find every option that is not beaten on price, rhythm and headroom together.

    Parameters
    ----------
    job
        The job, validated.
    limits
        Seed, deterministic work and wall-clock backstop; left out, the defaults.
    progress
        Called with a line of text whenever something is found; from any thread.
    every
        True for options as well that differ from another by less than anybody sees
        (`rhythm_slack` and `headroom_slack` of the job).

    Raises
    ------
    InterruptedPlanError
        Where it was stopped before anything was found.
    CannotBeDoneError
        Where a case may not stand in the place of the old door.
    """
    limits = limits or Limits()
    refuse(job)
    started = time.perf_counter()
    tell = progress or (lambda _: None)
    look = job.look
    fineness = Fineness(0, 0) if every else Fineness(look.rhythm_slack, look.headroom_slack)
    job, kept = settled_by_on_hand(job)
    counts, untried = combinations(job)
    buyer = Buyer(job, limits)
    searches, refused = _start(job, counts, buyer, limits, fineness, tell)
    _finish(job, searches, searches, fineness, tell)
    roomy = _with_more_room(job, searches, buyer, limits, fineness, tell)
    _finish(job, roomy, [*searches, *roomy], fineness, tell)
    searches += roomy
    if limits.stopper.stopped and not any(search.candidates for search in searches):
        searches = _first_to_come(job, searches, buyer, limits, fineness, progress)
    if limits.stopper.stopped and not any(search.candidates for search in searches):
        msg = "stopped before any layout was found; nothing is written"
        raise InterruptedPlanError(msg)
    report = FrontReport(job, searches, refused, fineness, untried, Finisher(job, kept, limits))
    timing = Timing(seconds=round(time.perf_counter() - started, 3))
    return report.trade_off(timing, over=limits.over)


def _start(
    job: Job,
    counts: Sequence[Counts],
    buyer: Buyer,
    limits: Limits,
    fineness: Fineness,
    tell: Progress,
) -> tuple[list[LevelSearch], list[NoOption]]:
    """Start every combination: sizes, stock and best rhythm; and say which cannot be cut."""

    def start(one: Counts) -> LevelSearch | NoOption:
        try:
            search = start_search(job, one, buyer, limits, fineness, tell)
        except CannotBeDoneError as error:
            return NoOption(one, str(error))
        tell(_found(job, search))
        return search

    found = _side_by_side(start, counts)
    searches = [one for one in found if isinstance(one, LevelSearch)]
    return searches, [one for one in found if isinstance(one, NoOption)]


def _first_to_come(
    job: Job,
    searches: list[LevelSearch],
    buyer: Buyer,
    limits: Limits,
    fineness: Fineness,
    progress: Progress | None,
) -> list[LevelSearch]:
    """Return the searches, one with a layout if any can be: all was stopped before that."""

    def attempt(one: Counts, given: Limits) -> LevelSearch | None:
        search = start_search(job, one, buyer, given, fineness, lambda _: None)
        return search if search.candidates else None

    # Only sizes first chosen have been started; those with more room need layouts to start from.
    found = first_layout([search.level.counts for search in searches], limits, progress, attempt)
    if found is None:
        return searches
    number, search = found
    return [*searches[:number], search, *searches[number + 1 :]]


def _with_more_room(
    job: Job,
    searches: Sequence[LevelSearch],
    buyer: Buyer,
    limits: Limits,
    fineness: Fineness,
    tell: Progress,
) -> list[LevelSearch]:
    """Searches of larger sizes, for each level that has room to win by them."""
    known = [one for search in searches for one in search.candidates]

    def more(search: LevelSearch) -> list[LevelSearch]:
        found = roomier(job, search.level, buyer)
        search.between = found.between
        begun = [
            LevelSearch(level, ParetoSearch(level.problem, limits, fineness))
            for level in found.levels
        ]
        return [one for one in begun if not beaten_in(one, known, fineness)(NO_RHYTHM, PERFECT)]

    def start(search: LevelSearch) -> None:
        search.trading.first()
        if search.trade.points:
            search.level = with_matched(search.level, buyer, limits)
        tell(_found(job, search))

    roomy = [one for found in _side_by_side(more, _working(searches)) for one in found]
    _side_by_side(start, roomy)
    return roomy


def _working(searches: Sequence[LevelSearch]) -> list[LevelSearch]:
    return [search for search in searches if search.trade.points]


def _finish(
    job: Job,
    searches: Sequence[LevelSearch],
    beside: Sequence[LevelSearch],
    fineness: Fineness,
    tell: Progress,
) -> None:
    """Find what lies between, where what was found so far does not rule it out."""
    known = [one for search in beside for one in search.candidates]

    def finish(search: LevelSearch) -> None:
        search.trading.rest(beaten_in(search, known, fineness))
        tell(_found(job, search))

    _side_by_side(finish, _working(searches))


def _side_by_side(work: Callable[[T], U], over: Sequence[T]) -> list[U]:
    with ThreadPoolExecutor(max_workers=min(max(1, len(over)), os.cpu_count() or 1)) as pool:
        return list(pool.map(work, over))


def _found(job: Job, search: LevelSearch) -> str:
    name, points = name_of(job, search.level.counts), search.trade.points
    if not points:
        return f"{name}: nothing yet"
    best = min(points, key=lambda point: point.rhythm)
    stock = search.level.sized.stock
    options = f"{len(points)} option{'' if len(points) == 1 else 's'}"
    rhythm = with_unit(rounded(best.rhythm), job.unit)
    return f"{name}: {job.head.currency} {stock.price}, {options}, best rhythm off by {rhythm}"


@dataclass(frozen=True)
class Roomier:
    """Levels with more room than the cheapest, cheapest first, and what they answer for."""

    levels: tuple[PriceLevel, ...] = ()
    between: UncomparedSizes = UncomparedSizes.NONE


def roomier(job: Job, level: PriceLevel, buyer: Buyer) -> Roomier:
    """Return the levels of one combination of shelf counts over its cheapest one."""
    sized = level.sized
    if not sized.axes:
        return Roomier()
    grid = Grid(job, level.counts, sized.axes)
    heights = any(axis.what == "height" for axis in sized.axes)
    finder = _Finder(grid, Pricing(grid, buyer), level)
    if heights or len(sized.axes) > 1:
        if heights:
            return Roomier(between=UncomparedSizes.SOME)
        return Roomier(finder.different([grid.high]), UncomparedSizes.IF_BETTER)
    if not finder.pricing.alike(sized.point, grid.high):
        return Roomier(finder.different([grid.high]), UncomparedSizes.IF_BETTER)
    points = list(finder.tops())
    between = UncomparedSizes.NONE if points[-1] == grid.high else UncomparedSizes.SOME
    return Roomier(finder.different(points), between)


@dataclass(frozen=True)
class _Finder:
    grid: Grid
    pricing: Pricing
    cheapest: PriceLevel

    def tops(self) -> Iterator[Point]:
        """The roomiest size of each price, the only open size going up."""
        (at,), (last,) = self.cheapest.sized.point, self.grid.high
        for _ in range(LEVELS_MOST):
            cost = self.pricing.at((at,)).cost
            good, bad = at, last + 1
            while bad - good > 1:
                middle = (good + bad) // 2
                if self.pricing.at((middle,)).cost <= cost:
                    good = middle
                else:
                    bad = middle
            yield (good,)
            if good == last:
                return
            at = good + 1

    def different(self, points: list[Point]) -> tuple[PriceLevel, ...]:
        """The levels at these points that have more room than the one before, and can be cut."""
        found: list[PriceLevel] = []
        before = self.cheapest
        for point in points:
            priced = self.pricing.at(point)
            if priced.cost == INFINITE_COST:
                break
            level = self._level(point, priced)
            if room_of(level.problem) != room_of(before.problem):
                found.append(level)
                before = level
        return tuple(found)

    def _level(self, point: Point, priced: StockCost) -> PriceLevel:
        job, depths = self.grid.settled(point)
        sized, stock = self.cheapest.sized, priced.bought
        distance = self.grid.distance(point)
        farther = all(axis.wished >= at for axis, at in zip(self.grid.axes, point, strict=True))
        here = replace(
            sized,
            job=job,
            depths=depths,
            stock=stock,
            bound=min(priced.bound[0], stock.price),
            price_proven=stock.proven,
            sheet_bound=min(sized.sheet_bound, stock.sheet_count),
            distance=distance,
            nearest=distance if farther and len(point) == 1 else 0,
            point=point,
        )
        share = self.cheapest.share
        problem = build(job, self.cheapest.counts, depths, share=share)
        return replace(self.cheapest, sized=here, problem=problem, sets=(), floor=sized.bound)


def room_of(problem: LayoutProblem) -> LayoutProblem:
    """Return the problem with depths and load limits that allow the same made equal."""
    depths = {form.depth for kind in problem.kinds for form in kind.forms}
    heaviest = sum(kind.mass * kind.count for kind in problem.kinds)

    def plain(bay: BayShape) -> BayShape:
        deep = max((depth for depth in depths if depth <= bay.deep), default=0)
        return replace(bay, deep=deep, front=0, load=min(bay.load, heaviest))

    bays = tuple(plain(bay) for bay in problem.bays)
    return replace(problem, bays=bays, lines_apart=())
