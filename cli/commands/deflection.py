"""`casewright deflection`: the sag of one shelf against named limits."""

from __future__ import annotations

import json
from typing import Annotated

import typer

from cli.commands.options import Explain, UnitWord
from cli.screen.console import console, points
from cli.screen.strength_tables import answer_line, as_data, assumed_lines, explained, limits_table
from solver.errors import InputError
from solver.job.boards import BOARDS, UNKNOWN_BOARD, UNKNOWN_WOOD, Board
from solver.strength.constants import millimetres
from solver.strength.shelf_beams import LipSize, ShelfBeam, shelf_beam
from solver.strength.single_shelf import deflection as answer
from solver.strength.single_shelf import parse_load
from solver.units import Unit, parse_length


def deflection(
    span: Annotated[str, typer.Option("--span", metavar="LENGTH", help="Clear span.")],
    depth: Annotated[str, typer.Option("--depth", metavar="LENGTH", help="Depth, lip included.")],
    thickness: Annotated[
        str, typer.Option("--thickness", metavar="LENGTH", help="Of the shelf, as measured.")
    ],
    load: Annotated[
        str,
        typer.Option(
            "--load", metavar="LOAD", help="50psf, 195kg/m2, 20lb/ft, 30kg/m, 45lb or 20kg."
        ),
    ],
    board: Annotated[
        str | None,
        typer.Option(
            "--board",
            metavar="KIND",
            help="What it is made of, such as 'veneer-core plywood', mdf, 'sugar maple'.",
        ),
    ] = None,
    lip: Annotated[
        str | None,
        typer.Option("--lip", metavar="TxH", help="Glued-on lip: front to back x up and down."),
    ] = None,
    above: Annotated[
        str, typer.Option("--above", metavar="LENGTH", help="How far the lip stands up.")
    ] = "0",
    unit: Annotated[
        UnitWord,
        typer.Option("--unit", metavar="in|mm", help="Unit of lengths without one, and shown."),
    ] = "in",
    explain: Explain = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON instead.")] = False,
) -> None:
    """Say how far a shelf sags under a load, as L/n against named limits.

    Example: casewright deflection --span 32 --depth 9 --thickness 3/4 --load 50psf
    """
    wood, beam = _beam(span, depth, thickness, board, (lip, above), unit)
    total = parse_load(load).total(beam.span, _mm(depth, unit, "--depth"))
    result = answer(beam, total)
    if as_json:
        typer.echo(json.dumps(as_data(result, wood), indent=1, ensure_ascii=False))
        return
    out = console()
    out.print(answer_line(result, unit))
    out.print()
    out.print(limits_table(result, unit))
    out.print()
    more = explained(result, beam, total, unit) if explain else []
    points(out, [*more, *assumed_lines(wood)])


def _beam(
    span: str,
    depth: str,
    thickness: str,
    board: str | None,
    lip: tuple[str | None, str],
    unit: Unit,
) -> tuple[Board, ShelfBeam]:
    from solver.errors import InputError

    wood = _board(board)
    sizes = (
        _mm(span, unit, "--span"),
        _mm(depth, unit, "--depth"),
        _mm(thickness, unit, "--thickness"),
    )
    edge = _lip(lip, sizes[2], unit)
    if edge is not None and edge.thickness >= sizes[1]:
        msg = f"the lip is {lip[0]}, so nothing is left of a shelf {depth} deep; give more depth"
        raise InputError(msg, "--lip")
    return wood, shelf_beam(sizes, wood, edge)


def _mm(text: str, unit: Unit, option: str) -> float:
    """Read a length above 0 [mm]."""
    try:
        ticks = parse_length(text, unit)
    except InputError as error:
        raise InputError(error.message, option) from None
    if ticks <= 0:
        msg = f"{text!r}: a length above 0 is wanted"
        raise InputError(msg, option)
    return millimetres(ticks)


def _board(name: str | None) -> Board:
    if name is None:
        return UNKNOWN_BOARD
    if name.lower() not in BOARDS:
        msg = f"{name!r} is not known; allowed: {', '.join(BOARDS)}"
        raise InputError(msg, "--board")
    return BOARDS[name.lower()]


def _lip(given: tuple[str | None, str], thickness: float, unit: Unit) -> LipSize | None:
    """Read the lip; it must cover the shelf's edge and what stands above."""
    from solver.errors import InputError
    from solver.strength.constants import millimetres
    from solver.strength.shelf_beams import LipSize
    from solver.units import parse_length

    text, up = given
    if text is None:
        return None
    thick, cross, high = text.lower().partition("x")
    if not cross:
        msg = f"{text!r}: two sizes are wanted, front to back x up and down, such as 3/4x1-1/2"
        raise InputError(msg, "--lip")
    height, above = _mm(high, unit, "--lip"), millimetres(parse_length(up, unit))
    below = height - thickness - above
    if below < 0:
        msg = f"a lip {high} high does not cover the shelf's edge and {up} above it; a higher one"
        raise InputError(msg, "--lip")
    return LipSize(_mm(thick, unit, "--lip"), above, below, UNKNOWN_WOOD)
