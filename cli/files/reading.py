"""Lists and tables in: from a text file, a spreadsheet or standard input."""

from __future__ import annotations

import codecs
import csv
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from cli.files.workbooks import read_workbook, worksheet_texts
from solver.errors import InputError
from solver.listing.line_readings import Listing
from solver.listing.read import read_listing
from solver.units import Unit

STDIN = "-"
"""The path that stands for standard input."""
BYTES_MOST = 20_000_000
"""Largest file that is read [bytes]; an inventory is far smaller."""
TEXT_ENDINGS = (".csv", ".tsv", ".txt")
ENDINGS = (*TEXT_ENDINGS, ".xlsx")
_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_OTHER_SHEETS = (".xls", ".xlsm", ".xlsb", ".ods", ".numbers")


def read_inventory(path: str, unit: Unit, sheet: str | None = None) -> Listing:
    """Read a list of things.

    Parameters
    ----------
    path
        A .csv, .tsv, .txt or .xlsx file, or ``-`` for standard input.
    unit
        The unit of a size without one: "in" or "mm" [-].
    sheet
        Name of the worksheet of an .xlsx file; left out, the first one.

    Returns
    -------
    Listing
        The items and how each line was read; unreadable lines are in it too.

    Raises
    ------
    InputError
        Where the file cannot be read at all.
    """
    ending = Path(path).suffix.lower()
    if path != STDIN:
        check_ending(path)
    if sheet is not None and ending != ".xlsx":
        msg = "a worksheet can be named for .xlsx files only"
        raise InputError(msg, path)
    if ending == ".xlsx":
        return read_workbook(read_bytes(path), path, unit, sheet)
    return _read_text(path, unit)


def is_list(path: str) -> bool:
    """Whether a path is that of a list, pasted or in a file, and not of a job."""
    return path == STDIN or Path(path).suffix.lower() in (*ENDINGS, *_OTHER_SHEETS)


def check_ending(path: str) -> None:
    """Raise InputError where a list is in a kind of file that is not read."""
    ending = Path(path).suffix.lower()
    if ending not in ENDINGS:
        raise InputError(_wrong_ending(ending), path)


def _wrong_ending(ending: str) -> str:
    known = ", ".join(ENDINGS)
    if ending in _OTHER_SHEETS:
        return f"{ending} files are not read; save it as .xlsx or .csv, or paste its cells"
    return f"a list is read from {known} files or from - (pasted); rename or save it so"


def _read_text(path: str, unit: Unit) -> Listing:
    name = "pasted list" if path == STDIN else path
    data = read_stdin() if path == STDIN else read_bytes(path)
    text, encoding = decode(data, name)
    listing = read_listing(text, unit, name)
    if encoding == "cp1252":
        note = "read as Windows-1252, since it is not UTF-8; check accents and fractions"
        return replace(listing, notes=(note,))
    return listing


def read_bytes(path: str) -> bytes:
    """Return the content of a file of at most 20 MB; InputError says why it cannot be had."""
    try:
        if Path(path).is_dir():
            msg = "this is a folder; give the name of a file"
            raise InputError(msg, path)
        with Path(path).open("rb") as file:
            data = file.read(BYTES_MOST + 1)
    except FileNotFoundError:
        msg = "there is no such file; check the name and the folder"
        raise InputError(msg, path) from None
    except (OSError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"the file cannot be read: {reason}"
        raise InputError(msg, path) from None
    return _not_too_large(data, path)


def read_stdin() -> bytes:
    """Return what is pasted or piped in; on a terminal say first how to end it."""
    if sys.stdin.isatty():
        sys.stderr.write("Paste the list, then press Enter and Ctrl-D (Windows: Ctrl-Z, Enter).\n")
        sys.stderr.flush()
    return _not_too_large(sys.stdin.buffer.read(BYTES_MOST + 1), "pasted list")


def _not_too_large(data: bytes, name: str) -> bytes:
    if len(data) > BYTES_MOST:
        msg = "larger than 20 MB; this is hardly a list of things: check the name, or split it"
        raise InputError(msg, name)
    return data


def decode(data: bytes, name: str) -> tuple[str, str]:
    """Return the text and its encoding: UTF-8, UTF-16 with its mark, else Windows-1252."""
    encoding = next((codec for bom, codec in _BOMS if data.startswith(bom)), None)
    if encoding is None and b"\0" in data:
        msg = "this is no text; save the list as .csv (UTF-8) or .xlsx"
        raise InputError(msg, name)
    for codec in (encoding,) if encoding else ("utf-8", "cp1252"):
        try:
            return data.decode(codec), codec
        except UnicodeDecodeError:
            continue
    msg = "the letters cannot be read in UTF-8, UTF-16 or Windows-1252; save it as UTF-8"
    raise InputError(msg, name)


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
