"""The trade-off front as a chart in text: prices down, places parted across."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from cli.screen.wording import amount
from solver.plan.price_front import FrontPoint, TradeOff

WIDEST = 84
"""Most columns of the field [-]."""
LABEL = 10
"""Columns kept behind the field for the last label [-]."""
STEPS = 4
"""Most parts that the axis is divided in [-]."""


@dataclass(frozen=True)
class Signs:
    """What axis and options are drawn with."""

    across: str
    tick: str
    mark: str


LINES = Signs("─", "┴", "●")
PLAIN = Signs("-", "+", "#")


@dataclass(frozen=True)
class Axis:
    """Places parted across: `most` at the last of `columns`, 0 at the first [-, -]."""

    most: int
    columns: int

    def column(self, parted: int) -> int:
        """Return the column of so many places parted, from 0 [-]."""
        return parted * (self.columns - 1) // self.most

    @property
    def ticks(self) -> range:
        """The numbers that are written under the axis."""
        return range(0, self.most + 1, max(1, self.most // STEPS))


def chart(front: TradeOff, width: int, *, plain: bool) -> list[str]:
    """Return the lines of the chart; none where there is nothing to compare.

    Parameters
    ----------
    front
        The front.
    width
        Columns there are [-].
    plain
        Use signs that every terminal has.
    """
    if len(front.points) < 2:
        return []
    signs, currency = PLAIN if plain else LINES, front.job.head.currency
    prices = [price_text(point, currency) for point in front.points]
    left = max(len("price"), *map(len, prices)) + 2
    axis = Axis(_most(front.points), min(WIDEST, width - left - LABEL))
    lines = [f"{'price':<{left}}places parted; best on the left, * recommended"]
    pairs = zip(prices, front.points, strict=True)
    for price, group in groupby(pairs, key=lambda pair: pair[0]):
        rows = _rows([point for _, point in group], axis, signs)
        lines += [f"{price if n == 0 else '':<{left}}{row}" for n, row in enumerate(rows)]
    return [*lines, *(" " * left + line for line in _scale(axis, signs))]


def price_text(point: FrontPoint, currency: str) -> str:
    """Return the price, or the area bought where it has none."""
    if not point.area:
        return amount(point.price, currency)
    area = f"{point.area:.2f} m²"
    return area if not point.price else f"{amount(point.price, currency)} + {area}"


def _most(points: Sequence[FrontPoint]) -> int:
    """Where the axis ends, so that its parts are whole numbers [-]."""
    most = max(1, *(point.places_parted for point in points))
    return most if most <= STEPS else -(-most // STEPS) * STEPS


def _rows(points: Sequence[FrontPoint], axis: Axis, signs: Signs) -> list[str]:
    """Points of one price, on as many lines as keep their numbers apart."""
    rows: list[str] = []
    for point in sorted(points, key=lambda point: (point.places_parted, point.number)):
        star = "*" if "recommended" in point.option.tags else ""
        text, column = f"{signs.mark}{point.number}{star}", axis.column(point.places_parted)
        for n, row in enumerate(rows):
            if len(row) < column or not row:
                rows[n] = f"{row:<{column}}{text}"
                break
        else:
            rows.append(" " * column + text)
    return rows


def _scale(axis: Axis, signs: Signs) -> list[str]:
    """The axis with its ticks, and the numbers under them."""
    line, labels = [signs.across] * axis.columns, ""
    for parted in axis.ticks:
        column = axis.column(parted)
        line[column] = signs.tick
        labels = f"{labels:<{column}}{parted}"
    return ["".join(line), labels]
