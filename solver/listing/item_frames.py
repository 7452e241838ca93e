"""Data frames in: a table of things, as pandas reads it, to items."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from solver.job.inventory import Item
from solver.listing.read import read_rows
from solver.units import Unit

if TYPE_CHECKING:
    from pandas import DataFrame


def items_from_frame(frame: DataFrame, unit: Unit) -> tuple[Item, ...]:
    """Read the things in a data frame, its column names recognised as those of a pasted list.

    Parameters
    ----------
    frame
        One row for each kind of thing; columns such as name, width, height, depth,
        count, weight, in any order [rows x columns].
    unit
        The unit of a size without one: "in" or "mm" [-].

    Returns
    -------
    tuple of Item
        The things, rows of the same kind added up.

    Raises
    ------
    InputError
        With every row that cannot be read; the header is line 1.
    """
    import pandas as pd

    header = [str(column) for column in frame.columns]
    rows = [
        ["" if pd.api.types.is_scalar(value) and pd.isna(value) else _text(value) for value in row]
        for row in frame.itertuples(index=False, name=None)
    ]
    listing = read_rows([header, *rows], unit)
    listing.raise_if_unreadable()
    return listing.items


def _text(value: Any) -> str:
    """A cell as people write it; counts become floats beside missing cells and are whole again."""
    if isinstance(value, list | tuple):
        return "; ".join(map(str, value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)
