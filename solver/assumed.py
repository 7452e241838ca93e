"""What is taken where a table of the job says nothing: its defaults as values that can be read."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from solver.defaults import table_defaults
from solver.hardware_order import Finish
from solver.site import Site
from solver.terms import Terms
from solver.units import Unit

_PLAIN_NUMBER = re.compile(r"[\d./-]+")
"""A default that is a length in the job's unit, such as 1-1/2."""


def explicit_defaults(table: str, unit: Unit) -> dict[str, Any]:
    """Return the defaults of a table; lengths are texts with units, so any reading mode agrees."""
    return {key: _explicit(value, unit) for key, value in table_defaults(table, unit).items()}


def _explicit(value: Any, unit: Unit) -> Any:
    if isinstance(value, tuple):
        return [_explicit(one, unit) for one in value]
    return f"{value} {unit}" if isinstance(value, str) and _PLAIN_NUMBER.fullmatch(value) else value


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
