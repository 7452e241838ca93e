"""Steps of the work as a shop reads them: numbered, with boxes, tools, cautions and waits."""

from __future__ import annotations

from collections.abc import Sequence

from cli.drawings.fonts import printable
from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block
from cli.tables.steps import minutes_text
from solver.labour_table import TASKS
from solver.work import Step

DELIVERY = "delivery"
"""Key of the step with which the work on site begins."""
MAKING = ("making", "finish")


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
    said: set[str] = set()
    blocks: list[Block] = []
    for number, step in enumerate(steps, start=1):
        case = f"{step.case}: " if several and step.case else ""
        cautions = [one.text for one in step.cautions if one.text not in said]
        said.update(cautions)
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
