"""How the options differ, for a client: prices and plain sentences.

A price is all that the work costs where that is known, else what the boards cost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from cli.papers.client_price import is_priced
from cli.screen.wording import amount, count, listed, short_text
from solver.costing.estimate import estimate
from solver.job.price_terms import PriceList
from solver.outcome import Status
from solver.plan.built import Opening, Placement
from solver.plan.estimated import Estimate
from solver.plan.plan import Option, Plan
from solver.planning.look_words import look_points
from solver.units import with_unit


@dataclass(frozen=True)
class Prices:
    """Prices of options by name, all counted alike; None where nothing has a price."""

    amounts: dict[str, Decimal | None]
    open: frozenset[str]
    """Options in which something that is counted has no price yet."""
    currency: str
    what: str
    """What is in them, in a word or two."""

    def text(self, option: Option) -> str:
        """The price of an option, without what it is for."""
        total = self.amounts.get(option.name)
        if total is None:
            return "no prices given" if option.cases else ""
        more = " and what has no price yet" if option.name in self.open else ""
        return f"{amount(total, self.currency)}{more}"

    def is_known(self, option: Option) -> bool:
        """Whether the option has a price at all."""
        return self.amounts.get(option.name) is not None

    def is_least(self, option: Option) -> bool:
        """Whether nothing that is shown costs less, with every price known."""
        known = [one for one in self.amounts.values() if one is not None]
        return not self.open and self.is_known(option) and self.amounts[option.name] == min(known)


def prices(plan: Plan, options: Sequence[Option], known: PriceList | None) -> Prices:
    """Price the options: estimates where each is whole, else sheets and mouldings only."""
    currency = plan.job.head.currency
    estimates = _estimates(plan, options, known)
    if estimates and all(is_priced(one) for one in estimates.values()):
        tax = any(line.kind == "tax" for one in estimates.values() for line in one.sums)
        what = f"work and materials, {'tax included' if tax else 'without tax'}"
        return Prices(
            {name: one.total for name, one in estimates.items()}, frozenset(), currency, what
        )
    costs = {option.name: option.cost for option in options if option.cost is not None}
    incomplete = {name for name, cost in costs.items() if not cost.complete}
    return Prices(
        {
            name: None if name in incomplete and not cost.total else cost.total
            for name, cost in costs.items()
        },
        frozenset(incomplete),
        currency,
        "sheets and mouldings" if any(one.mouldings for one in options) else "sheets",
    )


def _estimates(
    plan: Plan, options: Sequence[Option], known: PriceList | None
) -> dict[str, Estimate]:
    """Estimates, where the job says what an hour costs or a price list is given."""
    if plan.job.price is None and known is None:
        return {}
    return {option.name: estimate(plan.job, option, known) for option in options}


NAMED = 3
"""Most things that one sentence names."""


def base_of(plan: Plan) -> Option | None:
    """The option that the others are compared with: the first that has a layout."""
    return next((option for option in plan.options if option.cases), None)


def sentences(plan: Plan, option: Option, prices: Prices) -> list[str]:
    """Say how an option differs from the first one; of the first, what it is like."""
    base = base_of(plan)
    if not option.cases or base is None:
        return [_without_layout(option)]
    against = [] if option is base else _against(plan, option, base, prices)
    return [line for line in (*against, *_by_itself(plan, option)) if line]


def _without_layout(option: Option) -> str:
    if option.status is Status.UNKNOWN or not option.why:
        return "Not worked out in the time given."
    return f"Not possible: {option.why}."


def _by_itself(plan: Plan, option: Option) -> list[str]:
    notes = [_sentence([one]) for one in look_points(option)]
    notes += [left_out(plan, option), tightest(plan, option)]
    empty = sum(not opening.items for opening in _openings(option))
    if empty:
        notes.append(f"{count(empty, 'opening stays', 'openings stay')} empty.")
    return notes


def said_of(option: Option, *names: str) -> str:
    """The sentence of the first of these stages that has one."""
    found = {stage.name: stage.sentence for stage in option.stages if stage.sentence}
    return next((found[name] or "" for name in names if name in found), "")


def _against(plan: Plan, option: Option, base: Option, prices: Prices) -> list[str]:
    return [
        _shelves(option, base),
        _price(prices, option, base),
        _sizes(plan, option, base),
        _parted(option, base),
    ]


def shelf_count(option: Option) -> int:
    """Shelves between the lowest board and the top, all bays together [-]."""
    return sum(sum(counts) for counts in option.shelf_counts.values())


def _shelves(option: Option, base: Option) -> str:
    more = shelf_count(option) - shelf_count(base)
    if not more:
        return ""
    number = "One shelf" if abs(more) == 1 else f"{abs(more)} shelves"
    return f"{number} {'more' if more > 0 else 'fewer'}."


def _price(prices: Prices, option: Option, base: Option) -> str:
    mine, theirs = prices.amounts.get(option.name), prices.amounts.get(base.name)
    if mine is None or theirs is None:
        return ""
    more = mine - theirs
    if not more:
        return "The same price."
    return f"{amount(abs(more), prices.currency)} {'more' if more > 0 else 'less'}."


def _sizes(plan: Plan, option: Option, base: Option) -> str:
    """How the outside sizes differ, where they were left open."""
    words = (
        ("width", "wider", "narrower"),
        ("height", "higher", "lower"),
        ("depth", "deeper", "shallower"),
    )
    changes = []
    for one, other in zip(option.cases, base.cases, strict=True):
        for side, more, less in words:
            by = getattr(one.outside, side) - getattr(other.outside, side)
            if by:
                name = f"{one.name} " if len(option.cases) > 1 else ""
                changes.append(f"{name}{with_unit(abs(by), plan.unit)} {more if by > 0 else less}")
    return _sentence(changes)


def _parted(option: Option, base: Option) -> str:
    """How many more places, or fewer, part what belongs together."""
    if option.scores is None or base.scores is None:
        return ""
    more = option.scores.places_parted - base.scores.places_parted
    if not more:
        return ""
    return f"{count(abs(more), 'place')} {'more' if more > 0 else 'fewer'} parted."


def left_out(plan: Plan, option: Option) -> str:
    """What does not fit, and by how much."""
    words = [
        f"{one.count} × {one.item} ({short_text(one.short_by, plan.unit)})"
        for one in option.left_out
    ]
    if not words:
        return ""
    more = [count(len(words) - NAMED, "more kind")] if len(words) > NAMED else []
    return f"Does not fit: {listed(words[:NAMED] + more)}."


def tightest(plan: Plan, option: Option) -> str:
    """Which thing has the least above it."""
    thing = tightest_thing(option)
    if thing is None:
        return ""
    return f"Least headroom: {with_unit(thing.headroom, plan.unit)}, above {thing.item}."


def tightest_thing(option: Option) -> Placement | None:
    """The thing with the least headroom; the lowest of several."""
    things = [thing for opening in _openings(option) for thing in opening.items]
    return min(things, key=lambda thing: thing.headroom, default=None)


def _openings(option: Option) -> list[Opening]:
    return [opening for case in option.cases for bay in case.bays for opening in bay.openings]


def _sentence(words: list[str]) -> str:
    if not words:
        return ""
    text = listed(words)
    return f"{text[0].upper()}{text[1:]}."


def standing_text(option: Option) -> str:
    """What is proven of it, for somebody who is not told what a proof is."""
    if option.status is Status.OPTIMAL and not option.left_out:
        return "nothing better exists"
    if option.status in (Status.OPTIMAL, Status.INFEASIBLE):
        return "not everything can fit"
    return "best found so far"
