"""Rules on the composition of rows that the client set: a series in its order, things apart.

Where such a rule could not be kept, a note of the option says so: it names the kinds, and has the
word that :data:`SERIES` or :data:`APART` gives.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import OpeningView, OptionView
from solver.job.inventory import Item
from solver.plan.built import Placement

SERIES, APART = "order", "apart"
"""Words of the notes that say that a series is out of order, or that things stand side by side."""
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
                if first.order > second.order and not _noted(view, SERIES, *names):
                    yield finding(
                        Code.ROWS_SERIES,
                        opening.place(left),
                        f"number in its series, left of {right.item} {right.number}",
                        f"at most {second.order}",
                        str(first.order),
                    )


def apart(view: OptionView) -> Iterator[Finding]:
    """No two things that are to be kept apart are neighbours in a row."""
    for opening in view.openings:
        for row in _rows(opening):
            for (left, first), (right, second) in pairwise(row):
                named = second.name in first.apart or first.name in second.apart
                if named and not _noted(view, APART, first.name, second.name):
                    what = f"neighbour {right.item} {right.number}"
                    yield finding(
                        Code.ROWS_APART, opening.place(left), what, "another thing", "beside it"
                    )


def _rows(view: OpeningView) -> list[list[Standing]]:
    """The things that stand on the floor or on a riser, row by row, each from the left."""
    standing = [one for one in view.things if one[0].on is None]
    rows = sorted({thing.row for thing, _ in standing})
    return [
        sorted((one for one in standing if one[0].row == row), key=lambda one: one[0].x)
        for row in rows
    ]


def _noted(view: OptionView, word: str, *names: str) -> bool:
    return any(word in note and all(n in note for n in names) for note in view.option.notes)


RULES = (series, apart)
"""All rules on rows."""
