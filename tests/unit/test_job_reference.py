"""The reference at the end of a new job file has every key, and its defaults are the true ones."""

from __future__ import annotations

import re
import tomllib
from typing import Any

import pytest
from pydantic import BaseModel

from cli.files.job_keys import FILE_KEYS, TABLES
from cli.files.job_reference import COLUMNS, reference
from cli.files.starter import standard, starter
from solver.intake.load import load
from solver.quantities import models_in
from solver.units import Unit

UNITS: tuple[Unit, Unit] = ("in", "mm")
OPEN_SIZE = {"least", "most", "wish"}
MINIMAL = {
    "case": [{"name": "hall", "width": "760 mm", "height": "1500 mm", "depth": "230 mm"}],
    "item": [{"name": "jug", "width": "150 mm", "height": "230 mm", "depth": "150 mm"}],
}


def keys_of(model: type[BaseModel], path: str) -> set[tuple[str, str]]:
    """Every (table, key) of a model and of the tables within it; open sizes are values."""
    found = set()
    for name, field in model.model_fields.items():
        key, inner = field.alias or name, models_in(field)
        if inner and not set(inner[0].model_fields) <= OPEN_SIZE:
            found |= keys_of(inner[0], f"{path}.{key}")
        else:
            found.add((path, key))
    return found


def shown(text: str) -> dict[tuple[str, str], str]:
    """The value shown for each (table, key) of the reference."""
    table, found = "", {}
    for line in text.splitlines():
        if head := re.fullmatch(r"# \[+([\w.]+)\]+", line):
            table = head[1]
        elif pair := re.match(r"# (\w+) = (.*?)(?:   # .*)?$", line):
            found[table, pair[1]] = pair[2]
    return found


@pytest.mark.parametrize("unit", UNITS)
def test_every_key_of_the_job_file_is_in_the_reference(unit: Unit) -> None:
    wanted = {pair for table in TABLES for pair in keys_of(TABLES[table].model, table)}

    assert set(shown(reference(unit))) == wanted | {("job", key) for key in FILE_KEYS}


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("table", ["look", "shop", "case"])
def test_a_default_that_is_shown_changes_nothing_when_it_is_written(unit: Unit, table: str) -> None:
    lines = [
        f"{key} = {value}"
        for (where, key), value in shown(reference(unit)).items()
        if where == table and "…" not in value and '" or "' not in value
    ]
    written: dict[str, Any] = tomllib.loads("\n".join(lines))
    plain = {"job": {"unit": unit}, **MINIMAL}
    with_defaults = (
        {**plain, "case": [{**written, **MINIMAL["case"][0]}]}
        if table == "case"
        else {**plain, table: written}
    )

    assert len(lines) > 5
    assert load(with_defaults, unit) == load(plain, unit)


@pytest.mark.parametrize("unit", UNITS)
def test_a_new_job_file_ends_with_the_reference_and_no_line_is_too_long(unit: Unit) -> None:
    text = starter(standard(unit))

    assert text.endswith(reference(unit))
    assert max(map(len, text.splitlines())) <= COLUMNS
    assert "[tick" not in text
