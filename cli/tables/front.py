"""The trade-off front as a table: one row an option, the cheapest first."""

from __future__ import annotations

from decimal import Decimal

from rich.table import Table

from cli.tables.style import plain_table
from cli.tables.words import NONE, amount, count, plain_name, tag_words
from solver.plan import Option
from solver.tradeoff import FrontPoint, OpenPart, TradeOff
from solver.units import TICKS_PER_MM, Ticks, Unit, format_length, with_unit

ALIKE_SHOWN = 12
"""Most rows while options that can hardly be told apart are left out of the table [-]."""


def front_table(front: TradeOff, width: int, *, every: bool = False) -> Table:
    """Return the table of the front.

    Parameters
    ----------
    front
        The front.
    width
        Columns there are; narrow tables leave out the sizes [-].
    every
        Show every option, also those that can hardly be told apart.
    """
    wide = width >= WIDE
    sizes = ["outside W x H x D"] if wide else []
    right = ("no.", "price", "more", "rhythm", "headroom", "empty")
    table = plain_table("no.", "shelves", *sizes, *right[1:], right=right)
    table.add_column("", no_wrap=True)
    for point in shown(front, every=every):
        table.add_row(*_cells(front, point, wide=wide))
    return table


WIDE = 100
"""Columns from which on the sizes are shown as well [-]."""


def shown(front: TradeOff, *, every: bool) -> list[FrontPoint]:
    """Return the points of the table: all, or where there are many those that look different."""
    points = list(front.points)
    if every or len(points) <= ALIKE_SHOWN:
        return points
    kept: list[FrontPoint] = []
    for point in points:
        if point.option.tags or not any(_alike(front, point, other) for other in kept):
            kept.append(point)
    return kept


def _alike(front: TradeOff, one: FrontPoint, other: FrontPoint) -> bool:
    """Whether nobody sees a difference; prices are always seen."""
    look = front.job.look
    return (
        one.price == other.price
        and one.option.shelf_counts == other.option.shelf_counts
        and abs(one.rhythm_sum - other.rhythm_sum) <= max(look.rhythm_slack, TICKS_PER_MM)
        and one.empty_openings == other.empty_openings
        and abs(one.headroom - other.headroom) <= max(look.headroom_slack, TICKS_PER_MM)
    )


def _cells(front: TradeOff, point: FrontPoint, *, wide: bool) -> list[str]:
    unit, currency = front.unit, front.job.head.currency
    option = point.option
    return [
        str(point.number),
        shelves_text(option),
        *([_outside(option, unit)] if wide else []),
        price_text(point, currency),
        _premium(point.premium, currency),
        _figure(point.rhythm_sum, point.rhythm_bound, unit),
        _figure(point.headroom, point.headroom_bound, unit),
        str(point.empty_openings),
        "\n".join([*tag_words(option), *([] if point.proven else ["not proven"])]),
    ]


def shelves_text(option: Option) -> str:
    """Return the shelf counts without the word: `5`, `5 + 4 + 5`, `left: 4, right: 5`."""
    name = plain_name(option.name)
    for ending in (" shelves", " shelf"):
        name = name.removesuffix(ending)
    return name


def price_text(point: FrontPoint, currency: str) -> str:
    """Return the price, or the area bought where it has none."""
    if not point.area:
        return amount(point.price, currency)
    area = f"{point.area:.2f} m²"
    return area if not point.price else f"{amount(point.price, currency)} + {area}"


def _premium(premium: Decimal | None, currency: str) -> str:
    if premium is None or not premium:
        return NONE
    return f"+{amount(premium, currency)}"


def _figure(value: Ticks, bound: Ticks, unit: Unit) -> str:
    """A length; with what it is proven not to be under, where that is less."""
    text = format_length(value, unit)
    return text if bound >= value else f"{text} (>= {format_length(bound, unit)})"


def _outside(option: Option, unit: Unit) -> str:
    lines = []
    for case in option.cases:
        size = case.outside
        sides = (size.width, size.height, size.depth)
        lines.append(" x ".join(format_length(side, unit) for side in sides))
    return "\n".join(lines)


def front_notes(front: TradeOff, *, every: bool = False) -> list[str]:
    """Return what is to be said under the table, a line each."""
    hidden = len(front.points) - len(shown(front, every=every))
    notes = [_fineness(front), *([_hidden(hidden)] if hidden else [])]
    notes += [f"{plain_name(one.name)} is not shown: {one.why}." for one in front.not_on_front]
    notes += [_open(part, front) for part in front.open_parts]
    if front.not_tried:
        more = count(front.not_tried, "more combination")
        notes.append(f"{more} of shelf counts: too many to try.")
    if front.stopped:
        notes.append("The time was up, or it was stopped, before the end: the front so far.")
    return notes


def _fineness(front: TradeOff) -> str:
    fine, unit = front.fineness, front.unit
    if not front.complete:
        return "Not proven to be every option that is not beaten: see below and in the table."
    if not fine.rhythm and not fine.headroom:
        return "Proven: every option that is not beaten is here."
    return (
        "Proven: every other option is beaten by one of these, or better by no more than "
        f"{with_unit(fine.rhythm, unit)} of rhythm or {with_unit(fine.headroom, unit)} of headroom."
    )


def _hidden(hidden: int) -> str:
    return f"{count(hidden, 'more option')} can hardly be told from these; --all shows every one."


def _open(part: OpenPart, front: TradeOff) -> str:
    unit, name = front.unit, plain_name(part.name)
    if part.price:  # the same counts may be open at several prices
        name += f" at {amount(part.price, front.job.head.currency)}"
    if part.rhythm_least is None or part.headroom_least is None:
        return f"Open: {name}: {part.why}."
    return (
        f"Open: {name}, rhythm off by {with_unit(part.rhythm_least, unit)} or more, headroom "
        f"within {with_unit(part.headroom_least, unit)} or more: {part.why}."
    )
