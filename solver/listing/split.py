"""Text to lines, and lines to cells: tabs, commas, semicolons or bars, with or without quotes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

SEPARATORS = ("\t", ";", ",", "|")
_JOINED_MOST = 20
"""Most lines of one quoted cell; above it the quote is taken for a sign of its own [-]."""
_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True)
class Record:
    """One line or row of the list; `cells` is None for a plain line."""

    number: int
    text: str
    cells: tuple[str, ...] | None = None


def split_lines(text: str) -> list[str]:
    """Return the lines of a text; an end of line after the last one makes no further line."""
    lines = _LINE_END.split(text.removeprefix("\ufeff"))
    return lines[:-1] if lines[-1] == "" else lines


def split_cells(line: str, separator: str) -> tuple[list[str], bool]:
    """Return the cells of a line, and whether a quoted one is still open at its end.

    A quote opens a cell only as its first sign, so that inch marks stay what they are.
    """
    if '"' not in line:
        return line.split(separator), False
    cells: list[str] = []
    at = 0
    while True:
        start = at
        while at < len(line) and line[at] == " ":
            at += 1
        if line.startswith('"', at):
            cell, at, is_open = _quoted(line, at + 1, separator)
        else:
            end = line.find(separator, start)
            cell, at, is_open = line[start : end if end >= 0 else None], end, False
        cells.append(cell)
        if is_open or at < 0:
            return cells, is_open
        at += 1


def _quoted(line: str, at: int, separator: str) -> tuple[str, int, bool]:
    """Return a quoted cell, the place of the separator after it (-1: none), and if it is open."""
    kept: list[str] = []
    while True:
        end = line.find('"', at)
        if end < 0:
            return "".join([*kept, line[at:]]), -1, True
        kept.append(line[at:end])
        if not line.startswith('""', end):
            break
        kept.append('"')
        at = end + 2
    after = line.find(separator, end + 1)
    kept.append(line[end + 1 : after if after >= 0 else None].rstrip())
    return "".join(kept), after, False


def table_records(lines: Sequence[str], first: int, separator: str) -> Iterator[Record]:
    """Yield the rows of `lines` from index `first` on; a quoted cell may run over lines."""
    at = first
    while at < len(lines):
        text, used = lines[at], 1
        cells, is_open = split_cells(text, separator)
        while is_open and used < _JOINED_MOST and at + used < len(lines):
            text = f"{text}\n{lines[at + used]}"
            cells, is_open = split_cells(text, separator)
            used += 1
        if is_open:
            text, used = lines[at], 1
            cells = text.split(separator)
        yield Record(at + 1, text, tuple(cells))
        at += used


def loose_cells(line: str) -> list[str] | None:
    """Split a line without a header into cells by the first separator that gives four or more."""
    for separator in SEPARATORS:
        cells, is_open = split_cells(line, separator)
        if is_open:
            cells = line.split(separator)
        if len(cells) >= 4:
            return cells
    cells = re.split(r" {2,}", line.strip())
    return cells if len(cells) >= 4 else None
