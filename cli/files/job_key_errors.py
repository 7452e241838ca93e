"""What is wrong with the shape of a job file: unknown tables and keys, brackets, control
characters.

Checked before anything is read; each fault says its place and the name that was most likely meant.
"""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from pydantic import BaseModel

from cli.files.job_keys import FILE_KEYS, NESTED, TABLES, header
from cli.files.toml_text import Spot
from solver.listing.columns import HEADERS


class Fault(NamedTuple):
    """Something wrong at one place of the job file."""

    spot: Spot
    message: str
    meant: str | None = None
    """The key that was most likely meant by an unknown one."""


_OTHER_WORDS = {
    "units": "unit",
    "molding": "moulding",
    "saw_kerf": "kerf",
    "currency_code": "currency",
}


def shape_faults(raw: Mapping[str, Any]) -> list[Fault]:
    """Return what is wrong with the tables themselves: unknown, or with the wrong brackets."""
    faults = []
    for name, value in raw.items():
        if name not in TABLES:
            faults.append(Fault((name,), _unknown_table(name, value)))
        elif not _shaped(name, value):
            faults.append(Fault((name,), _wrong_shape(name, value)))
    return faults


def _wrong_shape(name: str, value: Any) -> str:
    if isinstance(value, dict):
        return f"write {header(name)} with double brackets; there may be several"
    if isinstance(value, list):
        return f"write {header(name)} with single brackets, once"
    return f"write it as a table, under the header {header(name)}"


def _shaped(name: str, value: Any) -> bool:
    if not TABLES[name].many:
        return isinstance(value, dict)
    return isinstance(value, list) and all(isinstance(one, dict) for one in value)


def _unknown_table(name: str, value: Any) -> str:
    known = ", ".join(header(table) for table in TABLES)
    owner = next((t for t, table in TABLES.items() if name in _keys(t, table.model)), None)
    if owner and not isinstance(value, dict | list):
        return f"the key {name!r} stands outside its table; put it under {header(owner)}"
    close = nearest(name, list(TABLES))
    meant = f" did you mean {header(close)}?" if close else ""
    return f"{name!r} is no table of a job file;{meant} tables: {known}"


def key_faults(raw: Mapping[str, Any]) -> list[Fault]:
    """Return every unknown key of the known tables, with the nearest known one."""
    return [fault for name, spot, table in _tables(raw) for fault in _unknown(name, spot, table)]


def _tables(raw: Mapping[str, Any]) -> Iterator[tuple[str, Spot, Mapping[str, Any]]]:
    for name, value in raw.items():
        if name not in TABLES or not _shaped(name, value):
            continue
        if TABLES[name].many:
            yield from ((name, (name, at), one) for at, one in enumerate(value))
        else:
            yield name, (name,), value


def _unknown(name: str, spot: Spot, table: Mapping[str, Any]) -> Iterator[Fault]:
    allowed = _keys(name, TABLES[name].model)
    for key, value in table.items():
        if key not in allowed:
            yield _unknown_key(key, allowed, (*spot, key))
        elif (name, key) in NESTED:
            inner = list(NESTED[name, key].model_fields)
            for one in value if isinstance(value, list) else [value]:
                strange = (
                    [word for word in one if word not in inner] if isinstance(one, dict) else []
                )
                yield from (_unknown_key(word, inner, (*spot, key)) for word in strange)


def _keys(name: str, model: type[BaseModel]) -> list[str]:
    return [*model.model_fields, *(FILE_KEYS if name == "job" else ())]


def _unknown_key(key: str, allowed: list[str], spot: Spot) -> Fault:
    close = nearest(key, allowed)
    meant = f" did you mean {close}?" if close else ""
    say = f"{key!r} is not known here;{meant} allowed: {', '.join(allowed)}"
    return Fault(spot, say, close)


def nearest(word: str, known: list[str]) -> str | None:
    """Return the known word that was most likely meant; None where none is near."""
    plain = word.lower().replace("-", "_").strip()
    other = _OTHER_WORDS.get(plain) or HEADERS.get(plain.replace("_", " "))
    if other in known:
        return other
    close = difflib.get_close_matches(plain, known, n=1, cutoff=0.6)
    return close[0] if close else None


def control_faults(raw: Any, spot: Spot = ()) -> Iterator[Fault]:
    """Yield every text with control characters in it; they could be taken for commands."""
    if isinstance(raw, dict):
        for key, value in raw.items():
            yield from control_faults(value, (*spot, key))
    elif isinstance(raw, list):
        for at, value in enumerate(raw):
            yield from control_faults(value, (*spot, at))
    elif isinstance(raw, str):
        allowed = "\n\r\t" if spot[-1:] in (("notes",), ("obstacles",)) else ""
        bad = next((c for c in raw if unicodedata.category(c) == "Cc" and c not in allowed), None)
        if bad is not None:
            yield Fault(spot, f"the control character U+{ord(bad):04X} is in the text; take it out")
