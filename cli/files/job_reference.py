"""Every table and key of the job file as remarks, for the end of a new job file.

It follows from the models of the job and the table of defaults, so that it is complete.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from cli.files.job_keys import FILE_KEYS, TABLES, header
from solver.job.defaults import table_defaults
from solver.quantities import field_texts, is_list, models_in
from solver.units import Unit

COLUMNS = 100
"""Longest line [character]."""
HEAD = """\
# ------------------------------------------------------------------------------------------------
# Every table and key of a job file. Take away the # in front of those you want; a value shown is
# the default. Lengths are in the job's unit, or name one; casewright defaults gives the sources."""
_UNITS = re.compile(r"(?<!\[) ?\[(?:tick(?:, tick)*|g|-|h|min|degrees?|per cent)\]")
"""Units of the models, which the job file does not use: " [tick]"."""
_RANGE = {"least", "most", "wish"}
"""Keys of a size that is left open."""


def reference(unit: Unit) -> str:
    """Return the reference of a job in `unit`, as remarks."""
    lines = [HEAD]
    for table, (model, _) in TABLES.items():
        lines += ["#", f"# {header(table)}", *_keys(model, (table,), unit)]
        if table == "job":
            lines += [f"# {key} = …" for key in FILE_KEYS]
    return "\n".join(lines) + "\n"


def _keys(model: type[BaseModel], path: Sequence[str], unit: Unit) -> Iterator[str]:
    """Each key of a table with its default; tables within it follow under their own heading."""
    texts, nested = field_texts(model), []
    defaults = table_defaults(".".join(path), unit)
    for name, field in model.model_fields.items():
        key = field.alias or name
        if models_in(field) and not _is_open_size(field):
            nested.append((key, field))
            continue
        value = _value(defaults[key]) if key in defaults else _without_default(field)
        yield from _explained(f"# {key} = {value}", texts.get(name, ""))
    for key, field in nested:
        inner = ".".join((*path, key))
        yield f"# {f'[[{inner}]]' if is_list(field) else f'[{inner}]'}"
        yield from _below(texts.get(key, ""))
        yield from _keys(models_in(field)[0], (*path, key), unit)


def _value(value: Any) -> str:
    """A default as the job file writes it."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_value(one)}" for key, one in value.items()) + " }"
    if isinstance(value, tuple | list):
        return f"[{', '.join(map(_value, value))}]"
    return json.dumps(value, ensure_ascii=False)


def _is_open_size(field: FieldInfo) -> bool:
    """Whether a field takes a range in place of a value."""
    return set(models_in(field)[0].model_fields) <= _RANGE


def _without_default(field: FieldInfo) -> str:
    """The words that a key may have, or the form of its value; else dots."""
    if models_in(field):
        keys = models_in(field)[0].model_fields
        return f"… or {{ {', '.join(f'{key} = …' for key in keys)} }}"
    if get_origin(field.annotation) in (dict, Mapping):
        return '{ "…" = … }'
    words = [word for word in _words(field.annotation) if isinstance(word, str)]
    return " or ".join(map(json.dumps, words)) or "…"


def _words(annotation: Any) -> Iterator[Any]:
    if get_origin(annotation) is Literal:
        yield from get_args(annotation)
    else:
        for inner in get_args(annotation):
            yield from _words(inner)


def _first_of(text: str) -> str:
    """The first sentence of what stands under a field, in the words of the job file."""
    plain = _UNITS.sub("", " ".join(text.split()))
    return re.split(r"(?<=[a-z)\"])\. |; ", plain)[0].rstrip(".")


def _explained(line: str, text: str) -> Iterator[str]:
    """A line with what its text says first; behind it where there is room, else below."""
    first = _first_of(text)
    if not first or len(line) + len(first) + 5 <= COLUMNS:
        yield f"{line}   # {first}" if first else line
        return
    yield line
    yield from _below(text)


def _below(text: str) -> Iterator[str]:
    """What a text says first, as lines of their own."""
    first = _first_of(text)
    if not first.startswith("["):  # the name of the table, which stands above
        yield from (f"#     {part}" for part in wrap(first, COLUMNS - 6))
