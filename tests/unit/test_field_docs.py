"""What is written under a field describes it in the schema, and is read only for the schema."""

from __future__ import annotations

import subprocess
import sys

from pydantic import Field

from solver.quantities import Length, Model


class Board(Model):
    """A board."""

    wide: Length
    """Across the grain."""
    bare: Length = 0
    named: int = Field(default=0, alias="number", description="Said in the field.")
    """Written under it."""


class Shelf(Board):
    """A board that bears things."""

    wide: Length
    """From side to side."""
    borne: Length = Field(default=0, alias="load")
    """What it bears,
    at most."""


def described(model: type[Model]) -> dict[str, str | None]:
    properties = model.model_json_schema()["properties"]
    return {name: schema.get("description") for name, schema in properties.items()}


def test_the_text_under_a_field_describes_it_under_its_alias() -> None:
    found = described(Shelf)

    assert found["wide"] == "From side to side."
    assert found["load"] == "What it bears,\nat most."
    assert described(Board)["wide"] == "Across the grain."


def test_a_field_without_text_is_described_by_its_type_and_one_with_its_own_keeps_it() -> None:
    assert described(Board)["bare"] == described(Shelf)["bare"] != described(Board)["wide"]
    assert described(Shelf)["number"] == "Said in the field."


def test_no_source_is_read_while_the_models_load() -> None:
    unreadable = "import solver.quantities as q; q.field_texts = lambda model: 1 / 0; "
    loading = f"{unreadable}import solver.plan.plan as plans"
    describing = f"{loading}; plans.Plan.model_json_schema()"

    assert subprocess.run([sys.executable, "-c", loading]).returncode == 0
    assert subprocess.run([sys.executable, "-c", describing], capture_output=True).returncode == 1
