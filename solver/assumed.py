"""What is taken where a table of the job says nothing: its defaults as values that can be read."""

from __future__ import annotations

from functools import cache
from typing import Any

from solver.defaults import table_defaults
from solver.hardware_order import Finish
from solver.site import Site
from solver.terms import Terms
from solver.units import Unit

_TEXT_KEYS = {
    "name",
    "title",
    "currency",
    "kind",
    "sizes",
    "fixing",
    "joint",
    "rhythm",
    "prefer",
    "first_cut",
    "stages",
    "trimming",
    "house_built",
    "saws",
    "place",
    "sag",
    "glass",
    "jamb",
    "abuse_load",
    "screw",
    "set",
    "corners",
    "where",
    "tax_on",
}


def explicit_defaults(table: str, unit: Unit) -> dict[str, Any]:
    """Return the defaults of a table; lengths are texts with units, so any reading mode agrees."""
    return {key: _explicit(key, value, unit) for key, value in table_defaults(table, unit).items()}


def _explicit(key: str, value: Any, unit: Unit) -> Any:
    if isinstance(value, tuple):
        return [_explicit(key, one, unit) for one in value]
    return f"{value} {unit}" if _is_length(key, value) else value


def _is_length(key: str, value: Any) -> bool:
    return isinstance(value, str) and key not in _TEXT_KEYS and not value.endswith("mm")


@cache
def site_of(unit: Unit) -> Site:
    """The site of the defaults."""
    return Site.model_validate(explicit_defaults("site", unit))


@cache
def finish_of(unit: Unit) -> Finish:
    """The finish of the defaults."""
    return Finish.model_validate(explicit_defaults("finish", unit))


@cache
def terms_of(unit: Unit) -> Terms:
    """The price terms of the defaults."""
    return Terms.model_validate(explicit_defaults("price", unit))
