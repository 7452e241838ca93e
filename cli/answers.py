"""What this program writes as JSON, read again: plans, cut plans, batches, fronts, what-ifs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pydantic import ValidationError

    from cli.edition_words import Answer
    from solver.plan import Plan

SHOWN_MOST = 20
"""Faults of the form shown at once; there may be one for every length of a file."""


KINDS = tuple(f"casewright/{kind}/1" for kind in ("plan", "cut", "batch", "tradeoff", "whatif"))


def read_answer(file: str) -> Answer:
    """Read a file by its "schema"; InputError says where it is none of ours."""
    from pydantic import ValidationError

    from solver.errors import InputError
    from solver.intake.load import read_json

    text = _text(file)
    data = _data(text, named(file))
    kind = data.get("schema")
    model = _model(kind)
    if model is None:
        allowed = ", ".join(f'"{one}"' for one in KINDS)
        msg = f'"schema" is {kind!r}; allowed: {allowed}; give a file made by --json'
        raise InputError(msg, named(file))
    try:
        return read_json(model, text)
    except ValidationError as error:
        raise InputError(_not_the_form(data, error), named(file)) from None


def _model(kind: Any) -> type[Answer] | None:
    """The model of a kind of file; only that one is loaded, the others would take longer."""
    if kind not in KINDS:
        return None
    if kind == "casewright/batch/1":
        from solver.batch import Batch

        return Batch
    if kind == "casewright/tradeoff/1":
        from solver.tradeoff import TradeOff

        return TradeOff
    if kind == "casewright/whatif/1":
        from solver.whatif import WhatIf

        return WhatIf
    from solver.plan import CutPlan, Plan

    return Plan if kind == "casewright/plan/1" else CutPlan


def read_plan(file: str) -> Plan:
    """Read a plan of a job; InputError says what the file is instead."""
    from solver.errors import InputError
    from solver.plan import Plan

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
    import sys
    from pathlib import Path

    from solver.errors import InputError

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
    return data if isinstance(data, dict) else {}


def _not_the_form(data: dict[str, Any], error: ValidationError) -> str:
    """All that is wrong with the form, each with its key; and whether age is behind it."""
    from cli.edition_words import age, made_by, what_to_do

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
