"""Spreadsheet files (.xlsx): worksheets read as rows of texts, tables written as one workbook.

Numbers written can be reckoned with and are shown as a shop reads them; the same tables give the
same bytes.
"""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from cli.screen.wording import plain_name
from solver.errors import InputError, ManyInputsError
from solver.listing.line_readings import Listing
from solver.listing.read import read_rows
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Unit, format_length

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet
    from pandas import DataFrame

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


MADE = datetime.datetime(1980, 1, 1)
"""The time in every file: a workbook of today is the same tomorrow."""
MONEY = ("price", "each", "amount")
"""Columns of money."""
SMALL = ("sag", "allowed")
"""What columns of lengths begin with that are too small for fractions."""
WIDEST = 48
"""Most letters that a column is wide [-]."""
FACE = b"Inter"
"""The typeface that cells ask for: the open one that drawings are lettered with."""
OURS: dict[str, tuple[tuple[bytes, bytes], ...]] = {
    "docProps/app.xml": (
        (rb"<Application>.*</Application>", b"<Application>Casewright</Application>"),
        (rb"<AppVersion>.*</AppVersion>", b""),
    ),
    "docProps/core.xml": (
        (rb"(<dc:creator>)[^<]*", rb"\g<1>Casewright"),
        (rb"(<dcterms:created[^>]*>)([^<]*)(.*<dcterms:modified[^>]*>)[^<]*", rb"\1\2\3\2"),
    ),
    "xl/styles.xml": ((rb'(<name val=")[^"]*', rb"\g<1>" + FACE),),
    "xl/theme/theme1.xml": (
        (rb"<a:font script=[^>]*>", b""),
        (rb'(typeface=")[^"]+', rb"\g<1>" + FACE),
        (rb'(name=")Office[^"]*', rb"\g<1>Casewright"),
    ),
}
"""What is replaced in which part: the library that writes workbooks names itself, a commercial
spreadsheet and its typefaces."""


def workbook(tables: Mapping[str, DataFrame], unit: Unit) -> bytes:
    """Return the tables as the sheets of one workbook.

    Lengths are numbers in the job's unit, shown as fractions of an inch or as millimetres by
    their number format; the column that says the same in words is left out. A text is a text
    even where it looks like a formula.
    """
    from openpyxl import Workbook

    book = Workbook()
    del book[book.sheetnames[0]]
    book.properties.created = MADE
    for name, frame in tables.items():
        _fill_sheet(book.create_sheet(name), frame, unit)
    data = io.BytesIO()
    book.save(data)
    return without_other_names(data.getvalue())


def _fill_sheet(sheet: Worksheet, frame: DataFrame, unit: Unit) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    columns = [str(name) for name in frame.columns]
    shown_columns = [name for name in columns if f"{name}_{unit}" not in columns]
    for at, name in enumerate(shown_columns, start=1):
        length = name.endswith(f"_{unit}") and name.removesuffix(f"_{unit}") in columns
        sheet.cell(1, at, name).font = Font(bold=True)
        cells = frame[name].tolist()
        shown = [
            _fill(sheet.cell(row, at), cell, _number_format(name, cell, unit if length else None))
            for row, cell in enumerate(cells, start=2)
        ]
        wide = min(WIDEST, max(map(len, (name, *shown))))
        sheet.column_dimensions[get_column_letter(at)].width = wide + 2
    sheet.freeze_panes = "B2"
    sheet.auto_filter.ref = sheet.dimensions


def _number_format(name: str, value: Any, unit: Unit | None) -> str:
    """Return the number format of a cell of the column `name`; `unit` is that of a length."""
    if unit is not None and value is not None:
        if name.startswith(SMALL):
            return "0.000" if unit == "in" else "0.00"
        return length_format(value, unit)
    return "#,##0.00" if name in MONEY else "General"


def _fill(cell: Any, value: Any, number_format: str) -> str:
    """Put a value in a cell and return about what is shown, for the column's width."""
    if value is None:
        return ""
    if isinstance(value, str):
        cell.value = plain_name(value)  # signs that steer a terminal are not allowed in XML either
        cell.data_type = "s"
        return value
    cell.value = value
    cell.number_format = number_format
    return str(value)


def _ticks(value: Decimal, unit: Unit) -> int:
    return round(value * (TICKS_PER_INCH if unit == "in" else TICKS_PER_MM))


def length_format(value: Decimal, unit: Unit) -> str:
    """Return the number format that shows a length as :func:`solver.units.format_length` does.

    `value` is in the job's unit. The format's denominator is that of the nearest 1/32 in, and
    + or − stands after it where the true length is a little more or less.
    """
    shown = format_length(_ticks(value, unit), unit)
    sign = shown[-1] if shown[-1] in "+−" else ""
    after = f'"{sign}"' if sign else ""
    if unit == "mm":
        return f"0{'.0' if '.' in shown else ''}{after}"
    fraction = re.search(r"/(\d+)", shown)
    if fraction is None:
        return f"0{after}"
    return f"# {'?' * len(str(int(fraction[1]) - 1))}/{fraction[1]}{after}"


def without_other_names(data: bytes) -> bytes:
    """Return a workbook with no time of today in it and no program or typeface of others named."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for entry in old.infolist():
            content = old.read(entry)
            for pattern, ours in OURS.get(entry.filename, ()):
                content = re.sub(pattern, ours, content)
            plain = zipfile.ZipInfo(entry.filename, MADE.timetuple()[:6])
            plain.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(plain, content)
    return out.getvalue()
