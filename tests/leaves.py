"""All values deep inside a plan, with their dotted paths."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel


def leaves(node: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Yield (path, value) of everything that is no model, list or table."""
    for key, value in _inner(node):
        inner = f"{path}.{key}" if path else str(key)
        if isinstance(value, BaseModel | dict | tuple):
            yield from leaves(value, inner)
        else:
            yield inner, value


def branches(node: Any, path: str = "") -> Iterator[tuple[str, tuple[Any, ...]]]:
    """Yield (path, value) of every list."""
    for key, value in _inner(node):
        inner = f"{path}.{key}" if path else str(key)
        if isinstance(value, tuple):
            yield inner, value
        if isinstance(value, BaseModel | dict | tuple):
            yield from branches(value, inner)


def _inner(node: Any) -> list[tuple[Any, Any]]:
    if isinstance(node, BaseModel):
        return [(name, getattr(node, name)) for name in type(node).model_fields]
    if isinstance(node, dict):
        return list(node.items())
    return list(enumerate(node))
