"""The trade-off front on the console: a sentence, the table, a chart, and what is open.

The table has a row an option, the cheapest first. The chart has prices down and rhythm across.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from textwrap import fill, wrap

from rich.console import Console
from rich.table import Table
from rich.text import Text

from cli.screen.console import plain_table, points
from cli.screen.wording import NONE, UNIT_NAMES, amount, count, plain_name, tag_words
from solver.plan.plan import Option
from solver.plan.price_front import FrontPoint, OpenPart, TradeOff
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, format_length, with_unit

READING = (
    "price: sheets and mouldings; more: what it costs more than the recommended one.",
    "rhythm: off by, all openings together, but compared for each opening, since there are"
    " more or fewer of them; headroom: largest less smallest room"
    " over the tallest thing of each opening; empty: openings with nothing in them.",
)
"""How the table is to be read."""


def print_front(console: Console, front: TradeOff, *, every: bool) -> None:
    """Print the front; with `every` also the options that can hardly be told apart."""
    console.print(Text(plain_name(front.job.head.title), style="bold"))
    if front.recommendation:
        console.print(fill(plain_name(front.recommendation), console.width))
    console.print()
    if front.points:
        console.print(front_table(front, console.width, every=every))
        console.print()
        plain = not console.encoding.lower().startswith("utf")
        drawn = chart(front, points_shown(front, every=every), console.width, plain=plain)
        for line in [*drawn, *([""] if drawn else [])]:
            console.print(Text(line), soft_wrap=True)
    reading = (
        [f"Lengths in {UNIT_NAMES[front.unit]}; {READING[0]}", *READING[1:]] if front.points else []
    )
    notes = [*reading, *front_notes(front, every=every)]
    points(console, notes)


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
    for point in points_shown(front, every=every):
        table.add_row(*_cells(front, point, wide=wide))
    return table


WIDE = 100
"""Columns from which on the sizes are shown as well [-]."""


def points_shown(front: TradeOff, *, every: bool) -> list[FrontPoint]:
    """Return the points of the table: all, or where there are many those that look different."""
    points = list(front.points)
    if every or len(points) <= ALIKE_SHOWN:
        return points
    distinct: list[FrontPoint] = []
    for point in points:
        if point.option.tags or not any(_alike(front, point, other) for other in distinct):
            distinct.append(point)
    return distinct


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
    hidden = len(front.points) - len(points_shown(front, every=every))
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


WIDEST = 84
"""Most columns of the field [-]."""
EIGHTH = TICKS_PER_INCH // 8
EVEN_STEPS: dict[Unit, tuple[Ticks, ...]] = {
    "in": (EIGHTH // 4, *(EIGHTH * n for n in (1, 2, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96))),
    "mm": tuple(TICKS_PER_MM * n for n in (1, 2, 5, 10, 15, 20, 25, 50, 75, 100, 150, 200, 300)),
}
"""Steps of the axis; less than the least of them, nobody sees [tick]."""
LABEL = 10
"""Columns kept behind the field for the last label [-]."""
STEPS = 4
"""Parts that the axis is divided in [-]."""


@dataclass(frozen=True)
class Signs:
    """What axis and options are drawn with; the first mark is for the most even headroom."""

    across: str
    tick: str
    marks: tuple[str, str, str]


LINES = Signs("─", "┴", ("●", "◐", "○"))
PLAIN = Signs("-", "+", ("#", "=", "o"))


@dataclass(frozen=True)
class Axis:
    """Rhythm across: `most` at the last of `columns`, 0 at the first [tick, -]."""

    most: Ticks
    columns: int

    def column(self, rhythm: Ticks) -> int:
        """Return the column of a rhythm, from 0 [-]."""
        return rhythm * (self.columns - 1) // self.most


def chart(front: TradeOff, points: Sequence[FrontPoint], width: int, *, plain: bool) -> list[str]:
    """Return the lines of the chart; none where there is nothing to compare.

    Parameters
    ----------
    front
        The front.
    points
        The points to draw, cheapest first.
    width
        Columns there are [-].
    plain
        Use signs that every terminal has.
    """
    if len(points) < 2:
        return []
    signs, currency = PLAIN if plain else LINES, front.job.head.currency
    prices = [price_text(point, currency) for point in points]
    left = max(len("price"), *map(len, prices)) + 2
    axis = Axis(_most(points, front.unit), min(WIDEST, width - left - LABEL))
    marks = _marks(points, signs)
    lines = [f"{'price':<{left}}rhythm off by, each opening; best on the left"]
    pairs = zip(prices, points, strict=True)
    for price, group in groupby(pairs, key=lambda pair: pair[0]):
        rows = _rows([point for _, point in group], axis, marks)
        lines += [f"{price if n == 0 else '':<{left}}{row}" for n, row in enumerate(rows)]
    lines += [" " * left + line for line in _scale(axis, signs, front.unit)]
    return [*lines, *wrap(_key(points, marks, signs, front.unit), width)]


def _most(points: Sequence[FrontPoint], unit: Unit) -> Ticks:
    """Where the axis ends, so that its steps are plain sizes [tick]."""
    most = max(point.rhythm for point in points)
    return next((STEPS * step for step in EVEN_STEPS[unit] if STEPS * step >= most), most)


def _marks(points: Sequence[FrontPoint], signs: Signs) -> dict[int, str]:
    """The mark of each point by number: thirds of the range of headrooms there is."""
    least = min(point.headroom for point in points)
    span = max(point.headroom for point in points) - least
    third = [0 if not span else min(2, 3 * (p.headroom - least) // span) for p in points]
    return {point.number: signs.marks[n] for point, n in zip(points, third, strict=True)}


def _rows(points: Sequence[FrontPoint], axis: Axis, marks: dict[int, str]) -> list[str]:
    """Points of one price, on as many lines as keep their numbers apart."""
    rows: list[str] = []
    for point in sorted(points, key=lambda point: (point.rhythm, point.number)):
        star = "*" if "recommended" in point.option.tags else ""
        text, column = f"{marks[point.number]}{point.number}{star}", axis.column(point.rhythm)
        for n, row in enumerate(rows):
            if len(row) < column or not row:
                rows[n] = f"{row:<{column}}{text}"
                break
        else:
            rows.append(" " * column + text)
    return rows


def _scale(axis: Axis, signs: Signs, unit: Unit) -> list[str]:
    """The axis with its ticks, and the rhythms under them."""
    line, labels = [signs.across] * axis.columns, ""
    for n in range(STEPS + 1):
        rhythm = axis.most * n // STEPS
        column = axis.column(rhythm)
        line[column] = signs.tick
        text = format_length(rhythm, unit) if n < STEPS else with_unit(rhythm, unit)
        if len(labels) < column or not labels:
            labels = f"{labels:<{column}}{text}"
    return ["".join(line), labels]


def _key(points: Sequence[FrontPoint], marks: dict[int, str], signs: Signs, unit: Unit) -> str:
    """What marks and numbers mean."""
    words = []
    for mark in signs.marks:
        rooms = [point.headroom for point in points if marks[point.number] == mark]
        if rooms:
            words.append(f"{mark} within {with_unit(max(rooms), unit)}")
    return f"headroom: {', '.join(words)}; * recommended"
