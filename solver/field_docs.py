"""What is written under the fields of a data model, for its JSON Schema alone.

Reading it means parsing the model's source, which takes as long as loading everything else of
it. So it is done when a schema is asked for, not each time the program starts.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from textwrap import dedent
from typing import Any

from pydantic import BaseModel


def add_descriptions(model: type[BaseModel], schema: dict[str, Any]) -> None:
    """Describe each property of a model's schema, in place, by the text under its field."""
    properties, texts = schema.get("properties", {}), field_texts(model)
    for name, field in model.model_fields.items():
        names = (field.serialization_alias, field.validation_alias, name)
        key = next((one for one in names if one in properties), None)
        if key is not None and name in texts and field.description is None:
            properties[key]["description"] = texts[name]


def field_texts(model: type[BaseModel]) -> dict[str, str]:
    """Return the text under each field that has one, inherited fields included."""
    texts: dict[str, str] = {}
    for base in reversed(model.__mro__):
        if base is not BaseModel and issubclass(base, BaseModel):
            texts |= dict(_of_source(dedent(inspect.getsource(base))))
    return texts


def _of_source(source: str) -> Iterator[tuple[str, str]]:
    """Yield the fields of a class with the text that follows on each."""
    body = ast.parse(source).body[0]
    assert isinstance(body, ast.ClassDef)
    for field, text in zip(body.body, body.body[1:], strict=False):
        match field, text:
            case ast.AnnAssign(target=ast.Name(id=name)), ast.Expr(
                value=ast.Constant(value=str() as words)
            ):
                yield name, inspect.cleandoc(words)
