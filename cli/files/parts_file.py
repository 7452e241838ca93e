"""PARTS.csv: the list of parts, or of pieces of moulding, that `casewright cut` cuts."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from cli.files.reading import STDIN, Line, read_table, text_lines
from solver.errors import InputError, LengthError, ManyInputsError
from solver.planning.cut_list import GrainWord, PartRow
from solver.units import Ticks, Unit, parse_length

T = TypeVar("T")

PIECES_MOST = 20_000
"""Most pieces in one list [-]."""
MITRES_MOST = 2

HEADERS: dict[str, tuple[str, ...]] = {
    "part": ("part", "name", "piece", "id", "item", "label", "part name"),
    "length": ("length", "len", "long", "l"),
    "width": ("width", "wide", "breadth", "w"),
    "quantity": ("quantity", "qty", "count", "number", "no", "no.", "pcs", "pieces"),
    "material": ("material", "stock", "board"),
    "thickness": ("thickness", "thick", "t"),
    "grain": ("grain", "grain direction", "grain runs along"),
    "set": ("set", "matched", "matched set", "match"),
    "mitres": ("mitres", "mitre", "miters", "miter"),
}
"""Columns and what else they may be called, whatever the case."""

SHEET_COLUMNS = ("part", "length", "width", "quantity")
STICK_COLUMNS = ("part", "length", "quantity")

_GRAINS: dict[str, GrainWord] = {
    "": "any",
    "any": "any",
    "none": "any",
    "either": "any",
    "length": "length",
    "width": "width",
}


def read_parts(path: str, unit: Unit, *, mouldings: bool) -> list[PartRow]:
    """Read a list of parts.

    Parameters
    ----------
    path
        A .csv, .tsv, .txt or .xlsx file, or ``-`` for standard input.
    unit
        The unit of lengths without one.
    mouldings
        Whether pieces of moulding are listed: no width, but mitres.

    Raises
    ------
    InputError
        Where the file cannot be read or a column is missing.
    ManyInputsError
        With every cell that cannot be read, each with its line and column.
    """
    name = "parts list" if path == STDIN else path
    return _parsed(read_table(path, name), name, unit, mouldings=mouldings)


def parse_parts(text: str, name: str, unit: Unit, *, mouldings: bool) -> list[PartRow]:
    """Read the text of a list of parts; `name` stands in errors. See :func:`read_parts`."""
    return _parsed(list(text_lines(text)), name, unit, mouldings=mouldings)


def _parsed(lines: Sequence[Line], name: str, unit: Unit, *, mouldings: bool) -> list[PartRow]:
    if not lines:
        msg = f"the list is empty; its first line names the columns: {', '.join(SHEET_COLUMNS)}"
        raise InputError(msg, name)
    number, header = lines[0]
    columns = _columns(header, f"{name}, line {number}", mouldings=mouldings)
    reader = _Reader(name, unit, columns, mouldings, len(header))
    rows = [row for line in lines[1:] if (row := reader.row(*line)) is not None]
    if reader.errors:
        raise ManyInputsError(reader.errors)
    if not rows:
        msg = "there are no parts below the line that names the columns"
        raise InputError(msg, name)
    if sum(len(row.names) for row in rows) > PIECES_MOST:
        msg = f"more than {PIECES_MOST} pieces; split the list"
        raise InputError(msg, name)
    return rows


def _columns(header: Sequence[str], where: str, *, mouldings: bool) -> dict[str, int]:
    """Return which column stands where; unknown, double and missing ones are errors."""
    known = {alias: column for column, aliases in HEADERS.items() for alias in aliases}
    columns: dict[str, int] = {}
    for at, cell in enumerate(header):
        column = known.get(" ".join(cell.lower().replace("_", " ").split()))
        if column is None:
            msg = f"{cell!r} is no column of a parts list; columns: {', '.join(HEADERS)}"
            raise InputError(msg, f"{where}, column {at + 1}")
        if column in columns:
            msg = f"the column {column} is there twice"
            raise InputError(msg, f"{where}, column {at + 1}")
        columns[column] = at
    wanted = STICK_COLUMNS if mouldings else SHEET_COLUMNS
    missing = [column for column in wanted if column not in columns]
    if missing:
        msg = f"the column {missing[0]} is missing; the first line names: {', '.join(wanted)}"
        raise InputError(msg, where)
    return columns


class _Reader:
    """Reads rows and collects every cell that cannot be read."""

    def __init__(
        self, name: str, unit: Unit, columns: Mapping[str, int], mouldings: bool, cells: int
    ) -> None:
        self.name, self.unit, self.columns, self.cells = name, unit, columns, cells
        self.mouldings = mouldings
        self.errors: list[InputError] = []
        self._numbers: dict[str, int] = {}

    def row(self, line: int, cells: list[str]) -> PartRow | None:
        """Return the row; None where a cell cannot be read."""
        before = len(self.errors)
        if len(cells) > self.cells:
            self._wrong(line, self.cells + 1, f"{len(cells)} cells, but {self.cells} columns")
            return None
        part = self._cell(line, cells, "part", _name, "")
        length = self._cell(line, cells, "length", self._size, 0)
        width = 0 if self.mouldings else self._cell(line, cells, "width", self._size, 0)
        count = self._cell(line, cells, "quantity", _quantity, 0)
        material = self._cell(line, cells, "material", str, "")
        thickness = self._cell(line, cells, "thickness", self._thickness, 0)
        grain = self._cell(line, cells, "grain", _grain, _GRAINS["any"])
        mitres = self._cell(line, cells, "mitres", _mitres, 0)
        matched = self._cell(line, cells, "set", self._set, None)
        if len(self.errors) > before:
            return None
        names = self._names(part, count)
        return PartRow(part, names, length, width, material, thickness, grain, mitres, matched)

    def _names(self, part: str, count: int) -> tuple[str, ...]:
        """Name the pieces; a part that is listed again is numbered on."""
        first = self._numbers.get(part, 0)
        self._numbers[part] = first + count
        return tuple(f"{part}#{i}" for i in range(first + 1, first + count + 1))

    def _cell(
        self, line: int, cells: Sequence[str], column: str, read: Callable[[str], T], otherwise: T
    ) -> T:
        at = self.columns.get(column)
        if at is None:
            return otherwise
        try:
            return read(cells[at] if at < len(cells) else "")
        except (LengthError, ValueError) as error:
            self._wrong(line, at + 1, f"{column}: {error}")
            return otherwise

    def _wrong(self, line: int, column: int, message: str) -> None:
        self.errors.append(InputError(message, f"{self.name}, line {line}, column {column}"))

    def _size(self, text: str) -> Ticks:
        size = parse_length(text, self.unit)
        if size <= 0:
            msg = f"{text!r} is not allowed; a size is more than 0"
            raise ValueError(msg)
        return size

    def _set(self, text: str) -> str | None:
        if text and self.mouldings:
            msg = "matched sets are of sheets; leave it empty for mouldings"
            raise ValueError(msg)
        return text or None

    def _thickness(self, text: str) -> Ticks:
        return parse_length(text, self.unit) if text else 0


def _name(text: str) -> str:
    if not text:
        msg = "the name is missing"
        raise ValueError(msg)
    return text


def _quantity(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= PIECES_MOST:
        msg = f"{text!r} is not a number of pieces from 1 to {PIECES_MOST}"
        raise ValueError(msg)
    return int(text)


def _grain(text: str) -> GrainWord:
    if text.lower() not in _GRAINS:
        msg = f"{text!r} is not length, width or any: the side that the grain runs along"
        raise ValueError(msg)
    return _GRAINS[text.lower()]


def _mitres(text: str) -> int:
    if text and (not text.isdecimal() or int(text) > MITRES_MOST):
        msg = f"{text!r} is not a number of mitred ends: 0, 1 or 2"
        raise ValueError(msg)
    return int(text or 0)
