"""Price lists, and what came of a job, as CSV or TOML: everything that is wrong in one at once.

`read_rows` reads any small CSV file with named columns. Actuals are hours and amounts, a line each,
to hold against the estimate.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.reading import decode, read_bytes, text_lines
from cli.files.toml_text import parse_toml
from solver.costing.actuals import Entry
from solver.errors import InputError, ManyInputsError, message_of
from solver.job.price_terms import ListPrice, PriceList

PRICE_HEADERS: dict[str, tuple[str, ...]] = {
    "item": ("name", "what", "thing", "article"),
    "price": ("each", "cost", "price of a pack", "unit price"),
    "pack": ("per", "pack of", "packs of", "pack size", "in a pack"),
    "on_hand": ("on hand", "there", "in stock", "have"),
    "currency": ("cur",),
    "note": ("notes", "remark", "comment", "where"),
}
"""Columns and what else they may be called, whatever the case."""
_ALLOWED = {
    "pack": "a whole number from 1",
    "on_hand": "a whole number from 0",
    "price": "an amount from 0 to 999,999.99 in whole cents",
    "item": "a text of 1 to 200 characters",
    "currency": "three capital letters, such as USD",
}


def read_prices(path: str | None) -> PriceList | None:
    """Read a price list; None where no path is given.

    A TOML list has `currency`, `note` and [[price]] with item, price, pack, on_hand and note; a
    CSV list has these as columns, and its remarks (#) are the note.
    """
    if path is None:
        return None
    ending = Path(path).suffix.lower()
    if ending == ".toml":
        return _from_toml(path)
    if ending in (".csv", ".tsv", ".txt"):
        return _from_csv(path)
    msg = "a price list is a .csv or a .toml file"
    raise InputError(msg, path)


def _from_csv(path: str) -> PriceList:
    rows, remarks = read_rows(path, PRICE_HEADERS, "item")
    currencies = {line: row.pop("currency", None) for line, row in rows}
    line_of = {one: line for line, one in currencies.items() if one is not None}
    if len(line_of) > 1:
        msg = f"one currency for the whole list, not {' and '.join(line_of)}"
        raise InputError(msg, f"{path} line {max(line_of.values())}")
    prices = _lines(path, [(f"{path} line {line}", row) for line, row in rows])
    return _price_list(
        path, {"currency": next(iter(line_of), None), "note": " ".join(remarks) or None}, prices
    )


def _from_toml(path: str) -> PriceList:
    try:
        text = read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError:
        msg = "a letter is not in UTF-8; save the file as UTF-8"
        raise InputError(msg, path) from None
    raw = parse_toml(text, path)
    listed = raw.pop("price", [])
    if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
        msg = "write [[price]] with double brackets, one for each thing"
        raise InputError(msg, path)
    strange = [key for key in raw if key not in ("currency", "note")]
    if strange:
        msg = f"{strange[0]!r} is not known here; allowed: currency, note, [[price]]"
        raise InputError(msg, path)
    named = [(f"{path} [[price]] {at}", one) for at, one in enumerate(listed, start=1)]
    return _price_list(path, raw, _lines(path, named))


def _lines(path: str, rows: list[tuple[str, dict[str, Any]]]) -> list[ListPrice]:
    found, errors = [], []
    for where, row in rows:
        try:
            found.append(ListPrice.model_validate(row))
        except ValidationError as error:
            errors += [
                InputError(_fault_text(one), where) for one in error.errors(include_url=False)
            ]
    if errors:
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors)
    if not found:
        msg = "there are no prices in it"
        raise InputError(msg, path)
    return found


def _price_list(path: str, head: dict[str, Any], prices: list[ListPrice]) -> PriceList:
    try:
        return PriceList.model_validate({**head, "prices": tuple(prices)})
    except ValidationError as error:
        errors = [InputError(_fault_text(one), path) for one in error.errors(include_url=False)]
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors) from None


def _fault_text(one: Any) -> str:
    """Say what is wrong with one key: what is given, and what is allowed."""
    key = str(one["loc"][-1]) if one["loc"] else ""
    text = message_of(one)
    if one["type"] == "extra_forbidden":
        return f"{key!r} is not known here; allowed: item, price, pack, on_hand, note"
    if one["type"] == "missing":
        return f"{key} is missing"
    if one["type"] == "value_error" or key not in _ALLOWED:
        return f"{key}: {text}" if key else text
    return f"{key}: {one['input']!r} is given; allowed: {_ALLOWED[key]}"


def read_rows(
    path: str, headers: Mapping[str, Sequence[str]], first: str
) -> tuple[list[tuple[int, dict[str, str]]], list[str]]:
    """Read a CSV file.

    Parameters
    ----------
    path
        The file; lines that begin with # are remarks.
    headers
        Columns, and what else each may be called.
    first
        The column that must be there.

    Returns
    -------
    tuple
        (line number, cells by column) of each row, and the remarks.

    Raises
    ------
    InputError
        Where the file cannot be read, or a column is unknown, double or missing.
    """
    text, _ = decode(read_bytes(path), path)
    plain = [line.strip() for line in text.removeprefix("\ufeff").splitlines()]
    remarks = [line.lstrip("# ") for line in plain if line.startswith("#")]
    kept = "\n".join("" if line.startswith("#") else line for line in plain)
    lines = list(text_lines(kept))
    if not lines:
        msg = f"nothing is listed; the first line names the columns: {', '.join(headers)}"
        raise InputError(msg, path)
    number, header = lines[0]
    columns = _columns(header, headers, f"{path} line {number}")
    if first not in columns:
        msg = f"the column {first} is missing; columns: {', '.join(headers)}"
        raise InputError(msg, f"{path} line {number}")
    return [(line, _cells(columns, cells, f"{path} line {line}")) for line, cells in lines[1:]], [
        remark for remark in remarks if remark
    ]


def _columns(
    header: Sequence[str], headers: Mapping[str, Sequence[str]], where: str
) -> dict[str, int]:
    known = {alias: column for column, aliases in headers.items() for alias in (column, *aliases)}
    index_of: dict[str, int] = {}
    for at, cell in enumerate(header):
        plain = " ".join(cell.lower().replace("_", " ").split())
        column = known.get(plain, known.get(plain.replace(" ", "_")))
        if column is None:
            close = difflib.get_close_matches(plain, list(known), n=1, cutoff=0.6)
            meant = f" did you mean {known[close[0]]}?" if close else ""
            msg = f"{cell!r} is no column here;{meant} columns: {', '.join(headers)}"
            raise InputError(msg, f"{where}, column {at + 1}")
        if column in index_of:
            msg = f"the column {column} is there twice"
            raise InputError(msg, f"{where}, column {at + 1}")
        index_of[column] = at
    return index_of


def _cells(columns: Mapping[str, int], cells: Sequence[str], where: str) -> dict[str, str]:
    if len(cells) > len(columns):
        msg = f"{len(cells)} cells, but {len(columns)} columns; quote a text with a comma in it"
        raise InputError(msg, where)
    return {column: cells[at] for column, at in columns.items() if at < len(cells) and cells[at]}


ACTUAL_HEADERS: dict[str, tuple[str, ...]] = {
    "what": ("line", "task", "item", "name"),
    "hours": ("h", "actual hours"),
    "amount": ("paid", "cost", "actual", "actual amount"),
    "note": ("notes", "remark", "comment"),
}
"""Columns and what else they may be called, whatever the case."""
MOST = Decimal(1_000_000)


def read_actuals(path: str) -> list[Entry]:
    """Read a CSV file of `what,hours,amount`; a cell may be empty."""
    rows, _ = read_rows(path, ACTUAL_HEADERS, "what")
    entries, errors = [], []
    for line, row in rows:
        where = f"{path} line {line}"
        try:
            entries.append(
                Entry(row.get("what", ""), _number(row, "hours"), _number(row, "amount"))
            )
        except ValueError as error:
            errors.append(InputError(str(error), where))
    if errors:
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors)
    return entries


def _number(row: dict[str, str], column: str) -> Decimal | None:
    text = row.get(column, "").replace(",", "").lstrip("$£€").strip()
    if not text:
        return None
    try:
        number = Decimal(text)
        if not number.is_finite() or not 0 <= number < MOST:
            raise InvalidOperation
    except InvalidOperation:
        msg = f"{column}: {row[column]!r} is given; allowed: a number from 0 to 999,999.99"
        raise ValueError(msg) from None
    rounded = number.quantize(Decimal("0.01"))
    if rounded != number:
        msg = f"{column}: {row[column]!r} is given; at most two places after the point"
        raise ValueError(msg)
    return rounded
