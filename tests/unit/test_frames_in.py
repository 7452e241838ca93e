"""Data frames to items."""

from __future__ import annotations

import pandas as pd
import pytest

from solver.errors import ManyInputsError
from solver.listing.item_frames import items_from_frame
from solver.units import inches
from tests.listings import sizes


def test_a_frame_is_read_like_a_pasted_table() -> None:
    frame = pd.DataFrame(
        {"Qty": [2, 1], "Item": ["jug", "mug"], "H": [9.5, 4], "W": ["6 1/2", "3"], "D": [4, 3]}
    )
    jug, mug = items_from_frame(frame, "in")
    assert (jug.name, jug.count, mug.count) == ("jug", 2, 1)
    assert sizes(jug) == (inches("6-1/2"), inches("9-1/2"), inches(4))


def test_missing_cells_are_defaults_and_counts_beside_them_stay_whole() -> None:
    frame = pd.DataFrame(
        {
            "name": ["jug", "mug"],
            "w": [6, 3],
            "h": [9, 4],
            "d": [4, 3],
            "count": [2, None],
            "may lie": [True, None],
        }
    )
    jug, mug = items_from_frame(frame, "in")
    assert (jug.count, mug.count) == (2, 1)
    assert (jug.may_lie, mug.may_lie) == (True, False)


def test_every_bad_row_is_told_at_once_by_its_line_below_the_header() -> None:
    frame = pd.DataFrame({"name": ["jug", "mug"], "w": [6, None], "h": [9, 4], "d": ["x", 3]})
    with pytest.raises(ManyInputsError) as caught:
        items_from_frame(frame, "in")
    assert [error.where for error in caught.value.errors] == ["line 2", "line 3"]
