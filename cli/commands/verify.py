"""`casewright verify`: check a plan or a cut plan from its file alone."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from pydantic import ValidationError

    from solver.batch import Batch
    from solver.checking.findings import Finding
    from solver.plan import CutPlan, Plan

PLAN, CUT, BATCH = "casewright/plan/1", "casewright/cut/1", "casewright/batch/1"
SHOWN_MOST = 20
"""Faults of the form shown at once; there may be one for every length of a file."""


def verify(
    file: Annotated[
        str,
        typer.Argument(
            metavar="FILE", help="A plan or cut plan as written by --json; - for standard input."
        ),
    ],
) -> None:
    """Check a plan from its file alone: sizes, places, parts, cuts, counts and costs.

    Every rule is worked out again from the job inside the file. Exit code 1 where
    anything is wrong, with all findings.

    Example: casewright verify plan.json
    """
    from solver.errors import CannotBeDoneError

    plan = read_plan(file)
    findings = _findings(plan)
    if findings:
        raise CannotBeDoneError(_listed(file, findings))
    typer.echo(f"{_named(file)}: good. {_checked(plan)}")
    typer.echo("Not checked: that nothing better exists, where the file says it is proven.")


def _findings(plan: Plan | CutPlan | Batch) -> tuple[Finding, ...]:
    from solver.batch import Batch
    from solver.checking.batch import check_batch
    from solver.checking.check import check, check_cut
    from solver.plan import Plan

    if isinstance(plan, Batch):
        return check_batch(plan)
    return check(plan) if isinstance(plan, Plan) else check_cut(plan)


def read_plan(file: str) -> Plan | CutPlan | Batch:
    """Read a plan, cut plan or batch, by its "schema"; InputError says where it is not one."""
    from pydantic import ValidationError

    from solver.batch import Batch
    from solver.errors import InputError
    from solver.plan import CutPlan, Plan

    models: dict[str, type[Plan | CutPlan | Batch]] = {PLAN: Plan, CUT: CutPlan, BATCH: Batch}
    text = _text(file)
    kind = _schema(text, _named(file))
    if kind not in models:
        allowed = " and ".join(f'"{one}"' for one in models)
        msg = f'"schema" is {kind!r}; allowed: {allowed}; give a file made by --json'
        raise InputError(msg, _named(file))
    try:
        return models[kind].model_validate_json(text)
    except ValidationError as error:
        raise InputError(_faults(error), _named(file)) from None


def _named(file: str) -> str:
    return "standard input" if file == "-" else file


def _text(file: str) -> str:
    import sys
    from pathlib import Path

    from solver.errors import InputError

    try:
        data = sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"byte {error.start} is not UTF-8; give a file made by --json"
        raise InputError(msg, _named(file)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"cannot be read: {reason}"
        raise InputError(msg, _named(file)) from None


def _schema(text: str, where: str) -> Any:
    import json

    from solver.errors import InputError

    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        msg = f"this is not JSON: {error.msg}"
        raise InputError(msg, f"{where}, line {error.lineno}, column {error.colno}") from None
    except (RecursionError, ValueError) as error:
        msg = f"this is not JSON of a plan: {error}"
        raise InputError(msg, where) from None
    return data.get("schema") if isinstance(data, dict) else None


def _faults(error: ValidationError) -> str:
    """All that is wrong with the form, each with its key."""
    faults = [
        f"  {'.'.join(map(str, fault['loc']))}: {fault['msg']}"
        for fault in error.errors(include_url=False)
    ]
    more = len(faults) - SHOWN_MOST
    lines = faults[:SHOWN_MOST] + ([f"  and {more} more"] if more > 0 else [])
    return "the file has not the form of a plan (casewright schema prints it):\n" + "\n".join(lines)


def _listed(file: str, findings: Iterable[Finding]) -> str:
    lines = [f"  {finding}" for finding in findings]
    word = "finding" if len(lines) == 1 else "findings"
    return f"{_named(file)} is not a good plan: {len(lines)} {word}\n" + "\n".join(lines)


def _checked(plan: Plan | CutPlan | Batch) -> str:
    """What was looked at, in numbers."""
    from solver.batch import Batch
    from solver.plan import Plan

    if isinstance(plan, Batch):
        counts = _some(("job", plan.jobs), ("part", plan.parts), ("sheet", plan.sheets))
        return "Checked from itself, each job's plan as well: " + ", ".join(counts) + "."
    if isinstance(plan, Plan):
        return "Checked from the job inside it: " + ", ".join(_plan_counts(plan)) + "."
    sheets, sticks = plan.sheets or (), plan.mouldings or ()
    counts = _some(("part", plan.parts), ("sheet", sheets), ("stick", sticks))
    return "Checked from itself: " + ", ".join(counts) + "."


def _plan_counts(plan: Plan) -> list[str]:
    options = plan.options
    bays = [bay for option in options for case in option.cases for bay in case.bays]
    openings = [opening for bay in bays for opening in bay.openings]
    return _some(
        ("option", options),
        ("case", [case for option in options for case in option.cases]),
        ("bay", bays),
        ("opening", openings),
        ("thing", [thing for opening in openings for thing in opening.items]),
        ("part", [part for option in options for part in option.parts]),
        ("sheet", [sheet for option in options for sheet in option.sheets]),
        ("stick", [stick for option in options for stick in option.mouldings]),
    )


def _some(*counted: tuple[str, Any]) -> list[str]:
    return [f"{len(n)} {word}{'' if len(n) == 1 else 's'}" for word, n in counted if n]
