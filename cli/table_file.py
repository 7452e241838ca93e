"""A table with a line of headings, from text, a spreadsheet file or standard input."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from pathlib import Path

from cli.files import STDIN, check_ending, decode, read_bytes, read_stdin
from cli.workbook import worksheet_texts

Line = tuple[int, list[str]]
"""Number of a line, from 1, and its cells."""


def read_table(path: str, name: str) -> list[Line]:
    """Return every line of a table that is not blank.

    Parameters
    ----------
    path
        A .csv, .tsv, .txt or .xlsx file (its first worksheet), or ``-`` for standard input.
    name
        What it is called in messages.

    Raises
    ------
    InputError
        Where the file cannot be read, or is of another kind.
    """
    if path == STDIN:
        return list(text_lines(decode(read_stdin(), name)[0]))
    check_ending(path)
    if Path(path).suffix.lower() == ".xlsx":
        return list(_filled(enumerate(worksheet_texts(read_bytes(path), path, None), start=1)))
    return list(text_lines(decode(read_bytes(path), name)[0]))


def text_lines(text: str) -> Iterator[Line]:
    """Yield the lines of a text that are not blank; commas, semicolons or tabs divide cells."""
    plain = text.removeprefix("\ufeff")
    first = next((line for line in plain.splitlines() if line.strip()), "")
    delimiter = max(",;\t", key=first.count)
    reader = csv.reader(plain.splitlines(), delimiter=delimiter, skipinitialspace=True)
    return _filled((reader.line_num, cells) for cells in reader)


def _filled(lines: Iterator[tuple[int, Sequence[str]]]) -> Iterator[Line]:
    for number, cells in lines:
        if any(cell.strip() for cell in cells):
            yield number, [cell.strip() for cell in cells]
