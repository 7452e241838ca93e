"""Which file counts as old, and that the number is raised when the rules change."""

from __future__ import annotations

import pytest

from cli.commands.schema import schema_text
from solver.checking.findings import Code
from solver.rules_version import RULES, UNNUMBERED, Age, age_of


@pytest.mark.parametrize(
    ("version", "rules", "age"),
    [
        ("0.1.0", RULES, "same"),
        ("0.1.0", RULES - 1, "older"),
        ("0.1.0", RULES + 1, "newer"),
        ("0.0.9", RULES, "older"),
        ("0.10.0", RULES, "newer"),  # not by the letters: 10 is more than 1
        ("9.9.9", RULES - 1, "older"),  # the rules count first
        ("of my own", RULES, "same"),  # nothing can be told from it
    ],
)
def test_the_rules_count_first_and_then_the_version(version: str, rules: int, age: Age) -> None:
    assert age_of(version, rules, "0.1.0") == age


def test_a_file_without_a_number_is_older() -> None:
    assert age_of("0.1.0", UNNUMBERED, "0.1.0") == "older"


def test_the_number_is_raised_with_the_rules_and_the_keys_that_a_plan_must_have() -> None:
    """Where this fails, plans of before may be refused now: raise RULES, and write both anew."""
    from json import loads

    schema = loads(schema_text("plan"))
    needed = sum(len(one.get("required", ())) for one in [schema, *schema["$defs"].values()])
    assert (RULES, len(Code), needed) == (5, KNOWN_CODES, KNOWN_KEYS)


KNOWN_CODES = 258
"""Codes of the checker when the number was last looked at."""
KNOWN_KEYS = 495
"""Keys that some part of a plan must have, at the same time."""
