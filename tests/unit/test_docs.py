"""README.md names every command with an example, and every command and option has help."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import typer.main

from cli.main import app

README = Path(__file__).parents[2] / "README.md"
COMMANDS: dict[str, Any] = getattr(typer.main.get_command(app), "commands")  # noqa: B009


def examples(text: str) -> str:
    """What stands in the code blocks of a Markdown text."""
    return "\n".join(re.findall(r"^```\w*\n(.*?)^```", text, re.MULTILINE | re.DOTALL))


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_an_example_in_the_readme(name: str) -> None:
    found = re.search(rf"\bcasewright {name}\b", examples(README.read_text("utf-8")))

    assert found, f"README.md has no example of `casewright {name}` in a code block"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_all_its_options_have_help(name: str) -> None:
    command = COMMANDS[name]
    without = [p.name for p in command.params if p.name != "help" and not getattr(p, "help", None)]

    assert command.help
    assert without == []


def test_examples_are_code_blocks_only() -> None:
    text = (
        "casewright none\n```sh\ncasewright one\n```\ncasewright none\n```\ncasewright two\n```\n"
    )

    assert examples(text).split() == ["casewright", "one", "casewright", "two"]
