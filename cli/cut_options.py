"""The options of `casewright cut` that name stock: sheets and mouldings."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from solver.errors import InputError, LengthError, ManyInputsError
from solver.units import Ticks, Unit, parse_length, plain

SHEET_FORM = "LENGTHxWIDTH, the length along the grain, such as 96x48, 96x48@65.00 or 96x48@65.00*2"
MOULDING_FORM = "LENGTH, such as 96, 96@9.60 or 96@9.60*4"
COUNT_MOST = 10_000
PRICE_MOST = Decimal("999999.99")

_STOCK = re.compile(r"(?P<size>[^@*]+)(@(?P<price>[^@*]*))?(\*(?P<count>[^@*]*))?")


@dataclass(frozen=True)
class StockOption:
    """A size that may be bought; `width` is 0 for mouldings [tick]."""

    text: str
    length: Ticks
    width: Ticks
    price: Decimal | None
    limit: int | None


def read_stock(texts: list[str], option: str, unit: Unit, *, sheets: bool) -> list[StockOption]:
    """Read the values of `option`; all that cannot be read are reported at once."""
    found, errors = [], []
    for text in texts:
        try:
            found.append(_stock(text, unit, sheets=sheets))
        except (LengthError, ValueError) as error:
            form = SHEET_FORM if sheets else MOULDING_FORM
            errors.append(InputError(f"{error}; the form is {form}", f"{option} {text}"))
    if errors:
        raise ManyInputsError(errors)
    return found


def _stock(text: str, unit: Unit, *, sheets: bool) -> StockOption:
    match = _STOCK.fullmatch(plain(text))
    if match is None:
        msg = f"{text!r} is not understood"
        raise ValueError(msg)
    sizes = re.split(r"\s*[x×]\s*", match["size"].strip(), flags=re.IGNORECASE)
    if len(sizes) != (2 if sheets else 1):
        msg = "two sizes are wanted" if sheets else "one length is wanted"
        raise ValueError(msg)
    lengths = [parse_length(size, unit) for size in sizes]
    if min(lengths) <= 0:
        msg = "a size is more than 0"
        raise ValueError(msg)
    width = lengths[1] if sheets else 0
    return StockOption(match["size"].strip(), lengths[0], width, _price(match), _count(match))


def _price(match: re.Match[str]) -> Decimal | None:
    if match["price"] is None:
        return None
    text = match["price"].strip().lstrip("$£€")
    try:
        price = Decimal(text)
    except InvalidOperation:
        price = Decimal(-1)
    if not 0 <= price <= PRICE_MOST or price != price.quantize(Decimal("0.01")):
        msg = f"{text!r} is not a price such as 65 or 65.00"
        raise ValueError(msg)
    return price.quantize(Decimal("0.01"))


def _count(match: re.Match[str]) -> int | None:
    if match["count"] is None:
        return None
    text = match["count"].strip()
    if not text.isdecimal() or not 1 <= int(text) <= COUNT_MOST:
        msg = f"{text!r} is not a number of pieces from 1 to {COUNT_MOST}"
        raise ValueError(msg)
    return int(text)


def read_length(text: str | None, option: str, unit: Unit, otherwise: str) -> Ticks:
    """Read the length of an option, or its default in `unit` [tick]."""
    try:
        return parse_length(otherwise if text is None else text, unit)
    except LengthError as error:
        raise InputError(str(error), option) from None
