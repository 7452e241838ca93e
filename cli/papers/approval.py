"""Drawing for approval: sizes, the drawings at their scales, and the client's word on them."""

from __future__ import annotations

from collections.abc import Iterator

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, boxed, checks, facts, fields, grid, heading, line
from cli.papers.paper_drawings import TO_APPROVE, whole_pages
from cli.screen.wording import alike_bays, triple
from solver.job.doorway import Doorway
from solver.plan.built import CasePlan
from solver.units import Unit, format_length, with_unit


def approval(issue: Issue) -> Paper:
    """Return the drawing for approval: a page of sizes and signatures, then the drawings."""
    drawn = whole_pages(issue, "approval", TO_APPROVE)
    blocks: list[Block] = []
    for planned in issue.option.cases:
        blocks += [heading(planned.name), *_sizes(issue, planned)]
    blocks.append(_word(len(drawn)))
    blocks += [block for block, _ in drawn]
    return Paper(
        "approval",
        "Drawing for approval",
        "the drawings, for the client to approve",
        tuple(blocks),
        shop=False,
        pictures=tuple(file for _, file in drawn),
    )


def _sizes(issue: Issue, planned: CasePlan) -> Iterator[Block]:
    unit, size = issue.unit, planned.outside
    case = issue.job.case(planned.name)
    outside = triple((size.width, size.height, size.depth), unit)
    rows = [("Outside, width x height x depth", f"{outside} {unit}")]
    if planned.above_floor:
        rows.append(("Bottom end above the floor", with_unit(planned.above_floor, unit)))
    rows.append(("Material", case.material if case.back == "none" else
                 f"{case.material}, back {case.back}"))  # fmt: skip
    doorway = next((one for one in issue.job.doorways if one.name == case.doorway), None)
    if doorway is not None:
        rows += _place(planned, doorway, unit)
    yield facts(rows)
    for group in alike_bays(issue.option):
        if group.case.name == planned.name:
            columns = ("opening, lowest first", f"clear height, {unit}", f"clear width, {unit}")
            widths = dict.fromkeys(format_length(bay.inside.width, unit) for bay in group.bays)
            yield grid(
                columns,
                [
                    (str(one.index), format_length(one.height, unit), " / ".join(widths))
                    for one in group.first.openings
                ],
                right=columns[1:],
                title=group.label(issue.option),
            )


def _place(planned: CasePlan, doorway: Doorway, unit: Unit) -> list[tuple[str, str]]:
    """Say what the place measures and how the case meets it."""
    wide = with_unit(doorway.clear_width, unit)
    high = with_unit(doorway.clear_height, unit)
    rows = [(f"{doorway.name}, least width and height", f"{wide} x {high}")]
    if planned.kind == "built-in":
        free = doorway.clear_width - planned.outside.width
        rows.append(("Left and right together, to be scribed", with_unit(free, unit)))
    if planned.kind == "hung":
        side = f", hinged {doorway.hinge_side}" if doorway.hinge_side else ""
        rows.append(("Swings", f"{doorway.swing or 'out'}{side}"))
    return rows


def _word(drawings: int) -> Block:
    pages = f"the {drawings} drawings" if drawings > 1 else "the drawing"
    return boxed(
        line(f"Sizes are to finished faces. I have looked at these sizes and {pages} that follow:"),
        *checks(
            [
                "approved as drawn",
                "approved with the changes written on them",
                "to be changed and shown again",
            ]
        ),
        fields(("client", "date")),
    )
