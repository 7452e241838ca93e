"""`casewright verify`: check what this program wrote, from its file alone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Any

import typer

from cli.files.saved_answers import (
    Answer,
    age_of_answer,
    answer_made_by,
    name_of_file,
    read_answer_and_notes,
)
from solver.checking.batch import check_batch
from solver.checking.check import check, check_cut
from solver.checking.findings import Finding
from solver.checking.front import check_front
from solver.errors import CannotBeDoneError
from solver.plan.joint_purchase import Batch
from solver.plan.plan import CutPlan, Plan
from solver.plan.price_front import TradeOff


def verify(
    file: Annotated[
        str,
        typer.Argument(
            metavar="FILE",
            help="A plan, cut plan, batch, trade-off front or what-if answer as written by"
            " --json; - for standard input.",
        ),
    ],
) -> None:
    """Check a plan from its file alone: sizes, places, parts, cuts, counts and costs.

    Every rule is worked out again from the job inside the file. Exit code 1 where
    anything is wrong, with all findings.

    Example: casewright verify plan.json
    """
    answer, notes = read_answer_and_notes(file)
    for note in notes:
        typer.echo(f"{name_of_file(file)}: {note}", err=True)
    findings = _findings(answer)
    if findings:
        raise CannotBeDoneError(_listed(name_of_file(file), answer, findings))
    typer.echo(f"{name_of_file(file)}: good. {_checked(answer)}")
    typer.echo("Not checked: that nothing better exists, where the file says it is proven.")


def _findings(answer: Answer) -> tuple[Finding, ...]:
    match answer:
        case Plan():
            return check(answer)
        case CutPlan():
            return check_cut(answer)
        case Batch():
            return check_batch(answer)
        case TradeOff():
            return check_front(answer)
    return () if answer.plan is None else check(answer.plan)


def _listed(name: str, answer: Answer, findings: Iterable[Finding]) -> str:
    lines = [f"  {finding}" for finding in findings]
    word = "finding" if len(lines) == 1 else "findings"
    head = f"{name} is not a good plan: {len(lines)} {word}"
    if age_of_answer(answer) != "same":
        lines.append(f"It was {answer_made_by(answer)}, so the rules may differ, not the work.")
    return "\n".join([head, *lines])


def _checked(answer: Answer) -> str:
    """What was looked at, in numbers."""
    match answer:
        case Batch():
            counts = _counts(("job", answer.jobs), ("part", answer.parts), ("sheet", answer.sheets))
            return "Checked from itself, each job's plan as well: " + ", ".join(counts) + "."
        case Plan():
            return "Checked from the job inside it: " + ", ".join(_plan_counts(answer)) + "."
        case CutPlan():
            sheets, sticks = answer.sheets or (), answer.mouldings or ()
            counts = _counts(("part", answer.parts), ("sheet", sheets), ("stick", sticks))
            return "Checked from itself: " + ", ".join(counts) + "."
        case TradeOff():
            counts = _counts(("option", answer.points)) or ["no option"]
            return "Checked from itself, each option as a plan: " + ", ".join(counts) + "."
    if answer.plan is None:
        return "There is no plan in it to be checked."
    return "The plan behind it: " + ", ".join(_plan_counts(answer.plan)) + "."


def _plan_counts(plan: Plan) -> list[str]:
    options = plan.options
    bays = [bay for option in options for case in option.cases for bay in case.bays]
    openings = [opening for bay in bays for opening in bay.openings]
    return _counts(
        ("option", options),
        ("case", [case for option in options for case in option.cases]),
        ("bay", bays),
        ("opening", openings),
        ("thing", [thing for opening in openings for thing in opening.items]),
        ("part", [part for option in options for part in option.parts]),
        ("sheet", [sheet for option in options for sheet in option.sheets]),
        ("stick", [stick for option in options for stick in option.mouldings]),
    )


def _counts(*counted: tuple[str, Any]) -> list[str]:
    return [f"{len(n)} {word}{'' if len(n) == 1 else 's'}" for word, n in counted if n]
