"""What is cut already, as a list that `casewright plan --have` reads."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from decimal import Decimal

from cli.export import guarded_cell
from cli.papers.issue import Issue
from solver.signed import ChangeOrder
from solver.units import TICKS_PER_MM, Ticks

HEADER = ("what", "name", "length", "width", "quantity", "material")


def already_cut_csv(issue: Issue, change: ChangeOrder) -> str:
    """Return the parts that are cut from the stock of the signed revision, and its offcuts."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(HEADER)
    rows.writerows([guarded_cell(cell) for cell in row] for row in _rows(issue, change))
    return text.getvalue()


def _rows(issue: Issue, change: ChangeOrder) -> Iterator[tuple[str, ...]]:
    assert issue.signed is not None
    old = issue.signed.built
    parts = {part.id: part for part in old.parts}
    for one in change.cut:
        for ident in (*one.serve, *one.lost):
            if ident in parts:
                part = parts[ident]
                sizes = (_exact(part.length), _exact(part.width))
                yield ("cut", ident, *sizes, "1", part.material)
    for number in issue.signed.cut_sheets:
        sheet = old.sheets[number - 1]
        for offcut in sheet.offcuts:
            sizes = (_exact(offcut.length), _exact(offcut.width))
            yield ("offcut", "", *sizes, "1", sheet.material)


def _exact(ticks: Ticks) -> str:
    """Return a length [tick] exactly, as a list is read back."""
    return f"{(Decimal(ticks) / TICKS_PER_MM).normalize():f} mm"
