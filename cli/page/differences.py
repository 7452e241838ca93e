"""What differs between the options, in plain words."""

from __future__ import annotations

from cli.page.page_prices import Prices
from cli.screen.wording import amount, count, listed, short_text
from solver.outcome import Status
from solver.plan.built import Opening, Placement
from solver.plan.plan import Option, Plan
from solver.units import Ticks, with_unit

OFF = {
    "even": "even openings",
    "graduated": "a steady fall",
    "symmetric": "symmetry",
    "to-fit": "equal headroom",
}
"""What each rhythm is after, as what an option is off from."""
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
    said = [] if option is base else _against(plan, option, base, prices)
    return [line for line in (*said, *_by_itself(plan, option)) if line]


def _without_layout(option: Option) -> str:
    if option.status is Status.UNKNOWN or not option.why:
        return "Not worked out in the time given."
    return f"Not possible: {option.why}."


def _by_itself(plan: Plan, option: Option) -> list[str]:
    found = [left_out(plan, option), tightest(plan, option)]
    empty = sum(not opening.items for opening in _openings(option))
    if empty:
        found.append(f"{count(empty, 'opening stays', 'openings stay')} empty.")
    return found


def _against(plan: Plan, option: Option, base: Option, prices: Prices) -> list[str]:
    return [
        _shelves(option, base),
        _price(prices, option, base),
        _sizes(plan, option, base),
        _spacing(plan, option, base),
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
    said = []
    for one, other in zip(option.cases, base.cases, strict=True):
        for side, more, less in words:
            by = getattr(one.outside, side) - getattr(other.outside, side)
            if by:
                name = f"{one.name} " if len(option.cases) > 1 else ""
                said.append(f"{name}{with_unit(abs(by), plan.unit)} {more if by > 0 else less}")
    return _sentence(said)


def _spacing(plan: Plan, option: Option, base: Option) -> str:
    if option.scores is None or base.scores is None:
        return ""
    mine, theirs, slack = option.scores.rhythm, base.scores.rhythm, plan.job.look.rhythm_slack
    if abs(mine - theirs) <= slack:
        return "Spaced equally well."
    word = "nearer to" if mine < theirs else "farther from"
    return f"Shelves {word} {OFF[plan.job.look.rhythm]}: {spacing_text(plan, mine)}."


def spacing_text(plan: Plan, rhythm: Ticks) -> str:
    """How far the openings are from what the rhythm is after, all together."""
    return f"off by {with_unit(rhythm, plan.unit)}" if rhythm else "exact"


def left_out(plan: Plan, option: Option) -> str:
    """What does not fit, and by how much."""
    found = [
        f"{one.count} × {one.item} ({short_text(one.short_by, plan.unit)})"
        for one in option.left_out
    ]
    if not found:
        return ""
    more = [count(len(found) - NAMED, "more kind")] if len(found) > NAMED else []
    return f"Does not fit: {listed(found[:NAMED] + more)}."


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
