"""README.md names every command with an example, and the help of each command is whole."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import typer.main
from typer.testing import CliRunner

from cli.command_table import HEADINGS, first_sentence
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


@pytest.mark.parametrize("name", COMMANDS)
def test_help_has_the_whole_first_sentence_and_the_example_as_it_is_typed(name: str) -> None:
    shown = CliRunner().invoke(app, [name, "--help"], env={"COLUMNS": "80"}).stdout

    what, _, rest = shown.partition("\nExample:\n")
    example, _, options = rest.partition("\n\n")
    assert "".join(first_sentence(name).split()) in "".join(what.split())
    assert {line.startswith(f"  casewright {name}") for line in example.splitlines()} == {True}
    assert "-h, --help" in options
    assert max(map(len, shown.splitlines())) <= 80


@pytest.mark.parametrize("name", COMMANDS)
def test_help_shows_no_types_and_no_ranges(name: str) -> None:
    shown = CliRunner().invoke(app, [name, "--help"], env={"COLUMNS": "120"}).stdout

    assert re.findall(r"<str>|<list|<=|>=|\{|\d\.0\]", shown) == []


def test_many_options_stand_under_headings_and_few_in_one_list() -> None:
    runner = CliRunner()
    many = runner.invoke(app, ["plan", "--help"]).stdout
    few = runner.invoke(app, ["demo", "--help"]).stdout

    for heading in HEADINGS:
        names = {p.name for p in COMMANDS["plan"].params} & set(HEADINGS[heading])
        assert (f"\n{heading}:\n" in many) == bool(names)
        assert f"\n{heading}:\n" not in few
    assert many.rindex("\nOptions:\n") > many.index("\nThe search:\n")


def test_every_option_under_a_heading_is_one_of_some_command() -> None:
    known = {param.name for command in COMMANDS.values() for param in command.params}

    assert {name for names in HEADINGS.values() for name in names} - known == set()


def test_examples_are_code_blocks_only() -> None:
    text = (
        "casewright none\n```sh\ncasewright one\n```\ncasewright none\n```\ncasewright two\n```\n"
    )

    assert examples(text).split() == ["casewright", "one", "casewright", "two"]
