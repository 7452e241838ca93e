"""Doubts of a line: asked about, answered, and only then added up with equal lines."""

from __future__ import annotations

import pytest

from solver.errors import ManyInputsError
from solver.job.inventory import Item
from solver.listing.line_readings import Choice, Doubt, LineReading, Listing
from solver.units import inches

JUG = Item(name="jug", width=inches(6), height=inches(9), depth=inches(6), count=3)
HOW_MANY = Doubt("how many: 2 or 3?", (Choice("3 of them"), Choice("2 of them", {"count": 2})))


def _listing() -> Listing:
    sure = LineReading(1, "4 jugs 6 x 9 x 6", item=JUG.model_copy(update={"count": 4}))
    unsure = LineReading(2, "2-3 jugs 6 x 9 x 6", item=JUG, doubts=(HOW_MANY,))
    return Listing.of([sure, unsure, LineReading(3, "Hello,", skipped="a greeting")], "list.txt")


def test_a_doubtful_line_has_its_likeliest_reading_and_is_not_sure() -> None:
    listing = _listing()
    assert [line.is_sure for line in listing.lines] == [True, False, False]
    assert [line.number for line in listing.doubtful] == [2]
    assert [line.number for line in listing.aside] == [3]
    assert [item.count for item in listing.items] == [4 + 3]


@pytest.mark.parametrize(("choice", "count"), [(0, 4 + 3), (1, 4 + 2)])
def test_answers_are_applied_before_equal_lines_are_added_up(choice: int, count: int) -> None:
    answered = _listing().answered({2: (choice,)})
    assert not answered.doubtful
    assert [item.count for item in answered.items] == [count]
    answered.raise_if_unreadable()


def test_a_list_with_doubts_is_not_taken_without_asking() -> None:
    with pytest.raises(ManyInputsError) as caught:
        _listing().raise_if_unreadable()
    assert "list.txt line 2" in str(caught.value)
    assert "how many: 2 or 3? (3 of them, 2 of them)" in str(caught.value)
