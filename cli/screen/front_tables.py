"""The trade-off front on the console: a sentence, the table, a chart, and what is open.

The table has a row an option, the cheapest first.
"""

from __future__ import annotations

from decimal import Decimal
from textwrap import fill

from rich.console import Console
from rich.table import Table
from rich.text import Text

from cli.screen.console import plain_table, points
from cli.screen.front_chart import chart, price_text
from cli.screen.look_cells import air_text, outline_text, steps_text
from cli.screen.wording import NONE, UNIT_NAMES, amount, count, plain_name, tag_words
from solver.plan.plan import Option
from solver.plan.price_front import FrontPoint, OpenPart, TradeOff
from solver.planning.look_words import look_points
from solver.units import Unit, format_length

READING = (
    "price: sheets and mouldings; more: what it costs more than the recommended one.",
    "parted: how often things of a kind, a heading or a group stand on one shelf more. Price and"
    " parted are compared; step from opening to opening, what of the rows has no mirror image, and"
    " air over the tallest things are shown.",
)
"""How the table is to be read."""


def print_front(console: Console, front: TradeOff) -> None:
    """Print the front."""
    console.print(Text(plain_name(front.job.head.title), style="bold"))
    if front.recommendation:
        console.print(fill(plain_name(front.recommendation), console.width))
    console.print()
    if front.points:
        console.print(front_table(front, console.width))
        console.print()
        plain = not console.encoding.lower().startswith("utf")
        drawn = chart(front, console.width, plain=plain)
        for line in [*drawn, *([""] if drawn else [])]:
            console.print(Text(line), soft_wrap=True)
    reading = (
        [f"Lengths in {UNIT_NAMES[front.unit]}; {READING[0]}", *READING[1:]] if front.points else []
    )
    points(console, [*look_lines(front), *reading, *front_notes(front)])


def look_lines(front: TradeOff) -> list[str]:
    """Return what each option looks like, point by point, a line each."""
    told = [(point.number, look_points(point.option)) for point in front.points]
    return [plain_name(f"No. {number}: {', '.join(look)}.") for number, look in told if look]


def front_table(front: TradeOff, width: int) -> Table:
    """Return the table of the front.

    Parameters
    ----------
    front
        The front.
    width
        Columns there are; narrow tables leave out sizes, steps and air [-].
    """
    wide = width >= WIDE
    sizes = ["outside W x H x D"] if wide else []
    look = ("parted", "step", "off mirror", "air") if wide else ("parted", "off mirror")
    table = plain_table(
        *("no.", "shelves", *sizes, "price", "more", *look),
        right=("no.", "price", "more", "parted", "off mirror"),
    )
    table.add_column("", no_wrap=True)
    for point in front.points:
        table.add_row(*_cells(front, point, wide=wide))
    return table


WIDE = 100
"""Columns from which on everything is shown [-]."""


def _cells(front: TradeOff, point: FrontPoint, *, wide: bool) -> list[str]:
    unit, currency, option = front.unit, front.job.head.currency, point.option
    return [
        str(point.number),
        shelves_text(option),
        *([_outside(option, unit)] if wide else []),
        price_text(point, currency),
        _premium(point.premium, currency),
        _parted(point),
        *([steps_text(option, unit)] if wide else []),
        outline_text(option),
        *([air_text(option, unit)] if wide else []),
        "\n".join([*tag_words(option), *([] if point.proven else ["not proven"])]),
    ]


def shelves_text(option: Option) -> str:
    """Return the shelf counts without the word: `5`, `5 + 4 + 5`, `left: 4, right: 5`."""
    name = plain_name(option.name)
    for ending in (" shelves", " shelf"):
        name = name.removesuffix(ending)
    return name


def _premium(premium: Decimal | None, currency: str) -> str:
    if premium is None or not premium:
        return NONE
    return f"+{amount(premium, currency)}"


def _parted(point: FrontPoint) -> str:
    """Places parted; with what they are proven not to be under, where that is less."""
    bound = point.parted_bound
    least = f" (>= {bound})" if bound < point.places_parted else ""
    return f"{point.places_parted}{least}"


def _outside(option: Option, unit: Unit) -> str:
    lines = []
    for case in option.cases:
        size = case.outside
        sides = (size.width, size.height, size.depth)
        lines.append(" x ".join(format_length(side, unit) for side in sides))
    return "\n".join(lines)


def front_notes(front: TradeOff) -> list[str]:
    """Return what is to be said under the table, a line each."""
    proven = (
        "Proven: every option that is not beaten is here."
        if front.complete
        else "Not proven to be every option that is not beaten: see below and in the table."
    )
    notes = [proven]
    notes += [f"{plain_name(one.name)} is not shown: {one.why}." for one in front.not_on_front]
    notes += [_open(part, front) for part in front.open_parts]
    if front.not_tried:
        more = count(front.not_tried, "more combination")
        notes.append(f"{more} of shelf counts: too many to try.")
    if front.stopped:
        notes.append("The time was up, or it was stopped, before the end: the front so far.")
    return notes


def _open(part: OpenPart, front: TradeOff) -> str:
    name = plain_name(part.name)
    if part.price:  # the same counts may be open at several prices
        name += f" at {amount(part.price, front.job.head.currency)}"
    if part.parted_least is None:
        return f"Open: {name}: {part.why}."
    places = count(part.parted_least, "place")
    return f"Open: {name}, {places} parted or more: {part.why}."
