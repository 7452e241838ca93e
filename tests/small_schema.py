"""Enough of JSON Schema to hold a file against ours; a keyword it does not know is an error."""

from __future__ import annotations

import re
from typing import Any

TYPES: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "integer": (int,),
    "number": (int, float),
    "boolean": (bool,),
    "null": (type(None),),
}
NO_RULE = {"$schema", "$defs", "title", "description", "default"}


def faults(value: Any, schema: dict[str, Any], root: dict[str, Any], at: str = "") -> list[str]:
    """Return what in `value` breaks `schema`, each with its place."""
    found: list[str] = []
    for keyword, wanted in schema.items():
        if keyword not in NO_RULE:
            found += _RULES[keyword](value, wanted, schema, root, at)
    return found


def _is(value: Any, kind: str) -> bool:
    return isinstance(value, TYPES[kind]) and (kind == "boolean" or not isinstance(value, bool))


def _type(value: Any, wanted: Any, _: Any, __: Any, at: str) -> list[str]:
    kinds = [wanted] if isinstance(wanted, str) else wanted
    return [] if any(_is(value, kind) for kind in kinds) else [f"{at}: {value!r} is no {wanted}"]


def _ref(value: Any, wanted: str, _: Any, root: dict[str, Any], at: str) -> list[str]:
    return faults(value, root["$defs"][wanted.removeprefix("#/$defs/")], root, at)


def _any_of(value: Any, wanted: Any, _: Any, root: dict[str, Any], at: str) -> list[str]:
    tried = [faults(value, one, root, at) for one in wanted]
    return [] if [] in tried else [f"{at}: none of {len(tried)} fits", *tried[0]]


def _properties(value: Any, wanted: Any, _: Any, root: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, dict):
        return []
    return [
        fault
        for key, part in value.items()
        if key in wanted
        for fault in faults(part, wanted[key], root, f"{at}.{key}")
    ]


def _additional(value: Any, wanted: Any, schema: Any, root: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, dict) or wanted is True:
        return []
    others = value.keys() - schema.get("properties", {}).keys()
    if wanted is False:
        return [f"{at}.{key} is not known" for key in sorted(others)]
    return [f for key in others for f in faults(value[key], wanted, root, f"{at}.{key}")]


def _required(value: Any, wanted: Any, _: Any, __: Any, at: str) -> list[str]:
    missing = [key for key in wanted if key not in value] if isinstance(value, dict) else []
    return [f"{at}.{key} is missing" for key in missing]


def _items(value: Any, wanted: Any, schema: Any, root: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, list):
        return []
    rest = enumerate(value[len(schema.get("prefixItems", ())) :])
    return [fault for n, part in rest for fault in faults(part, wanted, root, f"{at}.{n}")]


def _prefix_items(value: Any, wanted: Any, _: Any, root: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, list):
        return []
    pairs = zip(value, wanted, strict=False)
    return [f for n, (part, one) in enumerate(pairs) for f in faults(part, one, root, f"{at}.{n}")]


def _says(holds: bool, value: Any, keyword: str, wanted: Any, at: str) -> list[str]:
    return [] if holds else [f"{at}: {value!r} breaks {keyword} {wanted!r}"]


_RULES: dict[str, Any] = {
    "$ref": _ref,
    "anyOf": _any_of,
    "type": _type,
    "properties": _properties,
    "additionalProperties": _additional,
    "required": _required,
    "items": _items,
    "prefixItems": _prefix_items,
    "const": lambda v, w, _s, _r, at: _says(v == w, v, "const", w, at),
    "enum": lambda v, w, _s, _r, at: _says(v in w, v, "enum", w, at),
    "pattern": lambda v, w, _s, _r, at: _says(
        not isinstance(v, str) or re.search(w, v) is not None, v, "pattern", w, at
    ),
    "minLength": lambda v, w, _s, _r, at: _says(
        not isinstance(v, str) or len(v) >= w, v, "minLength", w, at
    ),
    "maxLength": lambda v, w, _s, _r, at: _says(
        not isinstance(v, str) or len(v) <= w, v, "maxLength", w, at
    ),
    "minItems": lambda v, w, _s, _r, at: _says(
        not isinstance(v, list) or len(v) >= w, v, "minItems", w, at
    ),
    "maxItems": lambda v, w, _s, _r, at: _says(
        not isinstance(v, list) or len(v) <= w, v, "maxItems", w, at
    ),
    "minimum": lambda v, w, _s, _r, at: _says(
        not isinstance(v, int | float) or v >= w, v, "minimum", w, at
    ),
    "maximum": lambda v, w, _s, _r, at: _says(
        not isinstance(v, int | float) or v <= w, v, "maximum", w, at
    ),
}
