"""The hanging sheet: what holds the case, what to bring, and the work on site in order."""

from __future__ import annotations

from collections.abc import Iterator

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, boxed, checks, heading, line, of_table, points
from cli.papers.work_steps import site_steps, step_blocks
from cli.tables.hang import figures_table, headline, hinges_table
from cli.tables.words import count
from solver.hanging import HangSheet
from solver.strength.joints import screw_size
from solver.units import with_unit


def hanging(issue: Issue) -> Paper:
    """Return the hanging sheet; of a case that is not hung, how it is fixed."""
    hung = any(sheet.kind == "hung" for sheet in issue.hanging.cases)
    blocks: list[Block] = []
    for sheet in issue.hanging.cases:
        blocks += _case(issue, sheet)
    blocks.append(heading("In this order"))
    steps = site_steps(issue)
    blocks += step_blocks(issue, steps)
    said = {one.text for step in steps for one in step.cautions}
    more = [one.text for one in issue.hanging.cautions if one.text not in said]
    blocks += [heading("Cautions besides"), *points([*more, issue.hanging.defer])]
    title, use = "Hanging sheet", "from the van to the hung case"
    if not hung:
        title, use = "Fitting sheet", "from the van to the case in its place"
    return Paper("hanging", title, use, tuple(blocks))


def _case(issue: Issue, sheet: HangSheet) -> Iterator[Block]:
    yield heading(sheet.case)
    yield line(headline(sheet, issue.unit).partition(": ")[2].capitalize() + ".")
    weak = [one for one in sheet.figures if one.ok is False]
    if weak:
        texts = [f"{one.what}: {one.says}" for one in weak]
        yield boxed(line("NOT ENOUGH, before anything is hung:", strong=True), *points(texts))
    yield of_table(figures_table(sheet, issue.unit), title="Figures, each an estimate")
    if sheet.hinges:
        yield of_table(hinges_table(sheet, issue.unit), title="Hinges, to the top of each leaf")
    yield from points(list(_fixing(issue, sheet)))
    if sheet.to_get:
        yield line("To bring", strong=True)
        yield from checks(sheet.to_get)


def _fixing(issue: Issue, sheet: HangSheet) -> Iterator[str]:
    """Say how it is fixed: screws of the hinges, or into studs."""
    unit = issue.unit
    if sheet.hinge is not None:
        one = sheet.hinge
        yield (
            f"{one.screws} screws {screw_size(one.screw, unit)} in all,"
            f" {one.screws_per_leaf} in each leaf, at"
            f" least {with_unit(one.thread, unit)} of thread in solid wood."
        )
    if sheet.wall is not None:
        wall = sheet.wall
        yield (
            f"To the wall: {count(wall.studs, 'stud')} at least, in each"
            f" {count(wall.screws_per_stud, 'screw')} {screw_size(wall.screw, unit)},"
            f" {with_unit(wall.thread, unit)} of thread in the stud,"
            f" {with_unit(wall.from_top, unit)} below the top of the case."
        )
