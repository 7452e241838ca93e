"""A list of what is there already, to be planned around; every line that cannot be read at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError

from cli.files.reading import STDIN, Line, read_table, text_lines
from cli.files.signed_files import read_cut
from cli.screen.on_hand_tables import reading_text
from cli.screen.wording import UNIT_NAMES, count, plain_name
from solver.errors import InputError, LengthError, ManyInputsError, message_of
from solver.intake.decision_checks import have_faults
from solver.job.have import Have, HaveKind
from solver.job.job import Job
from solver.units import parse_length

HEADERS: dict[str, tuple[str, ...]] = {
    "what": ("what", "state", "status", "kind", "what it is"),
    "name": ("name", "part", "piece", "id", "label", "part name", "which"),
    "length": ("length", "len", "long", "l"),
    "width": ("width", "wide", "breadth", "w"),
    "count": ("quantity", "qty", "count", "number", "no", "no.", "pcs", "pieces"),
    "material": ("material", "stock", "board"),
    "mark": ("mark", "at", "underside", "fixed at"),
    "clean": ("edges", "edge", "clean", "clean edges"),
    "note": ("note", "notes", "remark", "remarks", "comment"),
}
"""Columns and what else they may be called, whatever the case."""
SAID: dict[str, HaveKind] = {
    **dict.fromkeys(("cut", "already cut", "done", "made", "ready"), "cut"),
    **dict.fromkeys(("short", "too short", "found short", "under size"), "short"),
    **dict.fromkeys(("spoiled", "spoilt", "ruined", "damaged", "lost"), "spoiled"),
    **dict.fromkeys(("offcut", "leftover", "remnant", "rest", "left over"), "offcut"),
    **dict.fromkeys(("sheet", "opened", "opened sheet", "sheet opened", "open sheet"), "sheet"),
    **dict.fromkeys(("fixed", "in place", "fitted", "screwed", "glued"), "fixed"),
}
"""Words for what something is."""
WORDS = tuple(dict.fromkeys(SAID.values()))
EDGES: dict[str, bool | None] = {
    "": None,
    **dict.fromkeys(("clean", "sawn", "yes", "true"), True),
    **dict.fromkeys(("factory", "rough", "trim", "to trim", "no", "false"), False),
}


NOTES_MOST = 20
"""Most lines of the list that are spoken of [-]."""


@dataclass
class _Rows:
    """Rows that were read, the line of each, and what cannot be read."""

    rows: list[Have] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)
    errors: list[InputError] = field(default_factory=list)


def with_have(job: Job, path: str | None, tell: Callable[[str], None]) -> Job:
    """Return the job with what a file says is there, beside what the job file says.

    The file is a table, or a signed revision, which says what of it is cut by now. `tell` is
    given in lines how the file was read.

    Raises
    ------
    ManyInputsError
        With every line that cannot be read, or does not go with the job.
    """
    if path is None:
        return job
    if path.lower().endswith(".json"):
        rows, line = read_cut(path, job)
        tell(line)
        return _joined(job, rows)
    name = "pasted list" if path == STDIN else path
    listed, found = _parsed(read_table(path, name), name, job)
    for line in _understood(listed, name, found):
        tell(line)
    return listed


def parse_have(text: str, name: str, job: Job) -> Job:
    """Read the text of a list of what is there; see :func:`with_have`."""
    return _parsed(list(text_lines(text)), name, job)[0]


def _understood(job: Job, name: str, found: _Rows) -> list[str]:
    """Say how each line was read: what it is, its size, how its edges count."""
    said = [
        f"  line {line}: {plain_name(reading_text(job, have))}"
        for line, have in zip(found.lines, found.rows, strict=True)
    ]
    more = len(said) - NOTES_MOST
    cut = [f"  … and {more} more lines"] if more > 0 else []
    unit = f"lengths without a unit in {UNIT_NAMES[job.unit]}"
    head = f"{plain_name(name)}: {count(len(said), 'line')} read, {unit}"
    return [head, *said[:NOTES_MOST], *cut]


def _parsed(lines: Sequence[Line], name: str, job: Job) -> tuple[Job, _Rows]:
    if len(lines) < 2:
        msg = f"nothing is listed; the first line names the columns: {', '.join(HEADERS)}"
        raise InputError(msg, name)
    columns = _columns(lines[0][1], f"{name}, line {lines[0][0]}")
    rows = _Rows()
    for line, cells in lines[1:]:
        _read_row(job, (name, line), dict(zip(columns, cells, strict=False)), rows)
    _check(job, name, rows)
    if rows.errors:
        ordered = sorted(rows.errors, key=_line_of)
        raise ordered[0] if len(ordered) == 1 else ManyInputsError(ordered)
    return _joined(job, rows.rows), rows


def _line_of(error: InputError) -> int:
    return int((error.where or "").rpartition(" line ")[2])


def _joined(job: Job, rows: Sequence[Have]) -> Job:
    from solver.intake.load import load

    data = job.model_dump(by_alias=True)
    data["have"] = [have.model_dump() for have in (*job.have, *rows)]
    return load(data)


def _check(job: Job, name: str, found: _Rows) -> None:
    """Collect what does not go with the job, line by line."""
    joined = job.model_copy(update={"have": (*job.have, *found.rows)})
    for number, message in have_faults(joined):
        line = found.lines[number - 1 - len(job.have)]
        found.errors.append(InputError(message, f"{name}, line {line}"))


def _columns(header: Sequence[str], where: str) -> list[str]:
    known = {alias: column for column, aliases in HEADERS.items() for alias in aliases}
    columns = []
    for at, cell in enumerate(header, start=1):
        column = known.get(" ".join(cell.lower().replace("_", " ").split()))
        if column is None or column in columns:
            wrong = "is there twice" if column else "is no column of this list"
            msg = f"{cell!r} {wrong}; columns: {', '.join(HEADERS)}"
            raise InputError(msg, f"{where}, column {at}")
        columns.append(column)
    if "what" not in columns:
        msg = f"the column what is missing: it says of each line {', '.join(WORDS)}"
        raise InputError(msg, where)
    return columns


def _read_row(job: Job, at: tuple[str, int], cells: Mapping[str, str], found: _Rows) -> None:
    """Read one line; every cell that cannot be read is an error of its own."""
    readers: Mapping[str, Callable[[str], Any]] = {
        "what": _what,
        "name": lambda text: part_name(text, job),
        "length": lambda text: parse_length(text, job.unit),
        "width": lambda text: parse_length(text, job.unit),
        "mark": lambda text: parse_length(text, job.unit),
        "count": _count,
        "clean": _edges,
    }
    row, before = {}, len(found.errors)
    for column, text in cells.items():
        if not text and column != "what":
            continue
        try:
            row[column] = readers.get(column, str)(text)
        except (LengthError, ValueError) as error:
            message = getattr(error, "message", str(error))
            found.errors.append(InputError(f"{column}: {message}", f"{at[0]}, line {at[1]}"))
    if len(found.errors) > before:
        return
    try:
        found.rows.append(Have.model_validate(row))
        found.lines.append(at[1])
    except ValueError as error:
        said = _reason_of(error)
        found.errors.append(InputError(said, f"{at[0]}, line {at[1]}"))


def _reason_of(error: ValueError) -> str:
    if not isinstance(error, ValidationError):
        return str(error)
    told = [
        f"{'.'.join(map(str, one['loc']))}{': ' if one['loc'] else ''}{message_of(one)}"
        for one in error.errors(include_url=False)
    ]
    return "; ".join(told)


def _what(text: str) -> HaveKind:
    kind = SAID.get(" ".join(text.lower().split()))
    if kind is None:
        msg = f"{text!r} is not one of {', '.join(WORDS)}"
        raise ValueError(msg)
    return kind


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 1000:
        msg = f"{text!r} is not a number from 1 to 1000"
        raise ValueError(msg)
    return int(text)


def _edges(text: str) -> bool | None:
    if text.lower() not in EDGES:
        msg = f"{text!r} is neither clean (nothing to trim) nor factory (to be trimmed)"
        raise ValueError(msg)
    return EDGES[text.lower()]


def part_name(text: str, job: Job) -> str:
    """Return a part's id for words such as "alcove shelf 2", "left side", "alcove:shelf2".

    A job of one case need not name it. What is no part stays as it is written.
    """
    plain = text.strip()
    if plain in {sheet.name for sheet in job.sheets}:
        return plain
    case, rest = job.cases[0].name, plain
    for one in sorted((case.name for case in job.cases), key=len, reverse=True):
        if plain.casefold().startswith(one.casefold()) and plain[len(one) :][:1] in "/:, ":
            case, rest = one, plain[len(one) :].lstrip("/:, ")
            break
    else:
        if len(job.cases) > 1:
            return plain
    words = re.sub(r"(?<=[a-z])(?=\d)", " ", rest.lower()).replace("-", " ").split()
    if words[:1] in (["left"], ["right"]) and words[1:] == ["side"]:
        words.reverse()
    kinds = ("side", "top", "bottom", "upright", "toe", "back", "shelf", "bay", "lip")
    return f"{case}/{'-'.join(words)}" if words and words[0] in kinds else plain
