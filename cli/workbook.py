"""Worksheets of an .xlsx file as rows of texts."""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from solver.errors import InputError, ManyInputsError
from solver.listing.model import Listing
from solver.listing.read import read_rows
from solver.units import Unit

ROWS_MOST = 200_000
COLUMNS_MOST = 200
UNPACKED_MOST = 400_000_000
"""An .xlsx file that unpacks to more is refused [bytes]."""
_BROKEN = "this is not a readable .xlsx file; open it and save it as .xlsx again, or as .csv"


def read_workbook(data: bytes, path: str, unit: Unit, sheet: str | None) -> Listing:
    """Read a worksheet, the first where `sheet` is None, as a list of things."""
    return read_rows(worksheet_texts(data, path, sheet), unit, path)


def worksheet_texts(data: bytes, path: str, sheet: str | None) -> list[list[str]]:
    """Return the cells of a worksheet as texts, the first where `sheet` is None, row by row."""
    _check_archive(data, path)
    try:
        values = list(_rows(data, path, sheet, values=True))
        formulas = list(_rows(data, path, sheet, values=False))
    except InputError:
        raise
    except Exception as error:  # openpyxl raises whatever a broken part of the file leads to
        msg = f"{_BROKEN} ({type(error).__name__})"
        raise InputError(msg, path) from None
    return _texts(values, formulas, path)


def _check_archive(data: bytes, path: str) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            size = sum(entry.file_size for entry in archive.infolist())
    except (zipfile.BadZipFile, ValueError, NotImplementedError):
        raise InputError(_BROKEN, path) from None
    if size > UNPACKED_MOST:
        msg = "unpacks to more than 400 MB; save only the sheet with the list"
        raise InputError(msg, path)


def _rows(data: bytes, path: str, sheet: str | None, *, values: bool) -> Iterator[tuple[Any, ...]]:
    """Yield the rows of one worksheet: as last calculated with `values`, else as typed."""
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(data), read_only=True, data_only=values)
    try:
        names = [page.title for page in book.worksheets]
        if sheet is not None and sheet not in names:
            msg = f"there is no worksheet {sheet!r}; there are: {', '.join(map(repr, names))}"
            raise InputError(msg, path)
        if not names:
            msg = "there is no worksheet in it"
            raise InputError(msg, path)
        page = book[sheet or names[0]]
        page.reset_dimensions()
        for number, row in enumerate(page.iter_rows(values_only=True), start=1):
            if number > ROWS_MOST:
                msg = f"more than {ROWS_MOST} rows; save only the rows of the list"
                raise InputError(msg, path)
            yield tuple(row[:COLUMNS_MOST])
    finally:
        book.close()


def _texts(
    values: Sequence[tuple[Any, ...]], formulas: Sequence[tuple[Any, ...]], path: str
) -> list[list[str]]:
    """Return all cells as texts; every date and every formula without a value is an error."""
    texts: list[list[str]] = []
    errors: list[InputError] = []
    for number, (row, typed) in enumerate(zip(values, formulas, strict=True), start=1):
        texts.append([])
        for column, (value, given) in enumerate(zip(row, typed, strict=True), start=1):
            try:
                texts[-1].append(_text(value, given))
            except ValueError as error:
                errors.append(InputError(str(error), f"{path} {_letters(column)}{number}"))
    if errors:
        raise ManyInputsError(errors)
    return texts


def _text(value: Any, given: Any) -> str:
    if isinstance(value, datetime.datetime | datetime.date | datetime.time | datetime.timedelta):
        msg = (
            "a date; spreadsheets turn 9-1/2 into one: "
            "format the column as text, and type the size again"
        )
        raise ValueError(msg)
    if value is None and given is not None:
        msg = "a formula without a stored value; open the file, save it, or paste the values"
        raise ValueError(msg)
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _number(value)
    return str(value)


def _number(value: float) -> str:
    """A number as people write it: 9.5, and 3 for 3.0; a long binary tail is cut at 12 digits."""
    shown = f"{Decimal(f'{value:.12g}'):f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def _letters(column: int) -> str:
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
