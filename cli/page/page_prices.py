"""What each option costs, as a client reads it: all of it where that is known, else the boards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from cli.papers.client_price import is_priced
from cli.screen.wording import amount
from solver.costing.estimate import estimate
from solver.job.price_list import PriceList
from solver.plan.estimated import Estimate
from solver.plan.plan import Option, Plan


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
        found = self.amounts.get(option.name)
        if found is None:
            return "no prices given" if option.cases else ""
        more = " and what has no price yet" if option.name in self.open else ""
        return f"{amount(found, self.currency)}{more}"

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
    made = _estimates(plan, options, known)
    if made and all(is_priced(one) for one in made.values()):
        tax = any(line.kind == "tax" for one in made.values() for line in one.sums)
        what = f"work and materials, {'tax included' if tax else 'without tax'}"
        return Prices({name: one.total for name, one in made.items()}, frozenset(), currency, what)
    costs = {option.name: option.cost for option in options if option.cost is not None}
    bare = {name for name, cost in costs.items() if not cost.complete}
    return Prices(
        {
            name: None if name in bare and not cost.total else cost.total
            for name, cost in costs.items()
        },
        frozenset(bare),
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
