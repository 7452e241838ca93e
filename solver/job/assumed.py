"""Defaults of whole tables: site, finish and price of a job that does not give them; its sheets.

The sheets of a job that names none are common practice, no source.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from solver.job.defaults import table_defaults
from solver.job.finish_and_overrides import Finish
from solver.job.price_terms import Terms
from solver.job.site import Site
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


def default_sheets(unit: Unit) -> list[dict[str, Any]]:
    """Sheets taken where the job lists none: 3/4 in. (18 mm) and 1/4 in. (6 mm) plywood, no prices.

    4 x 8 ft sheets; 3/4 in. plywood measures 23/32 in. (woodworking.about.com Plywood Sizing).
    """
    if unit == "in":
        return [
            {
                "name": "plywood 3/4, 4 x 8 ft",
                "material": "plywood 3/4",
                "length": "96",
                "width": "48",
                "thickness": "23/32",
            },
            {
                "name": "plywood 1/4, 4 x 8 ft",
                "material": "plywood 1/4",
                "length": "96",
                "width": "48",
                "thickness": "7/32",
            },
        ]
    return [
        {
            "name": "plywood 18, 2440 x 1220",
            "material": "plywood 18",
            "length": "2440",
            "width": "1220",
            "thickness": "18",
        },
        {
            "name": "plywood 6, 2440 x 1220",
            "material": "plywood 6",
            "length": "2440",
            "width": "1220",
            "thickness": "6",
        },
    ]
