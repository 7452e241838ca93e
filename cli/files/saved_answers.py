"""What this program writes as JSON, read again: plans, cut plans, batches, fronts, what-ifs.

A file of another version is told by its edition: what differs, and what to do. The last plan of a
job is kept beside the job file, and read from there to start from.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from shlex import quote
from typing import Any, TypeAlias

from pydantic import ValidationError

from cli.files.hold_option import hold_text
from cli.files.output import write_text
from solver.checking.check import check
from solver.errors import InputError
from solver.job.gone_keys import gone_notes
from solver.outcome import program_version
from solver.plan.joint_purchase import Batch
from solver.plan.plan import CutPlan, Plan
from solver.plan.price_front import TradeOff
from solver.plan.what_if_answer import WhatIf
from solver.rules_version import RULES, UNNUMBERED, Age, age_of

SHOWN_MOST = 20
"""Faults of the form shown at once; there may be one for every length of a file."""


MODELS: dict[str, type[Answer]] = {
    "casewright/plan/1": Plan,
    "casewright/cut/1": CutPlan,
    "casewright/batch/1": Batch,
    "casewright/tradeoff/1": TradeOff,
    "casewright/whatif/1": WhatIf,
}
"""What a file is by its "schema"."""


def read_answer(file: str) -> Answer:
    """Read a file by its "schema"; InputError says where it is none of ours."""
    return read_answer_and_notes(file)[0]


def read_answer_and_notes(file: str) -> tuple[Answer, tuple[str, ...]]:
    """Read a file as :func:`read_answer` does, with notes on keys of its job that are gone."""
    from pydantic import ValidationError

    from solver.errors import InputError
    from solver.intake.load import read_json

    text = _text(file)
    data = _data(text, name_of_file(file))
    kind = data.get("schema")
    model = MODELS.get(kind) if isinstance(kind, str) else None
    if model is None:
        allowed = ", ".join(f'"{one}"' for one in MODELS)
        msg = f'"schema" is {kind!r}; allowed: {allowed}; give a file made by --json'
        raise InputError(msg, name_of_file(file))
    try:
        return read_json(model, text), _gone_in(data)
    except ValidationError as error:
        raise InputError(_not_the_form(data, error), name_of_file(file)) from None


def _gone_in(data: dict[str, Any]) -> tuple[str, ...]:
    """Notes on the keys that are gone of the job of a file, or of that of the plan in it."""
    jobs = [one.get("job") for one in (data, data.get("plan")) if isinstance(one, dict)]
    notes = (note for job in jobs if isinstance(job, dict) for note in gone_notes(job))
    return tuple(dict.fromkeys(notes))


def read_plan(file: str) -> Plan:
    """Read a plan of a job; InputError says what the file is instead."""
    plan = read_answer(file)
    if not isinstance(plan, Plan):
        msg = (
            f"this is {kind_of(plan)}, not the plan of one job; give one as written by casewright"
            " plan --json, or by tradeoff --choose or batch --out"
        )
        raise InputError(msg, name_of_file(file))
    return plan


def kind_of(answer: Answer) -> str:
    """Say what a file is."""
    words = {
        "Plan": "a plan",
        "CutPlan": "a cut plan",
        "Batch": "a batch",
        "TradeOff": "a trade-off front",
        "WhatIf": "the answer to a what-if question",
    }
    return words[type(answer).__name__]


def name_of_file(file: str) -> str:
    """Return what a file is called in messages."""
    return "standard input" if file == "-" else file


def _text(file: str) -> str:
    try:
        data = sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"byte {error.start} is not UTF-8; give a file made by --json"
        raise InputError(msg, name_of_file(file)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"cannot be read: {reason}"
        raise InputError(msg, name_of_file(file)) from None


def _data(text: str, where: str) -> dict[str, Any]:
    """The keys of a file; none where it is a list or a word."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        msg = f"this is not JSON: {error.msg}"
        raise InputError(msg, f"{where}, line {error.lineno}, column {error.colno}") from None
    except (RecursionError, ValueError) as error:
        msg = f"this is not JSON of a plan: {error}"
        raise InputError(msg, where) from None
    return data if isinstance(data, dict) else {}


def _not_the_form(data: dict[str, Any], error: ValidationError) -> str:
    """All that is wrong with the form, each with its key; and whether age is behind it."""
    faults = [
        f"  {'.'.join(map(str, fault['loc']))}: {fault['msg']}"
        for fault in error.errors(include_url=False)
    ]
    more = len(faults) - SHOWN_MOST
    lines = faults[:SHOWN_MOST] + ([f"  and {more} more"] if more > 0 else [])
    form = "the file has not the form of a plan (casewright schema prints it)"
    if age(data) != "same":
        form = f"this file was {made_by(data)}, and {form}. {what_to_do(data)}"
    return "\n".join([f"{form.rstrip('.')}:", *lines])


Answer: TypeAlias = Plan | CutPlan | Batch | TradeOff | WhatIf
"""What this program writes as JSON and reads again."""

STAYS = "What the job file holds stays, and so do signed revisions."


def age(data: dict[str, Any]) -> Age:
    """Say how old a file is, from its keys "version" and "rules" as far as they are there."""
    now = program_version()
    return age_of(str(data.get("version") or now), _rules(data), now)


def age_of_answer(answer: Answer) -> Age:
    """Say how old an answer is that could be read."""
    return age(_maker_of(answer))


def made_by(data: dict[str, Any]) -> str:
    """Say what made a file and what reads it, both with their numbers."""
    version = f"Casewright {data['version']}, rules {_rules(data)}"
    version = version if data.get("version") else f"rules {_rules(data)}"
    ours = f"this is Casewright {program_version()}, rules {RULES}"
    return (
        f"made by {'an' if age(data) == 'older' else 'a'} {age(data)} version ({version}; {ours})"
    )


def answer_made_by(answer: Answer) -> str:
    """Say what made an answer that could be read."""
    return made_by(_maker_of(answer))


def what_to_do(data: dict[str, Any], job: str = "JOB") -> str:
    """Say what to do with a file of another version that cannot be used as it is."""
    if age(data) == "newer":
        return "Read it with that version, or plan the job again with this one."
    return f"Plan the job again: casewright plan {job}. {STAYS}"


def not_a_good_plan(plan: Plan, first: str, job: str) -> str:
    """Say why a plan cannot be started from: `first` finding, and whether age may be behind it.

    `job` is the job file to be planned again, as far as it is known.
    """
    data = _maker_of(plan)
    if age(data) == "same":
        return f"this is not a good plan ({first}); casewright verify shows all of it"
    return (
        f"this plan was {made_by(data)}, and the rules of today refuse it ({first})."
        f" {what_to_do(data, job or 'JOB')}{_held_in(plan)}"
    )


def _held_in(plan: Plan) -> str:
    """The holds of a plan as options, since those of the command line stand in no file else."""
    words = [f"--hold {quote(hold_text(hold, plan.unit))}" for hold in plan.job.holds]
    return f" Held in it, to be given again: {' '.join(words)}" if words else ""


def _maker_of(answer: Answer) -> dict[str, Any]:
    source: Any = answer.plan if isinstance(answer, WhatIf) else answer
    if source is None:
        return {"rules": RULES}
    return {"version": getattr(source, "version", None), "rules": source.rules}


def _rules(data: dict[str, Any]) -> int:
    rules = data.get("rules", UNNUMBERED)
    return rules if isinstance(rules, int) else UNNUMBERED


ENDING = ".last-plan.json"


def last_path(job: str) -> Path:
    """Where the last plan of a job file is kept: `alcove.toml` has `alcove.last-plan.json`."""
    return Path(job).with_suffix(ENDING)


def keep_plan(job: str, plan: Plan) -> str | None:
    """Keep a plan as the last one of a job file; return why that was not possible, if so.

    A place that cannot be written to does not spoil a plan: it only cannot be started from.
    """
    path = last_path(job)
    try:
        write_text(str(path), plan.to_json(), force=True)
    except InputError as error:
        return f"the plan is not kept as the last one: {error}"
    return None


def read_last(job: str, given: str | None) -> Plan:
    """Read the plan to start from: the one given, or the one kept beside the job file.

    Raises
    ------
    InputError
        Where there is none, or the file is no plan that passes the checker.
    """
    path = given if given is not None else str(last_path(job))
    if given is None and not Path(path).is_file():
        msg = (
            f"there is no last plan of this job ({path}); run casewright plan {job} first, "
            "or name one with --from"
        )
        raise InputError(msg, job)
    plan = read_plan(path)
    findings = check(plan)
    if findings:
        raise InputError(not_a_good_plan(plan, str(findings[0]), job), path)
    return plan


def has_last(job: str) -> bool:
    """Whether a last plan of a job file is kept."""
    return last_path(job).is_file()
