"""What `casewright cut` was asked for, as written, and read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from cli.cut_job import CutJob
from cli.cut_options import StockOption, read_length, read_stock
from cli.parts_file import read_parts
from solver.cuts import Saw
from solver.cutting.problem import FirstCut, Stages
from solver.default_sheets import default_sheets
from solver.defaults import table_defaults
from solver.errors import InputError
from solver.units import Unit


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


def read_request(request: CutRequest) -> CutJob:
    """Read options and list; InputError names the option, or file, line and column."""
    if request.sheets and request.mouldings:
        msg = "--sheet and --moulding do not go together; cut sheets and mouldings one by one"
        raise InputError(msg)
    unit, mouldings = request.unit, bool(request.mouldings)
    kerf = read_length(request.kerf, "--kerf", unit, table_defaults("shop", unit)["kerf"])
    mitre = kerf
    if request.mitre is not None:
        mitre = read_length(request.mitre, "--mitre-allowance", unit, "0")
    return CutJob(
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
