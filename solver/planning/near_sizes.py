"""Sizes a little less that save a sheet: the first cliff down, with everything still fitting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from solver.outcome import Verdict
from solver.planning.levers import SIZES, Lever, reductions
from solver.planning.near_prices import Priced, Till
from solver.planning.situation import Situation
from solver.planning.stock import sheet_parts
from solver.planning.trials import Fitter
from solver.remarks import Altered
from solver.units import Ticks


@dataclass(frozen=True)
class Find:
    """A change that gains something: what it is, its situation, and what that buys."""

    alters: tuple[Altered, ...]
    situation: Situation
    priced: Priced
    smallest: bool
    lets_in: dict[str, int] = field(default_factory=dict)


@dataclass
class Known:
    """What was tried, by the words of it: what is proven to gain nothing, and what is not."""

    proven: list[str] = field(default_factory=list)
    searched: list[str] = field(default_factory=list)

    def add(self, what: str, *, proven: bool) -> None:
        """Note what came of trying one thing."""
        (self.proven if proven else self.searched).append(what)


def size_savings(
    base: Situation, near: Ticks, till: Till, fitter: Fitter, known: Known
) -> Iterator[Find]:
    """Yield the least reduction of each size, of all cases and of each, that saves stock.

    A size that saves nothing at its least, in all cases together, saves nothing at all: the
    parts only get smaller. The price falls with the size, so that the cliff is found by halving,
    and a smaller case never takes more, so that only the cliff itself need be tried for fit.
    """
    levers = reductions(base.job, near)
    for what in SIZES:
        each = [lever for lever in levers if lever.what == what]
        if not each:
            continue
        verdict = till.verdict(each[0].at(base, each[0].most))
        finds, sure = [], verdict is Verdict.NO
        if verdict is Verdict.YES:
            results = [_cliff(base, lever, till, fitter) for lever in each]
            finds = [find for find, _ in results if find is not None]
            sure = all(proven for _, proven in results)
        yield from finds
        if not finds:
            known.add(f"less {what}", proven=sure)


def _cliff(base: Situation, lever: Lever, till: Till, fitter: Fitter) -> tuple[Find | None, bool]:
    """The least reduction that saves, if everything fits there; else whether that is proven."""
    verdict = till.verdict(lever.at(base, lever.most))
    if verdict is not Verdict.YES:
        return None, verdict is Verdict.NO
    low, high, less = 0, lever.most, True
    while high - low > 1:
        middle = (low + high) // 2
        verdict = till.verdict(lever.at(base, middle))
        if verdict is Verdict.YES:
            high = middle
        else:
            low, less = middle, verdict is Verdict.NO
    after = lever.at(base, high)
    sure = less and _same_parts(base, after)
    verdict = fitter.fits(after)
    if verdict is not Verdict.YES:
        return None, sure and verdict is Verdict.NO
    return Find((lever.change(high),), after, till.less(after), sure), False


def _same_parts(base: Situation, after: Situation) -> bool:
    """Whether both are made of the same parts: a back may come in one piece, or a piece a bay."""
    both = (sheet_parts(one.job, one.counts, one.depths) for one in (base, after))
    before, now = ([part.id for part in parts] for parts in both)
    return before == now
