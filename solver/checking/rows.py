"""Rules on the composition of rows that the client set: a series in its order, things apart.

Where such a rule could not be kept, a note of the option says so: it names the kinds, and has the
words that :data:`SERIES` or :data:`APART` give.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import OpeningView, OptionView
from solver.job.inventory import Item
from solver.plan.built import Placement

SERIES, APART = "series", "side by side"
"""Words of the notes that say what is out of its series, and what could not be kept apart."""
Standing = tuple[Placement, Item]


def series(view: OptionView) -> Iterator[Finding]:
    """In every row the things of a series stand with the lower numbers to the left."""
    for opening in view.openings:
        for row in _rows(opening):
            ordered = [one for one in row if one[1].order is not None]
            for (left, first), (right, second) in pairwise(ordered):
                assert first.order is not None
                assert second.order is not None
                names = first.name, second.name
                if first.order > second.order and not is_noted(view, SERIES, *names):
                    yield finding(
                        Code.ROWS_SERIES,
                        opening.place(left),
                        f"number in its series, left of {right.item} {right.number}",
                        f"at most {second.order}",
                        str(first.order),
                    )


def apart(view: OptionView) -> Iterator[Finding]:
    """No two things that are to be kept apart are neighbours in a front row."""
    for opening in view.openings:
        for (left, first), (right, second) in pairwise(_row(opening, 1)):
            named = second.name in first.apart or first.name in second.apart
            if named and not is_noted(view, APART, first.name, second.name):
                what = f"neighbour {right.item} {right.number}"
                yield finding(
                    Code.ROWS_APART, opening.place(left), what, "another thing", "beside it"
                )


def _rows(view: OpeningView) -> list[list[Standing]]:
    """The things that stand on the floor or on a riser, row by row, each from the left."""
    return [_row(view, number) for number in sorted({thing.row for thing, _ in view.things})]


def _row(view: OpeningView, number: int) -> list[Standing]:
    row = (one for one in view.things if one[0].on is None and one[0].row == number)
    return sorted(row, key=lambda one: one[0].x)


def is_noted(view: OptionView, words: str, *names: str) -> bool:
    """Whether a note of the option has these words, and names all of these kinds."""
    return any(words in note and all(n in note for n in names) for note in view.option.notes)


RULES = (series, apart)
"""All rules on rows."""
