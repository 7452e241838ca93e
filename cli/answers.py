"""What this program writes as JSON, read again: plans, cut plans, batches, fronts, what-ifs."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.edition_words import Answer, age, made_by, what_to_do
from solver.batch import Batch
from solver.errors import InputError
from solver.plan import CutPlan, Plan
from solver.tradeoff import TradeOff
from solver.whatif import WhatIf

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
    from pydantic import ValidationError

    from solver.errors import InputError
    from solver.intake.load import read_json

    text = _text(file)
    data = _data(text, named(file))
    kind = data.get("schema")
    model = MODELS.get(kind) if isinstance(kind, str) else None
    if model is None:
        allowed = ", ".join(f'"{one}"' for one in MODELS)
        msg = f'"schema" is {kind!r}; allowed: {allowed}; give a file made by --json'
        raise InputError(msg, named(file))
    try:
        return read_json(model, text)
    except ValidationError as error:
        raise InputError(_not_the_form(data, error), named(file)) from None


def read_plan(file: str) -> Plan:
    """Read a plan of a job; InputError says what the file is instead."""
    plan = read_answer(file)
    if not isinstance(plan, Plan):
        msg = (
            f"this is {kind_of(plan)}, not the plan of one job; give one as written by casewright"
            " plan --json, or by tradeoff --choose or batch --out"
        )
        raise InputError(msg, named(file))
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


def named(file: str) -> str:
    """Return what a file is called in messages."""
    return "standard input" if file == "-" else file


def _text(file: str) -> str:
    try:
        data = sys.stdin.buffer.read() if file == "-" else Path(file).read_bytes()
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"byte {error.start} is not UTF-8; give a file made by --json"
        raise InputError(msg, named(file)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"cannot be read: {reason}"
        raise InputError(msg, named(file)) from None


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
