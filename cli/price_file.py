"""Price lists, CSV or TOML: everything that is wrong in one at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.columns import read_rows
from cli.files import read_bytes
from cli.toml_text import parse_toml
from solver.errors import InputError, ManyInputsError, message_of
from solver.price_list import ListPrice, PriceList

HEADERS: dict[str, tuple[str, ...]] = {
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
    rows, remarks = read_rows(path, HEADERS, "item")
    currencies = {line: row.pop("currency", None) for line, row in rows}
    said = {one: line for line, one in currencies.items() if one is not None}
    if len(said) > 1:
        msg = f"one currency for the whole list, not {' and '.join(said)}"
        raise InputError(msg, f"{path} line {max(said.values())}")
    prices = _lines(path, [(f"{path} line {line}", row) for line, row in rows])
    return _whole(
        path, {"currency": next(iter(said), None), "note": " ".join(remarks) or None}, prices
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
    return _whole(path, raw, _lines(path, named))


def _lines(path: str, rows: list[tuple[str, dict[str, Any]]]) -> list[ListPrice]:
    found, errors = [], []
    for where, row in rows:
        try:
            found.append(ListPrice.model_validate(row))
        except ValidationError as error:
            errors += [InputError(_told(one), where) for one in error.errors(include_url=False)]
    if errors:
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors)
    if not found:
        msg = "there are no prices in it"
        raise InputError(msg, path)
    return found


def _whole(path: str, head: dict[str, Any], prices: list[ListPrice]) -> PriceList:
    try:
        return PriceList.model_validate({**head, "prices": tuple(prices)})
    except ValidationError as error:
        told = [InputError(_told(one), path) for one in error.errors(include_url=False)]
        raise told[0] if len(told) == 1 else ManyInputsError(told) from None


def _told(one: Any) -> str:
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
