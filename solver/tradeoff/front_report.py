"""The front as it is reported: its points, the choice among them, what is open, what is beaten."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from solver.job.job import Job
from solver.outcome import program_version
from solver.plan.plan import Option, Timing
from solver.plan.price_front import FrontPoint, NotOnFront, OpenPart, TradeOff
from solver.planning.best_look import look_of
from solver.planning.recommend import CheapestWording, Choice, choose, sentence
from solver.rules_version import RULES
from solver.sizing.combinations import name_of
from solver.tradeoff.price_levels import NEVER, Cost, Level, Levels

NOTHING = "nothing was found by the limit"
UNPROVEN = "the limits came before it was proven that there is none"


@dataclass(frozen=True)
class Shown:
    """A level laid out and written down as an option."""

    level: Level
    option: Option

    @property
    def compared(self) -> tuple[Cost, int]:
        """What is compared: price and places parted."""
        assert self.option.scores is not None
        return self.level.cost, self.option.scores.places_parted


def as_good(one: tuple[Cost, int], other: tuple[Cost, int]) -> bool:
    """Whether one costs no more than the other and parts no more places."""
    return one[0] <= other[0] and one[1] <= other[1]


def unbeaten(laid: Sequence[Shown]) -> list[Shown]:
    """Return those that no other is as good as, cheapest first; of twins the better-looking."""
    kept: list[Shown] = []
    for one in sorted(laid, key=_order):
        if not any(as_good(other.compared, one.compared) for other in kept):
            kept.append(one)
    return kept


def _order(one: Shown) -> tuple[object, ...]:
    return *one.compared, look_of(one.option), one.option.sheet_count, one.option.name


@dataclass(frozen=True)
class FrontReport:
    """All that was found, to be told.

    Attributes
    ----------
    levels
        Of every combination of shelf counts.
    shown
        The points, cheapest first, with their options.
    untried
        How many combinations were too many to try [-].
    """

    job: Job
    levels: Sequence[Levels]
    shown: Sequence[Shown]
    untried: int

    def trade_off(self, timing: Timing, *, over: bool) -> TradeOff:
        """Return the front; `over` where it was stopped, or the time was up."""
        options = [numbered(n, one.option) for n, one in enumerate(self.shown, start=1)]
        choice = choose(self.job, options) if options else None
        points = () if choice is None else tuple(self._points(options, choice))
        open_parts = tuple(self._open())
        proven = all(point.proven for point in points)
        return TradeOff(
            version=program_version(),
            rules=RULES,
            unit=self.job.unit,
            job=self.job,
            job_hash=self.job.hash,
            complete=proven and not open_parts and not self.untried and not over,
            stopped=over,
            points=points,
            open_parts=open_parts,
            not_on_front=tuple(self._not_on_front()),
            not_tried=self.untried,
            recommendation=None
            if choice is None
            else recommendation(self.job, options, choice, stopped=over),
            timing=timing,
        )

    def _points(self, options: Sequence[Option], choice: Choice) -> Iterator[FrontPoint]:
        best = self.shown[[option is choice.recommended for option in options].index(True)]
        for n, (one, option) in enumerate(zip(self.shown, options, strict=True), start=1):
            (area, price), parted = one.compared
            floor, fewest = min(one.level.floor, (area, price)), self._fewest(one)
            yield FrontPoint(
                number=n,
                price=price,
                price_bound=floor[1],
                area=area,
                places_parted=parted,
                parted_bound=fewest,
                proven=floor == (area, price) and fewest == parted,
                premium=premium(one, best),
                option=one.option.model_copy(update={"tags": choice.tags(option)}),
            )

    def _fewest(self, one: Shown) -> int:
        """No layout of these counts that costs no more has fewer places parted [-]."""
        cost, parted = one.compared
        mine = next(some for some in self.levels if one.level in some.levels)
        return min(parted, *(level.least for level in mine.levels if level.floor <= cost))

    def _open(self) -> Iterator[OpenPart]:
        """Levels that may have an option which is better than what is shown."""
        shown = {id(one.level) for one in self.shown}
        for level in (level for some in self.levels for level in some.levels):
            corner = (level.floor, level.least)
            known = id(level) in shown or self._as_good(corner) is not None
            if level.floor != NEVER and not known:
                yield OpenPart(
                    name=name_of(self.job, level.counts),
                    shelf_counts=dict(level.counts),
                    price=level.floor[1],
                    parted_least=level.least,
                    why=UNPROVEN if shown else NOTHING,
                )

    def _as_good(self, compared: tuple[Cost, int]) -> int | None:
        """Number of a point that is as good in both."""
        numbered = enumerate(self.shown, start=1)
        return next((n for n, one in numbered if as_good(one.compared, compared)), None)

    def _not_on_front(self) -> Iterator[NotOnFront]:
        shown = [dict(one.level.counts) for one in self.shown]
        for some in self.levels:
            why: str | int | None = some.refused
            sized = [(one.cost, one.least) for one in some.levels if one.sized is not None]
            if sized and dict(some.counts) not in shown:
                number = self._as_good(min(sized))
                why = number and f"no. {number} is as good or better in price and places parted"
            if why is not None:
                name = name_of(self.job, some.counts)
                yield NotOnFront(name=name, shelf_counts=dict(some.counts), why=why)


def numbered(number: int, option: Option) -> Option:
    """Return the option by the name under which a sentence speaks of it."""
    return option.model_copy(update={"name": f"no. {number} ({option.name})"})


def premium(one: Shown, best: Shown) -> Decimal | None:
    """What it costs more than the recommended one; None where that is less, or has no price."""
    (area, price), _ = one.compared
    (area_best, price_best), _ = best.compared
    return None if area or area_best or price < price_best else price - price_best


def recommendation(
    job: Job, options: Sequence[Option], choice: Choice, *, stopped: bool = False
) -> str:
    """Say which point is recommended and why, what it costs and what the best look would."""
    if len(options) > 1:
        said = sentence(job, list(options), choice)
    else:
        priced = options[0].cost is not None and options[0].cost.complete
        least = CheapestWording(job.head.currency if priced else None)
        so_far = " found so far" if stopped else ""
        said = (
            f"{options[0].name} is recommended: it {least.does}, and no other option{so_far} "
            "parts fewer places."
        )
    return said[:1].upper() + said[1:]
