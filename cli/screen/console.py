"""Where tables go, and the one look of all of them.

A terminal is taken as it is; anything else gets plain text of a fixed width. A table has a rule
under its heading, and nothing in it is cut off.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from textwrap import fill

from rich import box
from rich.console import Console
from rich.table import Table


@dataclass(frozen=True)
class Titled:
    """A table and the line above it, which may be longer than the table is wide."""

    title: str
    table: Table


def plain_table(*columns: str, right: Sequence[str] = (), widths: Sequence[int] = ()) -> Table:
    """Return an empty table in the common style; long cells are folded, never cut off.

    Columns named in `right` are ranged right and never folded; `widths` are those of the
    columns [-], so that tables below each other line up.
    """
    table = Table(
        box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1), header_style="bold"
    )
    for at, name in enumerate(columns):
        table.add_column(
            name,
            overflow="fold",
            justify="right" if name in right else "left",
            no_wrap=name in right,
            width=widths[at] if widths else None,
        )
    return table


def lined_up(rows: Sequence[Sequence[str]], width: int, folded: int) -> list[int]:
    """Return widths that let tables of these rows stand below each other, lined up [-].

    Every column is as wide as its longest cell, but the one numbered `folded` gives way
    where the whole would be wider than `width`. No widths at all where even that is
    not enough: then every column folds as it must.
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    over = sum(widths) + 3 * (len(widths) - 1) - width
    if over > 0:
        widths[folded] -= over
    return widths if widths[folded] >= FOLDED_LEAST else []


FOLDED_LEAST = 12
"""Least width of a column that gives way [-]."""


PLAIN_WIDTH = 100
"""Columns where the output is not a terminal and COLUMNS is not set."""
LEAST_WIDTH = 60
"""Narrower than this, tables would break figures apart; the terminal may wrap them instead."""
PROGRESS_AFTER = 1.0
"""Work shorter than this shows no progress [s]."""


class PipedConsole(Console):
    """A console that leaves it to the command what a closed pipe means.

    rich would end the program with code 1, before the files are written.
    """

    def on_broken_pipe(self) -> None:  # type: ignore[explicit-override] # typing's is 3.12
        """Raise the BrokenPipeError that is being handled."""
        raise


def console(*, stderr: bool = False) -> Console:
    """Return the console for tables, or for notes with `stderr`.

    Item names are data: no markup, emoji codes or highlighting is read into them.
    NO_COLOR is honoured. Not a terminal: no colour, and COLUMNS or 100 columns.
    """
    stream = sys.stderr if stderr else sys.stdout
    fixed = None if stream.isatty() or os.environ.get("COLUMNS") else PLAIN_WIDTH
    out = PipedConsole(file=stream, width=fixed, markup=False, emoji=False, highlight=False)
    out.width = max(out.width, LEAST_WIDTH)
    return out


def points(out: Console, lines: Sequence[str], title: str = "") -> None:
    """Print lines as points, folded under themselves, below their title; nothing for none."""
    if lines and title:
        out.print(f"\n{title}")
    for line in lines:
        out.print(fill(line, out.width, initial_indent="- ", subsequent_indent="  "))


class Progress:
    """The last word of the running search, shown on a terminal after a second."""

    def __init__(self, console: Console) -> None:
        self._console = console
        self._started = time.monotonic()
        self._message = "planning"
        self._stop: Callable[[], None] = lambda: None
        self._update: Callable[[str], None] | None = None

    def tell(self, message: str) -> None:
        """Keep `message`; may be called from another thread."""
        self._message = message

    def show(self) -> None:
        """Bring the status line up to date; nothing where this is no terminal."""
        elapsed = time.monotonic() - self._started
        if not self._console.is_terminal or elapsed < PROGRESS_AFTER:
            return
        if self._update is None:
            status = self._console.status("")
            status.start()
            self._stop, self._update = status.stop, status.update
        self._update(f"{self._message} ({elapsed:.0f} s; Ctrl-C keeps the best so far)")

    def close(self) -> None:
        """Take the status line away."""
        self._stop()


@contextmanager
def progress() -> Iterator[Progress]:
    """Yield a :class:`Progress` on standard error, taken away at the end."""
    shown = Progress(console(stderr=True))
    try:
        yield shown
    finally:
        shown.close()
