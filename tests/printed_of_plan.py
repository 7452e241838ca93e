"""Texts of drawings, papers, tables and files, each with the length of the plan that it is to say.

The lengths are worked out anew from the ticks of the plan; :mod:`tests.printed` reads the texts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from rich.table import Table

from cli.drawings.drawing_kinds import KINDS, Subject, scenes
from cli.drawings.marks import marked_faces
from cli.drawings.scene import Scene
from cli.drawings.shapes import MIDDLE, Dimension, Running, Text
from cli.drawings.stick import stick, whole
from cli.files.export import frames
from cli.papers.cutting_papers import cut_list, part_labels
from cli.papers.issue import Issue
from cli.papers.marking_out import marking_out
from cli.screen.console import Titled
from cli.screen.cutting_tables import parts_table, sheet_tables
from cli.screen.marking_tables import marking_tables
from cli.screen.wording import alike_bays, alike_parts
from solver.job.job import Job
from solver.plan.built import Bay, CasePlan
from solver.plan.plan import Option, Plan
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, format_length, to_mm
from tests.printed import STEP, fault

JOBS = Path(__file__).resolve().parents[2] / "fixtures" / "jobs"
NONE = "–"
SET = "saw set to"
PER_UNIT = {"in": TICKS_PER_INCH, "mm": TICKS_PER_MM}
Said = tuple[str, Ticks]
"""A text, and the length that it is to say [tick]."""
Rows = list[tuple[str, Ticks, Ticks, Ticks | None]]
"""Board, underside, top face, clear opening above it [tick]."""


def rows_of(option: Option, case: CasePlan, bay: Bay) -> Rows:
    """The boards of a bay from the foot up, every place the sum of what is below it."""
    thick = {p.name: p.thickness for p in option.parts if p.case == case.name}
    names = ["bottom", *(f"shelf {shelf.index}" for shelf in bay.shelves), "top"]
    boards = [thick["bottom"], *(shelf.thickness for shelf in bay.shelves), thick["top"]]
    at = bay.openings[0].floor - thick["bottom"]
    rows: Rows = [("toe", 0, at, None)] if at else []
    heights = [*(opening.height for opening in bay.openings), None]
    for name, board, height in zip(names, boards, heights, strict=True):
        rows.append((name, at, at + board, height))
        at += board + (height or 0)
    assert at == case.outside.height
    return rows


def drawings(plan: Plan, option: Option) -> list[Scene]:
    paper = "letter" if plan.unit == "in" else "a4"
    return scenes(Subject(plan, option, paper, {}), [*KINDS])


def dimensions(plan: Plan, option: Option) -> Iterator[Said]:
    """Every dimension of every drawing; each is as long as it says, each run in order from 0."""
    for shape in (shape for scene in drawings(plan, option) for shape in scene.shapes):
        if isinstance(shape, Dimension):
            along = 0 if shape.axis == "x" else 1
            long = abs(shape.end[along] - shape.start[along])
            assert long == pytest.approx(to_mm(shape.value), abs=1e-6)
            yield shape.text, shape.value
        elif isinstance(shape, Running):
            values = [mark.value for mark in shape.marks]
            assert values == sorted({0, *values})
            yield from ((mark.text, mark.value) for mark in shape.marks)


def runs_that_close(plan: Plan, option: Option) -> Iterator[Said]:
    """On each side the marks are the sums of clear heights and boards, the last its whole."""
    for case in option.cases:
        sides = [case.bays[0], case.bays[-1]]
        named = [
            f for f in marked_faces(plan, option, case) if f.name in ("left side", "right side")
        ]
        for face, bay in zip(named, sides, strict=True):
            window = stick(face, plan.unit, whole(face))
            lettered = [
                one.text
                for one in window.shapes
                if isinstance(one, Text) and one.bold and one.height == MIDDLE
            ]
            sums = [at for _, low, high, _ in rows_of(option, case, bay) for at in (low, high)]
            hinges = [at for hinge in face.hinges for at in (hinge.low, hinge.high)]
            figures = [text for text in lettered if text[0].isdigit()]
            yield from zip(figures, sorted(sums + hinges), strict=True)
            assert max(sums) == face.height == case.outside.height


def side_runs(plan: Plan, option: Option) -> Iterator[Said]:
    """Sections and marking sheets have each of these sums on one run."""
    wanted = [
        {0, *(at for _, low, high, _ in rows_of(option, case, bay) for at in (low, high))}
        for case in option.cases
        for bay in case.bays
    ]
    for scene in drawings(plan, option):
        runs = [r for r in scene.shapes if isinstance(r, Running) and r.axis == "y"]
        if "-section" in scene.name:
            (run,) = runs
            assert {mark.value for mark in run.marks} in wanted
        elif "side" in scene.name:
            assert {mark.value for mark in runs[0].marks} in wanted
        yield from ()


def marking(plan: Plan, option: Option) -> Iterator[Said]:
    """The tables of marks on the screen and on the marking-out sheet."""
    paper = [
        block
        for block in marking_out(Issue(plan, option, "1", None)).blocks
        if block["kind"] == "table" and block["title"].startswith("Sides")
    ]
    screen = marking_tables(option, plan.unit)
    for group, titled, block in zip(alike_bays(option), screen, paper, strict=True):
        rows = rows_of(option, group.case, group.first)
        cells = zip(*(list(column.cells) for column in titled.table.columns), strict=True)
        for (_, *has), (_, low, high, above) in zip(cells, rows, strict=True):
            yield from said(map(str, has), (low, high, above))
        yield from on_paper(plan.job, group.case, group.first, block, rows)


def on_paper(
    job: Job, case: CasePlan, bay: Bay, block: dict[str, Any], rows: Rows
) -> Iterator[Said]:
    ordered = job.case(case.name)
    foot = bay.openings[0].floor - ordered.dado_depth
    columns = [column["name"] for column in block["columns"]]
    for row, (name, low, high, above) in zip(block["rows"], rows, strict=True):
        cells = dict(zip(columns, row, strict=True))
        yield from said(
            (cells["underside"], cells["top face"], cells["opening"]), (low, high, above)
        )
        middle = (low + high) // 2  # half a tick is nothing
        fixed = cells["fixing line"] != NONE
        assert fixed == (name != "toe" and (ordered.fixing == "fixed" or "shelf" not in name))
        if fixed:
            yield cells["fixing line"], middle
            if ordered.back != "none":
                yield cells["on the back"], middle - ordered.back_inset // 2
        if "on an upright" in cells and name.startswith("shelf"):
            yield cells["on an upright"], low - foot


def said(texts: Any, lengths: tuple[Ticks | None, ...]) -> Iterator[Said]:
    for text, length in zip(texts, lengths, strict=True):
        if length is None:
            assert text in ("", NONE)
        else:
            yield text, length


def parts(plan: Plan, option: Option) -> Iterator[Said]:
    """Sizes of parts on the screen, in the cut list and on labels."""
    alike = [some[0] for some in alike_parts(option.parts)]
    table = parts_table(option.parts, plan.unit).table
    columns = {str(column.header): list(map(str, column.cells)) for column in table.columns}
    for at, part in enumerate(alike):
        sizes = (part.length, part.width, part.thickness)
        yield from said((columns[name][at] for name in ("length", "width", "thick")), sizes)
    issue = Issue(plan, option, "1", None)
    (block,) = part_labels(issue).blocks
    for part, label in zip(option.parts, block["labels"], strict=False):
        texts = label["size"].removesuffix(f" {plan.unit}").split(" x ")
        yield from said(texts, (part.length, part.width, part.thickness))
    listed = [b for b in cut_list(issue).blocks if b["kind"] == "table" and " thick" in b["title"]]
    shown = [row for b in listed for row in b["rows"]]
    counted = sorted((row[2], row[3]) for row in shown for _ in range(int(row[1])))
    sizes_of = sorted((p.length, p.width) for p in option.parts)
    texts_of = sorted(
        (format_length(a, plan.unit), format_length(b, plan.unit)) for a, b in sizes_of
    )
    assert counted == texts_of


def sheets(plan: Plan, option: Option) -> Iterator[Said]:
    """Where pieces lie and how large they are, and what each cut is set to."""
    titled = sheet_tables(option.sheets, plan.unit, 1000, option.settings)
    tables = [one.table for one in titled if str(one.table.columns[0].header) == "piece"]
    for sheet, table in zip(option.sheets, tables, strict=True):
        rows = zip(*(list(map(str, column.cells)) for column in table.columns), strict=True)
        for piece, (_, *cells) in zip(sheet.pieces, rows, strict=True):
            yield from said(cells[:4], (piece.x, piece.y, piece.length, piece.width))
    cut = [column for one in titled for column in one.table.columns if column.header == SET]
    made = [cut for sheet in option.sheets for cut in sheet.cuts]
    for text, one in zip((str(cell) for column in cut for cell in column.cells), made, strict=True):
        yield text.split()[-1], one.setting
    if option.settings:
        (column,) = (c for c in titled_settings(titled).columns if c.header == "set to")
        for cell, setting in zip(column.cells, option.settings, strict=True):
            yield str(cell).split(",")[0].split()[-1], setting.setting


def titled_settings(titled: list[Titled]) -> Table:
    (table,) = (one.table for one in titled if one.title.startswith("Settings"))
    return table


def uprights(plan: Plan, option: Option) -> Iterator[Said]:
    """Faces of uprights on top and bottom, the last figure the length of these boards."""
    blocks = [
        block
        for block in marking_out(Issue(plan, option, "1", None)).blocks
        if block["kind"] == "table" and block["title"].startswith("Top and bottom")
    ]
    several = [case for case in option.cases if len(case.bays) > 1]
    for case, block in zip(several, blocks, strict=True):
        thick = {p.name: p.thickness for p in option.parts if p.case == case.name}
        (top,) = (p for p in option.parts if p.case == case.name and p.name == "top")
        at, rows = plan.job.case(case.name).dado_depth, list(block["rows"])
        for row, bay in zip(rows, case.bays, strict=True):
            at += bay.inside.width
            if bay is case.bays[-1]:
                end = at + plan.job.case(case.name).dado_depth
                assert end == top.length
                yield row[1], end
                continue
            yield from said(row[1:4], (at, at + thick["upright"], at + thick["upright"] // 2))
            at += thick["upright"]


def hinges(plan: Plan, option: Option) -> Iterator[Said]:
    """Each leaf from the bottom end of the side: what is above it is told from the top."""
    issue = Issue(plan, option, "1", None)
    blocks = [
        block
        for block in marking_out(issue).blocks
        if block["kind"] == "table" and block["title"].startswith("Hinge marks")
    ]
    hung = [(c, s) for c in option.cases if (s := issue.hanging.of(c.name)).hinge is not None]
    for (case, sheet), block in zip(hung, blocks, strict=True):
        assert sheet.hinge is not None
        for row, one in zip(block["rows"], reversed(sheet.hinges), strict=True):
            low = case.outside.height - one.from_top - sheet.hinge.leaf
            yield from said(row[1:4], (low, low + sheet.hinge.leaf, one.from_head))


def files(plan: Plan, option: Option) -> Iterator[Said]:
    """Columns of CSV and workbook: the decimal is the tick, the text beside it says it."""
    unit = plan.unit
    made = frames(plan)
    ticks = [
        length
        for case in option.cases
        for bay in case.bays
        for _, low, high, above in rows_of(option, case, bay)
        if _ != "toe"
        for length in (low, high, above)
    ]
    of_option = made["positions"][made["positions"]["option"] == option.name]
    cells = [
        (row[f"{name}_{unit}"], row[name])
        for _, row in of_option.iterrows()
        for name in ("underside", "top_face", "opening_above")
    ]
    for (number, text), length in zip(cells, ticks, strict=True):
        assert (number is None) == (text is None) == (length is None)
        if length is not None:
            assert round(number * PER_UNIT[unit]) == length
            yield text, length
    for frame in made.values():
        for name in frame.columns:
            if f"{name}_{unit}" in frame.columns:
                yield from pairs(frame[f"{name}_{unit}"], frame[name], unit)


def pairs(numbers: Any, texts: Any, unit: Unit) -> Iterator[Said]:
    for number, text in zip(numbers, texts, strict=True):
        if isinstance(number, Decimal):
            yield text, round(number * PER_UNIT[unit])


CHECKS: tuple[Callable[[Plan, Option], Iterator[Said]], ...] = (
    dimensions,
    runs_that_close,
    side_runs,
    marking,
    parts,
    sheets,
    uprights,
    hinges,
    files,
)


def wrong(plan: Plan, option: Option) -> list[str]:
    return [
        f"{check.__name__}: {what}"
        for check in CHECKS
        for text, ticks in check(plan, option)
        if (what := fault(text, ticks, plan.unit))
    ]


def inexact_marks(plan: Plan, option: Option) -> list[str]:
    """Marks of shelves on a step that can be printed, which are not printed to the tick."""
    steps = {
        case.name: (case.first_hole, case.pin_pitch)
        if case.fixing == "pins"
        else (0, plan.job.head.marking_step)
        for case in plan.job.cases
    }
    found = []
    for group, titled in zip(alike_bays(option), marking_tables(option, plan.unit), strict=True):
        if any(step % STEP[plan.unit] for step in steps[group.case.name]):
            continue
        board, under, *_ = titled.table.columns
        cells = dict(zip(map(str, board.cells), map(str, under.cells), strict=True))
        for shelf in group.first.shelves:
            text = cells[f"shelf {shelf.index}"]
            found.append(fault(text, shelf.underside, plan.unit, exact=True))
    return [what for what in found if what]
