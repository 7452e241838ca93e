"""What pydantic found wrong with a job, in the words of the job file."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from cli.files.job_key_errors import Fault
from cli.files.job_keys import TABLES, header
from cli.files.toml_text import Spot
from solver.errors import InputError, message_of
from solver.job.case import SHELVES_MOST, UPRIGHTS_MOST
from solver.job.case_fittings import FLUTES_MOST
from solver.job.job import PlacedFaultError
from solver.quantities import is_mass, is_whole_number
from solver.units import LENGTH_FORMS, MASS_FORMS, TICKS_PER_MM

_A_LENGTH = f"a length, such as {LENGTH_FORMS['in']}"
_OUTLINE = f"{_A_LENGTH}, or a range such as {{ least = 28, most = 30, wish = 29 }}"
_ALLOWED: Mapping[tuple[str, str], str] = {
    ("case", "width"): _OUTLINE,
    ("case", "height"): _OUTLINE,
    ("case", "depth"): f"{_A_LENGTH}, or a range such as {{ least = 9, most = 11 }}, or left out",
    ("case", "shelves"): (
        f"a whole number from 0 to {SHELVES_MOST}, such as 4, or several, such as [4, 5], "
        "or a range such as { least = 4, most = 6 }"
    ),
    ("case", "uprights"): (
        f"a whole number from 0 to {UPRIGHTS_MOST}, such as 1, or several, such as [1, 2], "
        "or a range such as { least = 1, most = 2 }"
    ),
    ("case", "lip"): '{ moulding = "name of a [[moulding]]", above = "1/2" }',
    ("item", "where"): '"low", "eye", "top" or the number of an opening from 0 to 99',
    ("item", "apart"): 'names of things in brackets, such as ["tall jug"]',
    ("look", "steepest"): "a number from 1 to 20, such as 1.8",
    ("hold", "empty"): "true, or left out",
    ("job", "house_built"): 'a year from 1000 to 2200, or "unknown"',
    ("job", "currency"): 'three capital letters, such as "USD"',
    ("doorway", "widths"): "one to three lengths in brackets: top, middle, bottom",
    ("doorway", "heights"): "one to three lengths in brackets",
    ("doorway", "diagonals"): "two lengths in brackets",
    ("doorway", "old_mortises"): "lengths in brackets",
    ("doorway", "opens_to"): "a whole number of degrees from 30 to 180",
    ("doorway", "in_the_swing"): (
        '[{ name = "heater", along = "3", out = 0, width = "30", depth = "4" }], one entry for each'
    ),
    ("doorway", "ways_in"): '[{ name = "stairs", width = "34", height = "80" }], one for each',
    ("doorway", "trim"): (
        '[{ name = "casing", side = "hinge", width = "2-1/2", thickness = "3/4" }], one for each'
    ),
    ("site", "abuse_load"): f"a weight of 0 or more, such as {MASS_FORMS['in']}",
    ("site", "screws_per_leaf"): "a whole number from 2 to 12",
    ("site", "lifters"): "a whole number from 1 to 8",
    ("site", "hinge_margin"): "a number from 1 to 10",
    ("moulding", "lengths"): '[{ length = 96, price = "9.60" }], one entry for each length sold',
    ("shop", "largest_panel"): 'two lengths in brackets, such as ["48", "30"]',
    ("shop", "saws"): '"guided saw", "table saw", "mitre saw", "panel saw", in brackets',
    ("shop", "least_offcut"): 'two lengths in brackets, such as ["24", "3"]',
    ("look", "spare"): (
        'a share from 0 to 0.9, such as 0.15, or expected things, such as ["4 x tall jug"]'
    ),
    ("look", "price_slack"): "per cent from 0 to 100",
    ("case", "table"): '[{ span = 24, load = "60 lb" }], one entry for each span listed',
    ("finish", "more"): "a share from 0 to 1, such as 0.15",
    ("hardware", "spare"): "a whole number from 0 on",
    **dict.fromkeys(
        (("finish", "primer_coverage"), ("finish", "coverage")),
        "a number above 0: ft2 a gallon in an inch job, m2 a litre in a metric one",
    ),
}
_NEEDED: Mapping[tuple[str, ...], str] = {
    ("case",): (
        "there is no case; everything but the things and one case size has a default: "
        "add [[case]] with width and height"
    ),
    ("item",): (
        "there are no things to display; add [[item]] with name, width, height and depth, "
        'or items = "inventory.csv" under [job]'
    ),
}


def faults_of(error: ValidationError, raw: Mapping[str, Any]) -> list[Fault]:
    """Return the faults of a job that did not validate, one for each key of the file."""
    grouped: dict[Spot, list[Mapping[str, Any]]] = {}
    for one in error.errors(include_url=False):
        if one["type"] != "extra_forbidden":
            grouped.setdefault(_spot(one["loc"]), []).append(one)
    faults = [_fault(spot, ones, raw) for spot, ones in grouped.items()]
    return [fault for fault in faults if fault is not None]


def _spot(loc: tuple[int | str, ...]) -> Spot:
    """Cut a location to the key of the file it belongs to; unions add words of their own."""
    many = len(loc) > 1 and isinstance(loc[1], int)
    deep = many and loc[0] == "case" and loc[2:3] in (("trim",), ("light",), ("glass",))
    return loc[: 3 + deep if many else 2]


def _fault(spot: Spot, ones: Sequence[Mapping[str, Any]], raw: Mapping[str, Any]) -> Fault | None:
    table = str(spot[0]) if spot else ""
    if not spot or not isinstance(spot[-1], str) or len(spot) < 2:
        return _table_fault(spot, ones[0], raw)
    key, given = spot[-1], _given(raw, spot)
    allowed = _in_its_unit(_allowed(table, key, ones), raw)
    if given is _ABSENT:
        missing = ones[0]["type"] == "missing"
        text = f"is missing; allowed: {allowed}"
        return Fault(spot, text) if missing else None  # a default that hangs on another fault
    own = next((message_of(one) for one in ones if one["type"] == "value_error"), None)
    if own and ((table, key) not in _ALLOWED or isinstance(given, dict)):
        return Fault(spot, own)
    return Fault(spot, f"{_value_text(given)} is given; allowed: {allowed}")


def _table_fault(spot: Spot, one: Mapping[str, Any], raw: Mapping[str, Any]) -> Fault | None:
    """A fault of a whole table, or of the job."""
    if one["type"] in ("missing", "too_short") and not raw.get(str(spot[0]) if spot else ""):
        text = _NEEDED.get(tuple(map(str, spot)), "is missing")
        return Fault(spot, text)
    if one["type"] == "too_long":
        most = one["ctx"]["max_length"]
        return Fault(spot, f"{one['ctx']['actual_length'] or 'too many'} given; at most {most}")
    if one["type"] != "value_error":
        return None  # told by the faults of its entries
    error = (one.get("ctx") or {}).get("error")
    if spot or not isinstance(error, PlacedFaultError):
        return Fault(spot, message_of(one))
    return _placed(error, raw)


def _placed(error: PlacedFaultError, raw: Mapping[str, Any]) -> Fault:
    """Return a fault of the whole job at its key; without a place where no entry has the name."""
    table, name, key = error.place
    top = key.partition(".")[0]
    if name is None:
        return Fault((table, top), error.reason)
    at = _last_named(raw.get(table), name, otherwise=table)
    return Fault((), str(error)) if at is None else Fault((table, at, top), error.reason)


def _last_named(entries: Any, name: str, otherwise: str) -> int | None:
    """Return the number of the last entry of that name; one without a name has `otherwise`."""
    numbers = [
        at
        for at, entry in enumerate(entries or ())
        if isinstance(entry, dict) and entry.get("name", otherwise) == name
    ]
    return max(numbers, default=None)


_ABSENT = object()


def _given(raw: Any, spot: Spot) -> Any:
    for step in spot:
        try:
            raw = raw[step]
        except (KeyError, IndexError, TypeError):
            return _ABSENT
    return raw


_METRIC = {
    LENGTH_FORMS["in"]: LENGTH_FORMS["mm"],
    MASS_FORMS["in"]: MASS_FORMS["mm"],
    "{ least = 28, most = 30, wish = 29 }": "{ least = 700, most = 760, wish = 730 }",
    "{ least = 9, most = 11 }": "{ least = 220, most = 280 }",
    'above = "1/2"': "above = 12",
    '["48", "30"]': "[1200, 750]",
    'along = "3", out = 0, width = "30", depth = "4"': (
        "along = 75, out = 0, width = 760, depth = 100"
    ),
    'width = "34", height = "80"': "width = 860, height = 2030",
    'width = "2-1/2", thickness = "3/4"': "width = 64, thickness = 18",
    'length = 96, price = "9.60"': 'length = 2400, price = "9.60"',
}
"""Examples of an inch job, and those of a metric one in their place."""


def _in_its_unit(text: str, raw: Any) -> str:
    """What is allowed, its examples in the unit of the job."""
    if _given(raw, ("job", "unit")) == "mm":
        for inch, metric in _METRIC.items():
            text = text.replace(inch, metric)
    return text


def _allowed(table: str, key: str, ones: Sequence[Mapping[str, Any]]) -> str:
    """Say what may be given for a key."""
    if (table, key) in _ALLOWED:
        return _ALLOWED[table, key]
    kind, limits = ones[0]["type"], ones[0].get("ctx") or {}
    if kind == "literal_error":
        return str(limits["expected"]).replace("'", '"')
    if kind.startswith("bool"):
        return "true or false"
    field = TABLES[table].model.model_fields.get(key)
    if field is not None and is_mass(field):
        return f"a weight above 0, such as {MASS_FORMS['in']}"
    if field is not None and is_whole_number(field):
        return whole_range(table, key)
    if kind.startswith("string") or key in ("name", "material", "key"):
        return "a text of 1 to 200 characters in quotes"
    if key in ("watts", "driver"):
        return "a number of watts above 0"
    if key == "flutes":
        return f"a whole number from 0 to {FLUTES_MOST}"
    if limits.get("ge") == TICKS_PER_MM:
        return "a length of 1 mm or more"
    return _A_LENGTH


def whole_range(table: str, key: str) -> str:
    """Say the range of a whole number, from the model itself."""
    schema = TABLES[table].model.model_json_schema()["properties"][key]
    schema = schema.get("anyOf", [schema])[0]
    most = f" to {schema['maximum']}" if "maximum" in schema else " on"
    return f"a whole number from {schema.get('minimum', 0)}{most}"


def _value_text(value: Any) -> str:
    """A value as it stands in the file, cut where it is long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime.date | datetime.time):
        return f"the date {value}"
    if isinstance(value, dict):
        text = "{ " + ", ".join(f"{k} = {_value_text(v)}" for k, v in value.items()) + " }"
    elif isinstance(value, list):
        text = "[" + ", ".join(map(_value_text, value)) + "]"
    else:
        text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 80 else text[:80] + "…"


def as_error(
    fault: Fault, raw: Mapping[str, Any], path: str, lines: Mapping[Spot, int]
) -> InputError:
    """Return a fault as an error with its file, line, table and key."""
    line = _line(fault.spot, lines)
    where = f"{path} line {line}" if line else path
    called = _place_name(fault.spot, raw)
    return InputError(f"{called}{fault.message}", where)


def _line(spot: Spot, lines: Mapping[Spot, int]) -> int | None:
    """Return the line of the key, else of its table."""
    for length in range(len(spot), 0, -1):
        for place in (spot[:length], (*spot[:length], 0)):
            if place in lines:
                return lines[place]
    return None


def _place_name(spot: Spot, raw: Mapping[str, Any]) -> str:
    """Name a place: `[[case]] 2 "alcove" width: `."""
    if not spot or spot[0] not in TABLES:
        return ""
    words = [header(str(spot[0]))]
    if len(spot) > 1 and isinstance(spot[1], int):
        words.append(str(spot[1] + 1))
        name = _given(raw, (*spot[:2], "name"))
        words += [f'"{name}"'] if isinstance(name, str) and len(name) <= 60 else []
        spot = spot[1:]
    words += [".".join(str(step) for step in spot[1:3])] if len(spot) > 1 else []
    return " ".join(words) + ": "
