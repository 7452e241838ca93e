"""What README.md shows is what the program does: its worked example, picture and Python."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "README.md").read_text("utf-8")
PICTURE = ROOT / "fixtures" / "pictures" / "shelf-list-front.svg"
EXAMPLE = re.search(r"^casewright (plan fixtures/inventories/.*)$", TEXT, re.MULTILINE)


def blocks(language: str) -> list[str]:
    """The code blocks of one language."""
    return re.findall(rf"^```{language}\n(.*?)^```", TEXT, re.MULTILINE | re.DOTALL)


def test_the_worked_example_prints_what_the_readme_shows_and_draws_its_picture(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    assert EXAMPLE is not None
    saved = str(tmp_path / "plan.json")

    planned = CliRunner().invoke(app, [*EXAMPLE[1].split(), "--json", saved])
    drawn = CliRunner().invoke(
        app, ["draw", saved, "--kind", "front", "--format", "svg", "-o", str(tmp_path)]
    )

    assert planned.exit_code == 0, planned.output
    assert drawn.exit_code == 0, drawn.output
    screen = next(block for block in blocks("text") if "recommended" in block)
    printed = {line.rstrip() for line in planned.output.splitlines()}
    assert [line for line in screen.splitlines() if line.rstrip() not in printed] == []
    assert PICTURE.read_text("utf-8") == next(tmp_path.glob("*.svg")).read_text("utf-8")


def test_the_list_that_the_readme_shows_is_the_fixture() -> None:
    listed = (ROOT / "fixtures" / "inventories" / "shelf-list.txt").read_text("utf-8")

    assert listed in blocks("text")


def test_the_python_of_the_readme_runs(capsys: pytest.CaptureFixture[str]) -> None:
    (code,) = blocks("python")

    exec(compile(code, "README.md", "exec"), {})

    assert "optimal" in capsys.readouterr().out
