"""Keys that job files and plans of before may have and that are gone, and what took their place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_BY_ORDER = "openings are now exact to one marking step, and the wishes are held in their order"
_BY_STEP = "steps are as alike as they can be; step = … asks for one of your own"
GONE: Mapping[tuple[str, str], str] = {
    ("look", "rhythm_slack"): _BY_ORDER,
    ("look", "headroom_slack"): "even air over the tallest things is now one of the later wishes",
    ("look", "step_least"): _BY_STEP,
    ("look", "step_most"): _BY_STEP,
}
"""What took the place of a key, by its table and name."""


def without_gone(raw: Mapping[str, Any]) -> dict[str, Any]:
    """Return the tables of a job without the keys that are gone."""
    tables = dict(raw)
    for table, key in gone_in(raw):
        tables[table] = {word: value for word, value in tables[table].items() if word != key}
    return tables


def gone_notes(raw: Mapping[str, Any]) -> tuple[str, ...]:
    """Return a note for each key of a job that is gone: what took its place."""
    return tuple(f"{table}.{key} is gone: {GONE[table, key]}" for table, key in gone_in(raw))


def gone_in(raw: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Return the keys of a job that are gone, each with its table."""
    return [
        (table, key)
        for table, key in GONE
        if isinstance(raw.get(table), dict) and key in raw[table]
    ]
