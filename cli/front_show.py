"""The trade-off front on the console: the sentence, the table, the chart, what is open."""

from __future__ import annotations

from textwrap import fill

from rich.console import Console
from rich.text import Text

from cli.console import points
from cli.front_chart import chart
from cli.tables.front import front_notes, front_table, shown
from cli.tables.words import UNIT_NAMES, plain_name
from solver.tradeoff import TradeOff

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
