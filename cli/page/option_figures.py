"""The options side by side in figures, for the page's table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

from cli.page.differences import OFF, spacing_text, standing_text, tightest_thing
from cli.page.page_prices import Prices
from cli.screen.wording import NONE, count, percent, triple
from solver.plan.plan import Option, Plan
from solver.plan.stocked import Sheet, Stick
from solver.units import with_unit


@dataclass(frozen=True)
class Row:
    """One line of the table: what it is about, and a cell for each option."""

    label: str
    cells: tuple[tuple[str, ...], ...]
    """Lines of each cell."""


def rows(plan: Plan, options: tuple[Option, ...], prices: Prices) -> tuple[Row, ...]:
    """Return the lines of the table; those that say nothing are left off."""
    makers: tuple[tuple[str, Callable[[Plan, Option], list[str]]], ...] = (
        (f"Price, {prices.what}", lambda _, o: [prices.text(o)]),
        ("Shelves and openings", lambda _, o: _counts(o)),
        (f"Outside, {plan.unit}, wide × high × deep", _outside),
        ("Does not fit", lambda _, o: [f"{one.count} × {one.item}" for one in o.left_out]),
        ("Least headroom", _least),
        ("Headroom varies by", _spread),
        (f"From {OFF[plan.job.look.rhythm]}, all openings together", _spacing),
        ("Shelf space taken", lambda _, o: _fill(o)),
        ("To buy", lambda _, o: _stock(o)),
        ("How sure", lambda _, o: [standing_text(o)]),
    )
    found = []
    for label, maker in makers:
        cells = [tuple(line for line in maker(plan, option) if line) for option in options]
        if any(cells):
            found.append(Row(label, tuple(cell or (NONE,) for cell in cells)))
    return tuple(found)


def _counts(option: Option) -> list[str]:
    lines = []
    for case, counts in option.shelf_counts.items():
        same = len(set(counts)) == 1
        texts = [f"{n} and {n + 1}" for n in (counts[:1] if same else counts)]
        each = " in each bay" if same and len(counts) > 1 else ""
        name = f"{case}: " if len(option.shelf_counts) > 1 else ""
        lines.append(f"{name}{'; '.join(texts)}{each}")
    return lines


def _outside(plan: Plan, option: Option) -> list[str]:
    lines = []
    for case in option.cases:
        size = triple((case.outside.width, case.outside.height, case.outside.depth), plan.unit)
        name = f"{case.name}: " if len(option.cases) > 1 else ""
        lines.append(f"{name}{size.replace(' x ', ' × ')}")
    return lines


def _least(plan: Plan, option: Option) -> list[str]:
    thing = tightest_thing(option)
    return [] if thing is None else [with_unit(thing.headroom, plan.unit), f"above {thing.item}"]


def _spread(plan: Plan, option: Option) -> list[str]:
    return [] if option.scores is None else [with_unit(option.scores.headroom_spread, plan.unit)]


def _spacing(plan: Plan, option: Option) -> list[str]:
    return [] if option.scores is None else [spacing_text(plan, option.scores.rhythm)]


def _fill(option: Option) -> list[str]:
    scores = option.scores
    if scores is None:
        return []
    least, most = percent(scores.fill_least), percent(scores.fill_most)
    return [most if least == most else f"{least.removesuffix(' %')} to {most}"]


def _stock(option: Option) -> list[str]:
    """Sheets and lengths to buy; how many, by what they are."""
    stock: list[Sheet | Stick] = [*option.sheets, *option.mouldings]
    bought = Counter(one.stock for one in stock if not one.on_hand)
    lines = [f"{number} × {name}" for name, number in bought.items()]
    had = sum(one.on_hand for one in stock)
    return lines + ([f"and {count(had, 'piece')} on hand"] if had else [])
