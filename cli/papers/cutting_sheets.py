"""The sheet pages: each sheet with its cuts in order, and the settings of the saws over all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cli.papers.issue import Issue
from cli.papers.paper_blocks import (
    Block,
    Paper,
    heading,
    line,
    new_page,
    of_screen,
    of_table,
    points,
)
from cli.papers.paper_drawings import sheet_drawings
from cli.screen.cutting_tables import mouldings_table, set_lines, sheet_line, stops_table
from cli.screen.sawing_tables import cut_tables, offcut_table, sawing_notes, settings_table

WIDE = 1000
"""Columns for the tables of the screen [-]: nothing is folded, the page folds."""


def sheet_pages(issue: Issue) -> Paper:
    """Return the sheets, one a page, after the settings that hold for all of them."""
    option, unit = issue.option, issue.unit
    blocks: list[Block] = []
    if option.settings:
        blocks.append(
            line(
                "Settings in the order of the work: set the saw once, make all its cuts on every"
                " sheet, then go on. Numbers of sheets and cuts are those of the pages that"
                " follow."
            )
        )
        blocks.append(of_screen(settings_table(option.settings, unit), ticked="done"))
    offcuts = offcut_table(option.sheets, unit)
    blocks += [of_screen(offcuts)] if offcuts else []
    blocks += [heading("At the saw"), *points(_notes(issue))]
    drawn = sheet_drawings(issue)
    blocks += _sheets(issue, [block for block, _ in drawn])
    if option.mouldings:
        blocks += [new_page(), heading("Mouldings")]
        blocks.append(of_screen(mouldings_table(option.mouldings, unit), ticked="done"))
        blocks.append(of_screen(stops_table(option.mouldings, unit), ticked="done"))
    return Paper(
        "sheets",
        "Sheets and cuts",
        "numbered cuts and saw settings",
        tuple(blocks),
        pictures=tuple(file for _, file in drawn),
    )


def _notes(issue: Issue) -> list[str]:
    notes = set_lines(issue.option.sets, issue.job.head.currency)
    return [
        *sawing_notes(issue.option.sheets),
        *notes,
        "Measure the first piece of each setting before the next is cut.",
    ]


def _sheets(issue: Issue, drawings: Sequence[Block]) -> Iterator[Block]:
    """Yield a page for each sheet: its drawing, and its cuts below."""
    option, unit = issue.option, issue.unit
    cuts = cut_tables(option.sheets, unit, WIDE)
    pages = zip(option.sheets, cuts, drawings, strict=True)
    for number, (sheet, table, drawing) in enumerate(pages, start=1):
        yield new_page()
        yield heading(f"Sheet {number}: {sheet_line(sheet, unit)}")
        yield drawing
        yield of_table(table.table, ticked="done")
