"""The assembly sheet: from cut parts to the finished case, with this job's numbers."""

from __future__ import annotations

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, grid, heading, line
from cli.papers.work_steps import bench_steps, step_blocks
from cli.tables.words import NONE, listed, word
from solver.hanging import HangSheet
from solver.units import Unit, format_length, with_unit


def assembly(issue: Issue) -> Paper:
    """Return the assembly sheet."""
    blocks: list[Block] = [heading("Fastenings")]
    for sheet in issue.hanging.cases:
        blocks += _fastenings(sheet, issue.unit)
    blocks.append(heading("In this order"))
    blocks += step_blocks(issue, bench_steps(issue))
    return Paper("assembly", "Assembly sheet", "from cut parts to the finished case", tuple(blocks))


def _fastenings(sheet: HangSheet, unit: Unit) -> list[Block]:
    """Return how many fasteners go where, and how the back is fixed."""
    blocks: list[Block] = []
    columns = ("board", "ends", "each end", "fastener", f"from front edge, {unit}", "also")
    rows = [
        (
            word(joint.part, unit),
            str(joint.ends),
            str(joint.fasteners) if joint.fasteners else NONE,
            joint.fastener if joint.fasteners else NONE,
            ", ".join(format_length(at, unit) for at in joint.from_front),
            joint.also,
        )
        for joint in sheet.joints
    ]
    if rows:
        blocks.append(
            grid(columns, rows, right=("ends", "each end"), wide=("also",), title=sheet.case)
        )
    back = sheet.back
    if back is not None:
        total = back.around + back.across
        where = [f"{back.around} round the edges"]
        where += [f"{back.across} on the lines of shelves and uprights"] if back.across else []
        blocks.append(
            line(
                f"Back: glue, and a fastener at most every {with_unit(back.spacing, unit)}:"
                f" {listed(where)}, {total} in all. Lines on the back: marking-out sheet."
            )
        )
    return blocks
