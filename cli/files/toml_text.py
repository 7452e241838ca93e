"""Text of a TOML file to a dict, and the line each table and key stands on."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from solver.errors import InputError

Spot = tuple[str | int, ...]
"""A place in the job file: table, number within its array from 0, key."""

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"""^\s*(?:"([^"]+)"|'([^']+)'|([A-Za-z0-9_-]+))\s*[=.]""")
_AT = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
_NESTED_MOST = 100
_PARTS_MOST = 1000


def parse_toml(text: str, path: str) -> dict[str, Any]:
    """Read TOML; InputError with line and column where its rules are broken."""
    try:
        return _shallow(tomllib.loads(_with_short_keys(text)))
    except tomllib.TOMLDecodeError as error:
        raise _syntax_error(str(error), text, path) from None
    except RecursionError:
        msg = f"tables or lists are nested deeper than {_NESTED_MOST}; this is no job file"
        raise InputError(msg, path) from None
    except ValueError as error:
        msg = f"a number or date cannot be read ({error}); put it in quotes"
        raise InputError(msg, path) from None


def _with_short_keys(text: str) -> str:
    """Return the text; RecursionError where a key has parts without end, which eats memory."""
    for line in text.split("\n"):
        key = line if line.lstrip().startswith("[") else line.partition("=")[0]
        if key.count(".") > _PARTS_MOST:
            raise RecursionError
    return text


def _shallow(data: dict[str, Any]) -> dict[str, Any]:
    """Return the data; RecursionError where it is nested too deep to be walked through."""
    level: list[Any] = [data]
    for _ in range(_NESTED_MOST):
        level = [
            part
            for node in level
            if isinstance(node, dict | list)
            for part in (node.values() if isinstance(node, dict) else node)
        ]
        if not level:
            return data
    raise RecursionError


def _syntax_error(message: str, text: str, path: str) -> InputError:
    """Say where TOML broke, quote the line, and give the mistake that is most often behind it."""
    at = _AT.search(message)
    reason = _AT.sub("", message)
    lines = text.split("\n")
    number = int(at[1]) if at and at[1] else len(lines)
    column = f" column {at[2]}" if at and at[2] else ""
    line = lines[number - 1].strip() if number <= len(lines) else ""
    shown = f" in {line[:80]!r}" if line else " at the end of the file"
    hint = 'texts and fractions stand in quotes, such as width = "9-1/2"'
    return InputError(f"not valid TOML{shown}: {reason}; {hint}", f"{path} line {number}{column}")


def line_numbers(text: str) -> dict[Spot, int]:
    """Map each table, and each key in it, to its line, counted from 1.

    A light scan for error messages: what it does not find has no line, and lines
    inside multi-line strings are passed over.
    """
    number_of: dict[Spot, int] = {}
    seen: dict[str, int] = {}
    table: Spot = ()
    inside: str | None = None
    for number, line in enumerate(text.split("\n"), start=1):
        if inside is None:
            header = _HEADER.match(line)
            if header:
                table = _table(header[1], header[2], seen)
                number_of.setdefault(table, number)
            elif key := _KEY.match(line):
                number_of.setdefault((*table, key[1] or key[2] or key[3]), number)
        inside = _string_open(line, inside)
    return number_of


def _table(brackets: str, name: str, seen: dict[str, int]) -> Spot:
    parts = [part.strip().strip("\"'") for part in name.split(".")]
    if brackets == "[[":
        joined = ".".join(parts)
        seen[joined] = seen.get(joined, -1) + 1
    spot: list[str | int] = []
    for depth, part in enumerate(parts, start=1):
        spot.append(part)
        joined = ".".join(parts[:depth])
        if joined in seen:
            spot.append(seen[joined])
    return tuple(spot)


def _string_open(line: str, inside: str | None) -> str | None:
    """Return the triple quotes that are open after `line`, or None."""
    at = 0
    while True:
        marks = [inside] if inside else ['"""', "'''"]
        places = [(line.find(mark, at), mark) for mark in marks if line.find(mark, at) >= 0]
        if not places:
            return inside
        place, mark = min(places)
        inside, at = (None if inside else mark), place + 3
