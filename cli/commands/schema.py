"""`casewright schema`: the JSON Schema of jobs, plans, cut plans, batches and trade-offs."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

import typer
from pydantic import BaseModel

from solver.job.defaults import DEFAULTS
from solver.job.job import Job
from solver.plan.joint_purchase import Batch
from solver.plan.plan import CutPlan, Plan
from solver.plan.price_front import TradeOff

Kind = Literal["plan", "cut", "job", "batch", "tradeoff"]
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema(
    kind: Annotated[
        Kind, typer.Argument(metavar="KIND", help="plan, cut, job, batch or tradeoff.")
    ],
) -> None:
    """Print the JSON Schema of a plan, a cut plan, a job file, a batch, or a trade-off front.

    Example: casewright schema plan > plan.schema.json
    """
    typer.echo(schema_text(kind), nl=False)


def schema_text(kind: Kind) -> str:
    """Return the JSON Schema of a kind of file as text; the kept copies are in cli/schemas."""
    if kind == "job":
        data = _job_file(Job.model_json_schema(by_alias=True, mode="validation"))
    else:
        models: dict[str, type[BaseModel]] = {
            "plan": Plan,
            "cut": CutPlan,
            "batch": Batch,
            "tradeoff": TradeOff,
        }
        data = models[kind].model_json_schema(by_alias=True, mode="serialization")
    complete = {"$schema": DIALECT, **_without_ticks(data)}
    return json.dumps(complete, indent=1, ensure_ascii=False) + "\n"


def _job_file(data: dict[str, Any]) -> dict[str, Any]:
    """What a job file may leave out is not required: the defaults of the program fill it in."""
    parts = data["$defs"]
    tables = {"job": "Head", "case": "Case", "look": "Look", "shop": "Shop", "site": "Site"}
    tables |= {
        "doorway": "Doorway",
        "case.trim": "TrimOrder",
        "case.light": "Light",
        "finish": "Finish",
    }
    for table, model in tables.items():
        filled = {default.key for default in DEFAULTS if default.table == table}
        if table == "case":
            filled |= {"material", "back", "width", "height"}
        parts[model]["required"] = [
            key for key in parts[model].get("required", ()) if key not in filled
        ]
    data["required"] = [key for key in data["required"] if key not in ("look", "shop", "sheet")]
    stages = parts["Shop"]["properties"]["stages"]
    stages["enum"] = [*stages["enum"], 2, 3]  # a number is read as well
    _or(parts["SheetStock"], "thickness", {"$ref": "#/$defs/ThicknessBand"})
    _or(parts["Look"], "spare", {"type": "array", "items": {"type": "string"}})
    return data


def _or(table: dict[str, Any], key: str, other: dict[str, Any]) -> None:
    """Allow a key of a table to be something else instead."""
    given = table["properties"][key]
    words = {k: given.pop(k) for k in ("title", "description") if k in given}
    table["properties"][key] = {"anyOf": [given, other], **words}


def _without_ticks(node: Any) -> Any:
    """Take the unit that lengths have inside the program out of descriptions: files have none."""
    if isinstance(node, list):
        return [_without_ticks(part) for part in node]
    if not isinstance(node, dict):
        return node
    cleaned = {key: _without_ticks(value) for key, value in node.items()}
    text = cleaned.get("description")
    if isinstance(text, str):
        plain = " ".join(text.replace("[tick, tick]", "").replace("[tick]", "").split())
        cleaned["description"] = plain.replace(" ;", ";").replace(" .", ".").replace(" ,", ",")
        if not plain:
            del cleaned["description"]
    return cleaned
