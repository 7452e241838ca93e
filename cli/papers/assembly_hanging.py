"""The assembly sheet, from cut parts to the finished case, and the hanging sheet, the work on site.

Both list the steps of the work as a shop reads them: numbered, with boxes, tools, cautions and
waits, and this job's numbers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cli.drawings.fonts import printable
from cli.papers.issue import Issue
from cli.papers.paper_blocks import (
    Block,
    Paper,
    boxed,
    checks,
    grid,
    heading,
    line,
    of_table,
    points,
)
from cli.screen.step_tables import minutes_text
from cli.screen.strength_tables import figures_table, headline, hinges_table
from cli.screen.wording import NONE, count, listed, word
from solver.job.labour_table import TASKS
from solver.plan.hanging import HangSheet
from solver.plan.work import Step
from solver.strength.fasteners import screw_size
from solver.units import Unit, format_length, with_unit

DELIVERY = "delivery"
"""Key of the step with which the work on site begins."""
MAKING = ("making", "finish")


def assembly(issue: Issue) -> Paper:
    """Return the assembly sheet."""
    blocks: list[Block] = [heading("Fastenings")]
    for sheet in issue.hanging.cases:
        blocks += _fastenings(sheet, issue.unit)
    blocks.append(heading("In this order"))
    blocks += step_blocks(issue, bench_steps(issue))
    return Paper("assembly", "Assembly sheet", "from cut parts to the finished case", tuple(blocks))


def hanging(issue: Issue) -> Paper:
    """Return the hanging sheet; of a case that is not hung, how it is fixed."""
    hung = any(sheet.kind == "hung" for sheet in issue.hanging.cases)
    blocks: list[Block] = []
    for sheet in issue.hanging.cases:
        blocks += _case(issue, sheet)
    blocks.append(heading("In this order"))
    steps = site_steps(issue)
    blocks += step_blocks(issue, steps)
    in_steps = {one.text for step in steps for one in step.cautions}
    more = [one.text for one in issue.hanging.cautions if one.text not in in_steps]
    blocks += [heading("Cautions besides"), *points([*more, issue.hanging.defer])]
    title, use = "Hanging sheet", "from the van to the hung case"
    if not hung:
        title, use = "Fitting sheet", "from the van to the case in its place"
    return Paper("hanging", title, use, tuple(blocks))


def bench_steps(issue: Issue) -> list[Step]:
    """Return the steps between the saw and the van."""
    return [step for step in issue.steps if _is_making(step)]


def _is_making(step: Step) -> bool:
    return step.where == "shop" and any(TASKS[one.task].phase in MAKING for one in step.works)


def site_steps(issue: Issue) -> list[Step]:
    """Return the steps on site, delivery first, and what is done after the job."""
    steps = [step for step in issue.steps if step.where == "site"]
    first = next(at for at, step in enumerate(steps) if step.key == DELIVERY)
    return steps[first:]


def step_blocks(issue: Issue, steps: Sequence[Step]) -> list[Block]:
    """Return one block for each step, numbered from 1; a caution is given once."""
    several = len(issue.option.cases) > 1
    names = {step.key: step.what for step in issue.steps}
    told_before: set[str] = set()
    blocks: list[Block] = []
    for number, step in enumerate(steps, start=1):
        case = f"{step.case}: " if several and step.case else ""
        cautions = [one.text for one in step.cautions if one.text not in told_before]
        told_before.update(cautions)
        blocks.append(
            {
                "kind": "step",
                "number": number,
                "title": printable(f"{case}{step.what}"),
                "how": _how(step),
                "waits": [printable(text) for text in _waits(step, names)],
                "does": [printable(text) for text in step.does],
                "tools": ", ".join(step.tools),
                "cautions": [printable(text) for text in cautions],
            }
        )
    return blocks


def _how(step: Step) -> str:
    people = f", {step.people} people" if step.people > 1 else ""
    later = f", {step.later}" if step.later else ""
    return f"about {minutes_text(step.minutes)}{people}{later}"


def _waits(step: Step, names: dict[str, str]) -> list[str]:
    return [
        f"Wait {minutes_text(one.wait)} after: {names[one.step].lower()}"
        + (f" ({one.why})" if one.why else "")
        for one in step.after
        if one.wait
    ]


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
