"""What `casewright cut` was asked for, as written, and read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import get_args

from cli.files.parts_file import read_parts
from solver.cutting.cutting_problem import FirstCut, Stages
from solver.errors import InputError, LengthError, ManyInputsError
from solver.job.assumed import default_sheets
from solver.job.defaults import table_defaults
from solver.job.job import Saw
from solver.planning.cut_list import CutList, StockOption
from solver.units import Ticks, Unit, parse_length, plain

SHEET_FORM = "LENGTHxWIDTH, the length along the grain, such as 96x48, 96x48@65.00 or 96x48@65.00*2"
MOULDING_FORM = "LENGTH, such as 96, 96@9.60 or 96@9.60*4"
COUNT_MOST = 10_000
PRICE_MOST = Decimal("999999.99")

_STOCK = re.compile(r"(?P<size>[^@*]+)(@(?P<price>[^@*]*))?(\*(?P<count>[^@*]*))?")


@dataclass(frozen=True)
class CutRequest:
    """The options as written."""

    parts: str
    sheets: list[str]
    mouldings: list[str]
    kerf: str | None
    edge_trim: str
    margin: str
    mitre: str | None
    turn: bool
    stages: Stages
    first: FirstCut
    unit: Unit
    saws: tuple[str, ...] = ()
    trimming: bool = True


def read_request(request: CutRequest) -> CutList:
    """Read options and list; InputError names the option, or file, line and column."""
    if request.sheets and request.mouldings:
        msg = "--sheet and --moulding do not go together; cut sheets and mouldings one by one"
        raise InputError(msg)
    unit, mouldings = request.unit, bool(request.mouldings)
    kerf = read_length(request.kerf, "--kerf", unit, table_defaults("shop", unit)["kerf"])
    mitre = kerf
    if request.mitre is not None:
        mitre = read_length(request.mitre, "--mitre-allowance", unit, "0")
    return CutList(
        stock=_stock(request),
        unit=unit,
        kerf=kerf,
        edge_trim=read_length(request.edge_trim, "--edge-trim", unit, "0"),
        margin=read_length(request.margin, "--margin", unit, "0"),
        mitre=mitre,
        turn=request.turn,
        stages=request.stages,
        trimming=request.trimming,
        first=request.first,
        mouldings=mouldings,
        saws=_saws(request.saws),
        rows=read_parts(request.parts, unit, mouldings=mouldings),
    )


def _saws(names: tuple[str, ...]) -> tuple[Saw, ...]:
    """Read the saws there are; one named twice counts once."""
    known: tuple[Saw, ...] = get_args(Saw)
    unknown = [name for name in names if name not in known]
    if unknown:
        msg = f"{unknown[0]!r} is not a saw that is known; allowed: {', '.join(map(repr, known))}"
        raise InputError(msg, "--saw")
    return tuple(saw for saw in known if saw in names)


def _stock(request: CutRequest) -> list[StockOption]:
    """Read the stock that may be bought; left out, sheets of the usual size."""
    if request.mouldings:
        return read_stock(request.mouldings, "--moulding", request.unit, sheets=False)
    usual = default_sheets(request.unit)[0]
    texts = request.sheets or [f"{usual['length']}x{usual['width']}"]
    return read_stock(texts, "--sheet", request.unit, sheets=True)


def read_stock(texts: list[str], option: str, unit: Unit, *, sheets: bool) -> list[StockOption]:
    """Read the values of `option`; all that cannot be read are reported at once."""
    found, errors = [], []
    for text in texts:
        try:
            found.append(_stock_option(text, unit, sheets=sheets))
        except (LengthError, ValueError) as error:
            form = SHEET_FORM if sheets else MOULDING_FORM
            errors.append(InputError(f"{error}; the form is {form}", f"{option} {text}"))
    if errors:
        raise ManyInputsError(errors)
    return found


def _stock_option(text: str, unit: Unit, *, sheets: bool) -> StockOption:
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
