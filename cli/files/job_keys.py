"""The tables and keys that a job file may have, as they follow from the models of the job."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from pydantic import BaseModel

from solver.job.job import Job
from solver.job.materials import ThicknessBand
from solver.quantities import is_list, models_in


class Table(NamedTuple):
    """A table of the job file; `many` ones are written with double brackets."""

    model: type[BaseModel]
    many: bool


TABLES: Mapping[str, Table] = {
    field.alias or name: Table(models_in(field)[0], is_list(field))
    for name, field in Job.model_fields.items()
}
"""Every table of the job file, in its order."""
FILE_KEYS = ("items", "items_sheet")
"""Keys of [job] that only the file has: a list of things beside it, and its worksheet."""
NESTED: Mapping[tuple[str, str], type[BaseModel]] = {
    ("sheet", "thickness"): ThicknessBand,  # read into the field `band`
    **{
        (table, key): models_in(field)[0]
        for table, (model, _) in TABLES.items()
        for key, field in model.model_fields.items()
        if models_in(field)
    },
}
"""The tables that stand within a table, under their keys."""


def header(table: str) -> str:
    """Return a table's name as it is written in the file."""
    return f"[[{table}]]" if TABLES[table].many else f"[{table}]"
