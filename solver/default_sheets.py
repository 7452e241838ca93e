"""The sheets of a job that names none: common practice, no source."""

from __future__ import annotations

from typing import Any

from solver.units import Unit


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
