"""The trade-off front on the console: the sentence, the table, the chart, what is open.

The chart has prices down and rhythm across, in signs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from textwrap import fill, wrap

from rich.console import Console
from rich.text import Text

from cli.console import points
from cli.tables.front import front_notes, front_table, price_text, shown
from cli.tables.words import UNIT_NAMES, plain_name
from solver.tradeoff import FrontPoint, TradeOff
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
        drawn = chart(front, shown(front, every=every), console.width, plain=plain)
        for line in [*drawn, *([""] if drawn else [])]:
            console.print(Text(line), soft_wrap=True)
    reading = (
        [f"Lengths in {UNIT_NAMES[front.unit]}; {READING[0]}", *READING[1:]] if front.points else []
    )
    said = [*reading, *front_notes(front, every=every)]
    points(console, said)


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
    said = []
    for mark in signs.marks:
        rooms = [point.headroom for point in points if marks[point.number] == mark]
        if rooms:
            said.append(f"{mark} within {with_unit(max(rooms), unit)}")
    return f"headroom: {', '.join(said)}; * recommended"
