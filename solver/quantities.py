"""Pydantic types for lengths, masses and money, and the base of all data models.

Lengths are whole ticks and masses whole grams inside, plain JSON outside. Reading depends on where
a value comes from:

* from a job file, with ``context={"unit": "in"}``: a number is in the job's unit and
  a text is parsed (:func:`solver.units.parse_length`);
* from JSON (plans): a number is millimetres, or grams;
* from Python: an int is ticks, or grams; a text needs its unit.

The JSON Schema of a model describes each field by the text under it. Finding that means parsing
the model's source, which takes as long as loading everything else of it, so it is done when a
schema is asked for and not each time the program starts.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from textwrap import dedent
from typing import Annotated, Any, get_args

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetJsonSchemaHandler,
    PlainSerializer,
    ValidationInfo,
    WithJsonSchema,
)
from pydantic.fields import FieldInfo

from solver import units
from solver.errors import CasewrightError


def _unit_of(info: ValidationInfo) -> units.Unit | None:
    return (info.context or {}).get("unit")


def _read_length(value: Any, info: ValidationInfo) -> Any:
    unit = _unit_of(info)
    if isinstance(value, bool) or value is None:
        forms = units.LENGTH_FORMS[unit or "in"]
        msg = f"a length is wanted, not {value!r}; forms that work: {forms}"
        raise ValueError(msg)
    try:
        if isinstance(value, str):
            return units.parse_length(value, unit or "mm")
        if unit and isinstance(value, int | float):
            return units.parse_length(_plain_decimal(value), unit)
        if info.mode == "json" and isinstance(value, int | float):
            return units.from_mm(value)
    except CasewrightError as error:
        raise ValueError(str(error)) from None
    return value


def _plain_decimal(value: float) -> str:
    """A TOML number as a plain decimal text; NaN and infinities stay words, and are refused."""
    return format(Decimal(str(value)), "f")


def _read_mass(value: Any, info: ValidationInfo) -> Any:
    unit = _unit_of(info)
    if isinstance(value, bool):
        msg = (
            f"a weight is wanted, not {value!r}; forms that work: {units.MASS_FORMS[unit or 'in']}"
        )
        raise ValueError(msg)
    try:
        if isinstance(value, str):
            return units.parse_mass(value, unit or "mm")
        if unit and isinstance(value, int | float):
            return units.parse_mass(_plain_decimal(value), unit)
    except CasewrightError as error:
        raise ValueError(str(error)) from None
    return value


def _read_money(value: Any) -> Decimal:
    if isinstance(value, bool) or not isinstance(value, str | int | float | Decimal):
        msg = f"an amount of money is wanted, such as 92 or 92.50, not {value!r}"
        raise ValueError(msg)
    try:
        amount = Decimal(str(value).strip().lstrip("$£€"))
        if amount.is_nan():
            raise InvalidOperation
        whole = amount.quantize(Decimal("0.01"))
    except InvalidOperation:
        msg = f"{value!r} is not an amount of money, such as 92 or 92.50"
        raise ValueError(msg) from None
    if not 0 <= whole < 1_000_000 or whole != amount:
        msg = f"{value!r} is not an amount from 0 to 999,999.99 in whole cents"
        raise ValueError(msg)
    return whole


def _length_schema(mode: str) -> dict[str, Any]:
    return {
        "type": "number" if mode == "serialization" else ["number", "string"],
        "description": "millimetres in plans; in job files the job's unit, or a text such as 7-3/8",
    }


Length = Annotated[
    int,
    BeforeValidator(_read_length),
    PlainSerializer(units.to_mm, return_type=float, when_used="json"),
    WithJsonSchema(_length_schema("serialization"), mode="serialization"),
    WithJsonSchema(_length_schema("validation"), mode="validation"),
]
"""A length in ticks of 1/320 mm."""

_MASS_READER = BeforeValidator(_read_mass)

Mass = Annotated[
    int,
    _MASS_READER,
    WithJsonSchema({"type": "integer"}, mode="serialization"),
    WithJsonSchema({"type": ["number", "string"]}, mode="validation"),
]
"""A mass in whole grams."""

_CENTS = PlainSerializer(lambda amount: f"{amount:.2f}", return_type=str, when_used="json")
_MONEY_SCHEMAS = (
    WithJsonSchema({"type": "string"}, mode="serialization"),
    WithJsonSchema({"type": ["number", "string"]}, mode="validation"),
)

Money = Annotated[Decimal, BeforeValidator(_read_money), _CENTS, *_MONEY_SCHEMAS]
"""An amount of money, a Decimal with two places."""


def _read_amount(value: Any) -> Any:
    """An amount that was worked out: whole cents, any size."""
    amount = Decimal(str(value))
    if amount != amount.quantize(Decimal("0.01")):
        msg = f"{value!r} is no amount in whole cents"
        raise ValueError(msg)
    return amount


Amount = Annotated[
    Decimal, BeforeValidator(_read_amount), _CENTS, WithJsonSchema({"type": "string"})
]
"""An amount of money that was worked out: two places, of any size."""


def _read_difference(value: Any) -> Decimal:
    text = str(value).strip()
    amount = _read_money(text.removeprefix("-"))
    return -amount if text.startswith("-") else amount


MoneyDifference = Annotated[Decimal, BeforeValidator(_read_difference), _CENTS, *_MONEY_SCHEMAS]
"""How much less one thing costs than another; below zero, how much more."""


def plain_number(value: Decimal) -> str:
    """Write a number plainly: 8.25, 15."""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


Number = Annotated[
    Decimal,
    PlainSerializer(plain_number, return_type=str, when_used="json"),
    WithJsonSchema({"type": "string"}),
]
"""An exact number, written plainly."""


class Model(BaseModel):
    """Base of every data model: frozen, and unknown keys are errors."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)

    # typing.override needs Python 3.12.
    @classmethod
    def __get_pydantic_json_schema__(  # type: ignore[explicit-override]
        cls, core_schema: Any, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Describe each field by the text under it; read only now, since that takes a while."""
        schema = handler(core_schema)
        add_descriptions(cls, handler.resolve_ref_schema(schema))
        return schema


def is_mass(field: FieldInfo) -> bool:
    """Whether a field holds grams."""
    return any(part is _MASS_READER for part in _parts(field))


def is_whole_number(field: FieldInfo) -> bool:
    """Whether a field holds a plain whole number: no length, mass or amount."""
    parts = list(_parts(field))
    return int in parts and not any(isinstance(part, BeforeValidator) for part in parts)


def models_in(field: FieldInfo) -> list[type[BaseModel]]:
    """Return the models that a field is made of: one, or the entries of a list."""
    parts = _parts(field)
    return [part for part in parts if isinstance(part, type) and issubclass(part, BaseModel)]


def is_list(field: FieldInfo) -> bool:
    """Whether a field holds several values in a row."""
    return any(getattr(part, "__origin__", None) is tuple for part in _parts(field))


def mass_keys(model: type[BaseModel]) -> frozenset[str]:
    """Return the names of all fields that hold grams, in a model and in the models within it."""
    fields = model.model_fields
    keys = {name for name, field in fields.items() if is_mass(field)}
    return frozenset(keys).union(
        *(mass_keys(one) for field in fields.values() for one in models_in(field))
    )


def _parts(field: FieldInfo) -> Iterator[Any]:
    """All types that a field's type is made of, and the metadata of each."""
    yield from field.metadata
    yield from _parts_of(field.annotation)


def _parts_of(annotation: Any) -> Iterator[Any]:
    yield annotation
    yield from getattr(annotation, "__metadata__", ())
    for inner in get_args(annotation):
        yield from _parts_of(inner)


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
