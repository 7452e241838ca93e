"""The trim of a case: tables, sentences, and a picture in text of a set of casing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from rich.table import Table

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, count, grouped, plain_name
from solver.plan.stocked import Stick
from solver.plan.trimming import CaseGlass, CaseLight, Explained, FluteLayout, TrimPiece, TrimSet
from solver.units import Unit, format_length, format_mass, with_unit

_METRIC = (
    ("baseboard", "skirting"),
    ("casing", "architrave"),
    ("shelf lip", "lipping"),
    ("scribe strip", "scribing fillet"),
)
"""Terms of an inch job and what they are called in a metric one."""


def trade_term(text: str, unit: Unit) -> str:
    """Write the names of trim as they are called in a job of that unit."""
    for inch, metric in _METRIC if unit == "mm" else ():
        text = text.replace(inch, metric)
    return text


def headline(trim: TrimSet) -> str:
    """Return what there is of trim, in a line."""
    name = f"{plain_name(trim.case)} ({trim.kind})"
    if not trim.pieces:
        return f"{name}: no trim"
    on_case = sum(piece.travels for piece in trim.pieces)
    stays = len(trim.pieces) - on_case
    kind = "" if trim.set == "none" else f"{trim.set} set, "
    return (
        f"{name}: {kind}{count(len(trim.pieces), 'piece')}, {on_case} on the case and {stays} on "
        "the wall"
    )


def pieces_table(trim: TrimSet, unit: Unit) -> Table:
    """Every piece, alike ones together: how many, size, ends, length to cut."""
    table = plain_table(
        "qty", "piece", "length", "section", "ends", "cut at", "on",
        right=("qty", "length", "section", "cut at"),
    )  # fmt: skip
    for alike in grouped(trim.pieces, _likeness):
        first = alike[0]
        cut = first.cut_length
        table.add_row(
            str(len(alike)),
            f"{_name_with_wood(first, unit)}, {_where(alike)}",
            format_length(first.length, unit),
            f"{format_length(first.width, unit)} x {format_length(first.thickness, unit)}",
            _ends(first),
            NONE if cut is None else format_length(cut, unit),
            "case" if first.travels else "wall",
        )
    return table


def _name_with_wood(piece: TrimPiece, unit: Unit) -> str:
    """Name a piece in the unit's terms; old casing keeps the name that the job gives it."""
    name = plain_name(piece.name)
    return name if piece.got == "there" else trade_term(name, unit)


def _likeness(piece: TrimPiece) -> tuple[object, ...]:
    size = piece.length, piece.width, piece.thickness, piece.cut_length, piece.travels
    return piece.name, piece.moulding, *size


def _where(alike: Sequence[TrimPiece]) -> str:
    """Name the places of alike pieces shortly: `top, shelf 1, 2, 3`."""
    places = [piece.where.rpartition(" ") for piece in alike]
    runs = grouped(places, lambda place: place[0] or place[2])
    return ", ".join(f"{run[0][0]} {', '.join(last for _, _, last in run)}".strip() for run in runs)


def _ends(piece: TrimPiece) -> str:
    one, other = piece.ends
    return one if one == other else f"{one}, {other}"


def why_lines(trim: TrimSet, unit: Unit) -> list[str]:
    """Say of each reason which pieces travel or stay for it."""
    lines = []
    for alike in grouped(trim.pieces, lambda piece: (piece.travels, piece.why)):
        if alike[0].why == "on the case":
            continue
        goes = "travels" if alike[0].travels else "stays"
        why = alike[0].why.removeprefix(goes).lstrip(",; ")
        names = ", ".join(dict.fromkeys(_called(piece, alike, trim, unit) for piece in alike))
        lines.append(f"{names}: {goes}; {why}")
    return lines


def _called(piece: TrimPiece, alike: Sequence[TrimPiece], trim: TrimSet, unit: Unit) -> str:
    """Name a piece; without its place where all of its name are meant."""
    name = _name_with_wood(piece, unit)
    same = [one for one in trim.pieces if one.name == piece.name]
    if all(one in alike for one in same):
        return f"{name}s" if len(same) > 1 else name
    return f"{name} {plain_name(piece.where)}"


def buy_table(sticks: Sequence[Stick], wanted: set[str], unit: Unit) -> Titled:
    """Return the sticks that carry pieces of `wanted`, by moulding and length."""
    table = plain_table("moulding", "length", "qty", "used", right=("length", "qty", "used"))
    carrying = [s for s in sticks if any(piece.part in wanted for piece in s.pieces)]
    for alike in grouped(carrying, lambda s: (s.stock, s.length, s.on_hand)):
        first = alike[0]
        used = sum(piece.length for stick in alike for piece in stick.pieces)
        table.add_row(
            plain_name(first.stock) + (", on hand" if first.on_hand else ""),
            format_length(first.length, unit),
            str(len(alike)),
            f"{100 * used / sum(stick.length for stick in alike):.0f} %",
        )
    return Titled(f"Mouldings by length ({unit}), as cut in the plan", table)


def flute_lines(flutes: FluteLayout, unit: Unit) -> list[str]:
    """Say how the flutes are laid out and cut."""
    settings = ", ".join(with_unit(one, unit) for one in flutes.settings)
    pitch = "" if flutes.count == 1 else f", {with_unit(flutes.space, unit)} apart"
    return [
        f"{count(flutes.count, 'flute')} {with_unit(flutes.flute, unit)} wide{pitch}, a flat of "
        f"{with_unit(flutes.margin, unit)} at each edge of {with_unit(flutes.width, unit)}",
        f"router fence to the middle of the flute: {settings}; turn the board end for end and cut "
        "the mirror at the same setting",
        f"stop {with_unit(flutes.stop, unit)} from each end of the leg",
    ]


def flute_picture(flutes: FluteLayout, width: int, *, plain: bool) -> str:
    """Draw the section of a fluted leg on one line of `width` columns [-]."""
    solid, hollow = ("#", "u") if plain else ("█", "◡")
    row = []
    for column in range(width):
        x = (2 * column + 1) * flutes.width // (2 * width) - flutes.margin
        pitch = flutes.flute + flutes.space
        inside = 0 <= x < flutes.count * pitch - flutes.space and x % pitch < flutes.flute
        row.append(hollow if inside else solid)
    return "".join(row)


def light_lines(lit: CaseLight, unit: Unit) -> list[str]:
    """Say how long the strips are, what they draw, what driver that takes, and how to wire it."""
    runs: dict[str, list[str]] = {}
    for run in lit.runs:
        runs.setdefault(with_unit(run.length, unit), []).append(run.where)
    enough = "" if lit.enough else f"; {lit.driver:g} W is NOT ENOUGH"
    return [
        *(f"strip of {length}: {'; '.join(places)}" for length, places in runs.items()),
        f"{lit.watts:g} W in all / 0.8 = a driver of {lit.driver_needed:g} W or more: "
        f"{lit.driver:g} W{enough}",
        *lit.notes,
    ]


def glass_lines(glazed: CaseGlass, unit: Unit) -> list[str]:
    """Say of each glass shelf what the maker's table allows, and what else holds."""
    lines = []
    for shelf in glazed.shelves:
        has = f"{shelf.where}: span {with_unit(shelf.span, unit)}, {format_mass(shelf.load, unit)}"
        if shelf.allowed is None:
            lines.append(f"{has}; NOT PASSED, the table lists no such span")
        else:
            verdict = "passed" if shelf.passed else "NOT PASSED"
            lines.append(f"{has} of {format_mass(shelf.allowed, unit)} allowed: {verdict}")
    return [*lines, *glazed.notes]


def figure_lines(figures: Iterable[Explained], unit: Unit) -> list[str]:
    """Give formula, numbers and source of each figure."""
    return [
        trade_term(f"{one.what}: {one.value} = {one.formula}: {one.numbers}.", unit)
        + f" Source: {one.source}."
        for one in figures
    ]


def as_data(trim: TrimSet) -> dict[str, Any]:
    """The trim as JSON data; lengths in mm."""
    return trim.model_dump(mode="json")


WIDEST, HIGHEST = 44, 22
"""Most columns and lines of a picture [-]."""
TALL = 2
"""A character is about so many times as high as it is wide [-]."""
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


def picture(pieces: Sequence[TrimPiece], *, plain: bool, hung: bool = False) -> list[str]:
    """Draw the pieces that have a place, each filled with a letter, and the list of letters.

    `plain` keeps to signs that any terminal has; of a hung case the list says what travels.
    Empty where no piece has a place.
    """
    drawn = [piece for piece in pieces if piece.x is not None and piece.y is not None]
    if not drawn:
        return []
    boxes = [_box(piece) for piece in drawn]
    left, low = min(b[0] for b in boxes), 0
    right, high = max(b[2] for b in boxes), max(b[3] for b in boxes)
    scale = max((right - left) / WIDEST, (high - low) / (HIGHEST * TALL))
    wide, tall = round((right - left) / scale), round((high - low) / (scale * TALL))
    grid = [[" "] * wide for _ in range(tall)]
    named = _letters(drawn)
    for piece, box in zip(drawn, boxes, strict=True):
        columns = _span(box[0] - left, box[2] - left, scale, wide)
        lines = _span(high - box[3], high - box[1], scale * TALL, tall)
        for line in lines:
            for column in columns:
                grid[line][column] = named[piece.name, piece.travels]
    floor = ("-" if plain else "─") * wide
    legend = [
        f"{letter} {name}{', travels with the case' if travels and hung else ''}"
        for (name, travels), letter in named.items()
    ]
    return ["".join(row).rstrip() for row in grid] + [f"{floor} floor", "", *legend]


def _box(piece: TrimPiece) -> tuple[int, int, int, int]:
    assert piece.x is not None
    assert piece.y is not None
    wide, high = piece.width, piece.length
    if piece.across:
        wide, high = high, wide
    return piece.x, piece.y, piece.x + wide, piece.y + high


def _span(start: int, end: int, scale: float, most: int) -> range:
    """The columns or lines that a piece takes, at least one."""
    first = min(round(start / scale), most - 1)
    return range(first, min(max(round(end / scale), first + 1), most))


def _letters(pieces: Sequence[TrimPiece]) -> dict[tuple[str, bool], str]:
    kinds = dict.fromkeys((piece.name, piece.travels) for piece in pieces)
    return dict(zip(kinds, LETTERS, strict=False))
