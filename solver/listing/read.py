"""Entry points: a pasted text, or rows of cells, to a Listing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import chain

from solver.errors import InputError
from solver.listing.asides import set_aside
from solver.listing.columns import Column, column_notes, column_problems, header_of
from solver.listing.draft import NAME_MISSING, Draft, clean_text
from solver.listing.headings import HEADING, with_headings
from solver.listing.line_readings import LINE_FORMS, Choice, Doubt, LineReading, Listing
from solver.listing.numbering import numbered, without_number
from solver.listing.plain_lines import (
    SEPARATORS,
    Record,
    has_sizes,
    loose_cells,
    read_line,
    split_cells,
    split_lines,
    table_records,
    what_is_said,
)
from solver.listing.sides import Around
from solver.listing.table_rows import guess_row, read_row
from solver.units import Unit

_COMMON = re.compile(
    r"^(?P<name>[^\d:]+?)[\s(,–—-]+(?:all(?:\s(?:of\s)?(?:these|them|the same|alike))?"
    r"|each|every one|alle|je|chacun)"
    r"(?:\s(?:are|is))?\s(?P<sizes>[^()]*\d[^()]*?)\)?\s?:$",
    re.IGNORECASE,
)
"""A heading with sizes that hold for what is below: `Cameras, all of these are 6 x 5 x 4:`."""
CONTINUED = "its sizes are on the next line"
_HEADER_WITHIN = 20
"""A header is looked for in this many lines that are not blank [-]."""
_UNDER_BAD_HEADER = "not read, since the header above is not understood"
_YEARS = re.compile(r"\b\d{4}s?\b")
LINES_MOST = 20_000
"""Most lines that are read, blank ones not counted: ten for each kind that a job may have [-]."""
_COMMENT = re.compile(
    r"^\s*(?:#(?!#|\d|ref!|n/a|value!|name\?|div/0!|num!|null!)|//)", re.IGNORECASE
)
_THREE_LAST = re.compile(
    r"^(?P<name>.*[^\W\d])[\s,:-]+(?P<sizes>\d[\d./]*\s+\d[\d./]*\s+\d[\d./]*)$"
)


def read_listing(text: str, unit: Unit, source: str | None = None) -> Listing:
    """Read a pasted or typed list of things.

    Parameters
    ----------
    text
        Spreadsheet cells, CSV or TSV with or without a header, or plain lines [text].
    unit
        The unit of a size without one: "in" or "mm" [-].
    source
        Name of the file, for messages [text].

    Returns
    -------
    Listing
        The items, and how each line was read. Unreadable lines are in it too:
        call :meth:`Listing.raise_if_unreadable` before using the items.

    Raises
    ------
    InputError
        Where there are more lines than any list of things has.
    """
    lines = split_lines(text)
    _not_too_many(sum(bool(line.strip()) for line in lines), source)
    at, separator = _find_header(lines)
    plain = [Record(number, line) for number, line in enumerate(lines[:at], start=1)]
    table = table_records(lines, at, separator) if at < len(lines) else iter(())
    return _read(chain(plain, table), unit, source, numbered(lines))


def read_rows(rows: Sequence[Sequence[str]], unit: Unit, source: str | None = None) -> Listing:
    """Read rows of cells, as from a spreadsheet; the header may stand in any of the first rows.

    `unit` is that of a size without one ("in" or "mm"). Returns a :class:`Listing`, as
    :func:`read_listing` does; lines are numbered as rows, from 1.
    """
    _not_too_many(sum(any(row) for row in rows), source)
    records = (
        Record(number, "\t".join(row), tuple(row)) for number, row in enumerate(rows, start=1)
    )
    return _read(records, unit, source, frozenset())


def _not_too_many(lines: int, source: str | None) -> None:
    if lines > LINES_MOST:
        msg = (
            f"{lines} lines; a list is read up to {LINES_MOST}, and a job takes 2000 kinds of"
            " thing: give one line to each kind, with its count"
        )
        raise InputError(msg, source)


def _find_header(lines: Sequence[str]) -> tuple[int, str]:
    """Return the index of the header line and its separator; past the end where there is none."""
    seen = 0
    for at, line in enumerate(lines):
        if not line.strip() or _COMMENT.match(line):
            continue
        for separator in SEPARATORS:
            cells, is_open = split_cells(line, separator)
            if not is_open and header_of(cells):
                return at, separator
        seen += 1
        if seen == _HEADER_WITHIN:
            break
    return len(lines), ""


def _read(
    records: Iterable[Record], unit: Unit, source: str | None, is_numbered: frozenset[int]
) -> Listing:
    reader = _Reader(unit, is_numbered)
    readings = reader.read_all(records)
    readings = set_aside(readings)
    if reader.header_at is None:
        readings = with_headings(readings)
    else:
        readings = [_above_header(r) if r.number < reader.header_at else r for r in readings]
    return Listing.of(readings, source)


class _Reader:
    """Reads record by record, and keeps the header that holds for the rows below it."""

    def __init__(self, unit: Unit, is_numbered: frozenset[int]) -> None:
        self.unit = unit
        self.is_numbered = is_numbered
        self.columns: tuple[Column, ...] | None = None
        self.header_at: int | None = None
        self.common = ""
        self.said = Around()
        self.header_failed = False
        """True below a header that is not understood, whose rows cannot be read."""

    def read_all(self, records: Iterable[Record]) -> list[LineReading]:
        """Read every record; a name and the sizes on the line below it are one thing."""
        readings: list[LineReading] = []
        for record in records:
            reading = self._under_common(record) or self.read(record)
            if readings and reading.problems == (NAME_MISSING,) and _lacks_sizes(readings[-1]):
                above = readings[-1]
                both = self.read(Record(record.number, f"{above.text}, {reading.text}"))
                if both.item is not None:
                    readings[-1] = LineReading(above.number, above.text, skipped=CONTINUED)
                    reading = replace(both, text=reading.text)
            readings.append(reading)
            self._hear(reading)
        return readings

    def _hear(self, reading: LineReading) -> None:
        """Keep the order and the unit of sizes that a line without a thing says."""
        if reading.item is None and self.columns is None:
            said = what_is_said(reading.text)
            self.said = Around(said.order or self.said.order, said.unit or self.said.unit)

    def _under_common(self, record: Record) -> LineReading | None:
        """Read a heading with sizes of all, and things below it that have no sizes of their own."""
        shown, _ = clean_text(record.text)
        if record.cells is not None or self.columns is not None:
            return None
        if not shown or (shown.endswith(":") and not _COMMON.match(shown)):
            self.common = ""
        if match := _COMMON.match(shown):
            self.common = match["sizes"]
            note = f"sizes of all below: {self.common}"
            text = match["name"].strip(" -–—,(")
            return LineReading(record.number, f"{text}:", notes=(note,), skipped=HEADING)
        if self.common and not has_sizes(shown):
            reading = self.read(Record(record.number, f"{record.text}, {self.common}"))
            return replace(reading, text=shown, notes=(*reading.notes, "sizes from the heading"))
        return None

    def read(self, record: Record) -> LineReading:
        """Read one line or row."""
        shown, cut = clean_text(record.text)
        reason = _skip_reason(record, shown)
        if reason:
            return LineReading(record.number, shown, skipped=reason)
        if record.cells is not None and (columns := header_of(record.cells)):
            return self._header(record, shown, columns)
        if self.header_failed:
            return LineReading(record.number, shown, skipped=_UNDER_BAD_HEADER)
        draft = self._draft(record, shown)
        if cut and "control characters removed" not in draft.notes:
            draft.notes.append("control characters removed")
        return draft.reading(record.number, shown)

    def _header(self, record: Record, shown: str, columns: tuple[Column, ...]) -> LineReading:
        first = self.header_at is None
        problems = column_problems(columns)
        self.columns, self.header_at = columns, self.header_at or record.number
        self.header_failed = bool(problems)
        return LineReading(
            record.number,
            shown,
            problems=tuple(problems),
            notes=tuple(column_notes(columns)),
            skipped=None if problems else "header" if first else "header again",
        )

    def _draft(self, record: Record, shown: str) -> Draft:
        if record.cells is None:
            in_series = record.number in self.is_numbered
            return _read_plain(record.text, shown, self.unit, in_series, self.said)
        filled = [cell for cell in record.cells if cell.strip()]
        if len(filled) == 1:
            alone = read_line(clean_text(filled[0])[0], self.unit)
            if alone is not None and (self.columns is None or not alone.problems):
                return alone
        if self.columns is not None:
            return read_row(record.cells, self.columns, self.unit)
        return guess_row([clean_text(cell)[0] for cell in record.cells], self.unit)


def _lacks_sizes(reading: LineReading) -> bool:
    return len(reading.problems) == 1 and reading.problems[0].startswith("no sizes are found")


def _skip_reason(record: Record, shown: str) -> str | None:
    if not shown.strip(" ,;|"):
        return "blank"
    if _COMMENT.match(shown):
        return "comment"
    if record.cells is None and _is_heading(shown):
        return HEADING
    return None


def _is_heading(shown: str) -> bool:
    bare = _YEARS.sub("", re.sub(r"^\d{1,2}[.)]\s", "", shown))
    return shown.endswith(":") and not any(c.isdigit() for c in bare)


def _above_header(reading: LineReading) -> LineReading:
    """What stands above a header and holds no sizes is a title."""
    if reading.problems and not has_sizes(reading.text):
        return LineReading(reading.number, reading.text, skipped="above the header")
    return reading


def _read_plain(raw: str, shown: str, unit: Unit, in_series: bool, said: Around) -> Draft:
    """Read a line without a header, and ask where the number in front of it may be the count."""
    line, number = without_number(shown, in_series)
    draft = _read_words(raw, line, unit, said)
    if line != shown and (number is None or draft.counted):
        draft.notes.append(f"{shown[: -len(line)].strip()} taken for its number in the list")
    if number is not None and not draft.counted and not draft.problems:
        draft.doubts.append(
            Doubt(
                f"is {number} a line number or the count?",
                (Choice("a line number"), Choice(f"{number} of them", {"count": number})),
            )
        )
    return draft


def _read_words(raw: str, line: str, unit: Unit, said: Around) -> Draft:
    """Read a line as cells where it is quoted or has tabs, else as words."""
    cells = _quoted_cells(raw)
    if cells is None:
        draft = read_line(line, unit, said)
        if draft is not None:
            return draft
        cells = loose_cells(raw)
    if cells is not None:
        return guess_row([clean_text(cell)[0] for cell in cells], unit)
    three = _THREE_LAST.match(line)
    if three:
        return guess_row([three["name"], *three["sizes"].split()], unit)
    problem = f"no sizes are found; write for example {LINE_FORMS}; a heading ends with a colon"
    return Draft(name=line, problems=[problem])


def _quoted_cells(raw: str) -> list[str] | None:
    """Return the cells of a line with tabs, or with cells in quotes; else None."""
    if "\t" in raw.strip():
        return split_cells(raw, "\t")[0]
    for separator in (",", ";"):
        if raw.lstrip().startswith('"') or re.search(rf'{separator}\s*"(?!\s*{separator})', raw):
            cells, is_open = split_cells(raw, separator)
            if not is_open and len(cells) >= 2:
                return cells
    return None
