"""Rows of a small CSV file with named columns, every cell that cannot be read at once."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence

from cli.files import decode, read_bytes
from cli.table_file import text_lines
from solver.errors import InputError


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
    found: dict[str, int] = {}
    for at, cell in enumerate(header):
        plain = " ".join(cell.lower().replace("_", " ").split())
        column = known.get(plain, known.get(plain.replace(" ", "_")))
        if column is None:
            close = difflib.get_close_matches(plain, list(known), n=1, cutoff=0.6)
            meant = f" did you mean {known[close[0]]}?" if close else ""
            msg = f"{cell!r} is no column here;{meant} columns: {', '.join(headers)}"
            raise InputError(msg, f"{where}, column {at + 1}")
        if column in found:
            msg = f"the column {column} is there twice"
            raise InputError(msg, f"{where}, column {at + 1}")
        found[column] = at
    return found


def _cells(columns: Mapping[str, int], cells: Sequence[str], where: str) -> dict[str, str]:
    if len(cells) > len(columns):
        msg = f"{len(cells)} cells, but {len(columns)} columns; quote a text with a comma in it"
        raise InputError(msg, where)
    return {column: cells[at] for column, at in columns.items() if at < len(cells) and cells[at]}
