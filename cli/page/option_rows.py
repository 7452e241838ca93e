"""The options side by side on the client page: a table of figures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

from cli.page.option_differences import Prices, said_of, standing_text, tightest_thing
from cli.screen.look_cells import air_text, outline_text
from cli.screen.wording import NONE, count, percent, triple
from solver.plan.plan import Option, Plan
from solver.plan.stocked import Sheet, Stick
from solver.planning.look_words import RHYTHMS
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
        ("Openings", lambda _, o: [said_of(o, *RHYTHMS)]),
        ("Places parted", lambda _, o: _parted_figure(o)),
        ("Rows off a mirror image", lambda _, o: [outline_text(o)]),
        ("Air over the tallest things", lambda p, o: [air_text(o, p.unit)]),
        ("Shelf space taken", lambda _, o: _fill(o)),
        ("To buy", lambda _, o: _stock(o)),
        ("How sure", lambda _, o: [standing_text(o)]),
    )
    table_rows = []
    for label, maker in makers:
        cells = [tuple(line for line in maker(plan, option) if line) for option in options]
        if any(cells):
            table_rows.append(Row(label, tuple(cell or (NONE,) for cell in cells)))
    return tuple(table_rows)


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


def _parted_figure(option: Option) -> list[str]:
    if option.scores is None:
        return []
    return [str(option.scores.places_parted or "none")]


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
