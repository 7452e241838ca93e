"""What smaller sizes save: changed jobs priced, and the first size at which stock is saved."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from solver.changes.change_models import Lot, Problem, by_size, is_priced, solve, weight
from solver.changes.confirm import Tester, Trial, joint_verdict, room_kept, roomy
from solver.changes.levers import SIZES, Lever, reductions
from solver.changes.saving_changes import lots_of
from solver.changes.situation import Situation
from solver.changes.trials import Fitter
from solver.cutting.cutting_problem import CuttingProblem
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.outcome import Limits, Verdict
from solver.plan.plan import Option, money
from solver.plan.slack_and_advice import Alteration
from solver.plan.stocked import Part
from solver.sizing.purchase import Buyer, sheet_parts
from solver.units import Ticks


@dataclass(frozen=True)
class Priced:
    """What a changed job buys: price, None where prices are missing, and sheets [-]."""

    total: Decimal | None
    sheets: int


class Pricer:
    """Prices changed jobs against the option that is recommended.

    Attributes
    ----------
    tester
        Cuts changed lists within counted limits, with room kept.
    """

    def __init__(self, job: Job, option: Option, limits: Limits) -> None:
        self.option, self.limits = option, limits
        self.lots = {
            (_kind(lot.problem), lot.material): lot for lot in lots_of(job, option, limits)
        }
        self.tester = Tester(room_kept(job.shop.margin, job.unit), limits)

    @property
    def room(self) -> Ticks:
        """Room kept in every strip, or the margin [tick]."""
        return self.tester.room

    @property
    def now(self) -> Priced:
        """Return what the option buys as planned."""
        cost = self.option.cost
        complete = cost is not None and cost.complete
        return Priced(cost.total if cost and complete else None, self.option.sheet_count)

    def trials(self, situation: Situation) -> list[tuple[Lot, Trial]]:
        """Cut the parts of each lot, smaller than in the option, unless its bound rules it out."""
        return [
            (lot, self.tester.trial(lot, problem if lot.priced else by_size(problem)))
            for key, problem in _problems(situation, self.limits)
            if (lot := self.lots.get(key)) is not None and lot.bought.count
        ]

    def verdict(self, situation: Situation) -> Verdict:
        """Say whether sizes that are smaller save anything."""
        return joint_verdict([trial for _, trial in self.trials(situation)])

    def less(self, situation: Situation) -> Priced:
        """Return what the smaller sizes buy; lots that do not need less are cut as they are."""
        trials = [(lot, t) for lot, t in self.trials(situation) if t.verdict is Verdict.YES]
        cents = sum(lot.bought.price - trial.bought.price for lot, trial in trials)
        fewer = sum(
            lot.bought.count - trial.bought.count
            for lot, trial in trials
            if isinstance(lot.problem, CuttingProblem)
        )
        total = self.now.total
        return Priced(None if total is None else total - money(cents), self.now.sheets - fewer)

    def price(self, situation: Situation) -> Priced | None:
        """Cut everything anew with room to spare; None where it was not cut, or cannot be."""
        cents, sheets, priced = 0, 0, self.now.total is not None
        for _, problem in _problems(situation, self.limits):
            if self.tester.over:
                return None
            self.tester.lists -= 1
            try:
                bought = weight(solve(roomy(problem, self.room), self.limits).stock)
            except CannotBeDoneError:
                return None
            cents += bought.price
            sheets += bought.count * isinstance(problem, CuttingProblem)
            priced &= is_priced(problem)
        return Priced(money(cents) if priced else None, sheets)


def _kind(problem: Problem) -> bool:
    return isinstance(problem, CuttingProblem)


def _problems(situation: Situation, limits: Limits) -> Iterable[tuple[tuple[bool, str], Problem]]:
    """Yield what is to be cut, by kind and material."""
    buyer = Buyer(situation.job, limits)
    by_material: dict[str, list[Part]] = defaultdict(list)
    for part in sheet_parts(situation.job, situation.counts, situation.depths):
        by_material[part.material].append(part)
    for material, parts in by_material.items():
        yield (True, material), buyer.problem(material, parts)
    for sticks in buyer.stick_problems(situation.counts, situation.depths):
        yield (False, sticks.sticks[0].stock), sticks


@dataclass(frozen=True)
class NearCandidate:
    """A change that may gain something: the situation with it, and what that buys."""

    alters: tuple[Alteration, ...]
    situation: Situation
    priced: Priced
    smallest: bool
    lets_in: dict[str, int] = field(default_factory=dict)


@dataclass
class Tried:
    """Changes tried, in words: those proven to gain nothing, and those only searched."""

    proven: list[str] = field(default_factory=list)
    searched: list[str] = field(default_factory=list)

    def add(self, what: str, *, proven: bool) -> None:
        """Note a change that gained nothing, and whether that is proven."""
        (self.proven if proven else self.searched).append(what)


def size_savings(
    base: Situation, near: Ticks, pricer: Pricer, fitter: Fitter, tried: Tried
) -> Iterator[NearCandidate]:
    """Yield the least reduction of each size, of all cases and of each, that saves stock.

    A size that saves nothing at its least, in all cases together, saves nothing at all: the
    parts only get smaller. The price falls with the size, so that the first size that saves is
    found by halving; a smaller case never takes more, so that only this one is tried for fit.
    """
    levers = reductions(base.job, near)
    for what in SIZES:
        each = [lever for lever in levers if lever.what == what]
        if not each:
            continue
        verdict = pricer.verdict(each[0].at(base, each[0].most))
        finds, sure = [], verdict is Verdict.NO
        if verdict is Verdict.YES:
            results = [_least_reduction(base, lever, pricer, fitter) for lever in each]
            finds = [find for find, _ in results if find is not None]
            sure = all(proven for _, proven in results)
        yield from finds
        if not finds:
            tried.add(f"less {what}", proven=sure)


def _least_reduction(
    base: Situation, lever: Lever, pricer: Pricer, fitter: Fitter
) -> tuple[NearCandidate | None, bool]:
    """Return the least reduction that saves, if everything fits there; else if that is proven."""
    verdict = pricer.verdict(lever.at(base, lever.most))
    if verdict is not Verdict.YES:
        return None, verdict is Verdict.NO
    low, high, less = 0, lever.most, True
    while high - low > 1:
        middle = (low + high) // 2
        verdict = pricer.verdict(lever.at(base, middle))
        if verdict is Verdict.YES:
            high = middle
        else:
            low, less = middle, verdict is Verdict.NO
    after = lever.at(base, high)
    sure = less and _same_parts(base, after)
    verdict = fitter.fits(after)
    if verdict is not Verdict.YES:
        return None, sure and verdict is Verdict.NO
    return NearCandidate((lever.change(high),), after, pricer.less(after), sure), False


def _same_parts(base: Situation, after: Situation) -> bool:
    """Whether both are made of the same parts: a back may come in one piece, or a piece a bay."""
    both = (sheet_parts(one.job, one.counts, one.depths) for one in (base, after))
    before, now = ([part.id for part in parts] for parts in both)
    return before == now
