"""From a fresh clone to a running program: what is installed when, and what is said."""

from __future__ import annotations

import ast
import importlib.util
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from cli import bootstrap

Runs = list[list[str]]


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty clone with a pyproject.toml."""
    monkeypatch.setattr(bootstrap, "ROOT", tmp_path)
    monkeypatch.setattr(bootstrap, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(bootstrap, "BIN", tmp_path / ".venv" / "bin")
    monkeypatch.setattr(bootstrap, "STAMP", tmp_path / ".venv" / "stamp")
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    return tmp_path


@pytest.fixture
def runs(clone: Path, monkeypatch: pytest.MonkeyPatch) -> Runs:
    """Every command that would be run, from the clone's own folder on; venv makes its Python."""
    seen: Runs = []

    def run(command: list[str]) -> int:
        seen.append([word.replace(str(clone), "CLONE") for word in command])
        if command[1:3] == ["-m", "venv"]:
            bootstrap.interpreter().parent.mkdir(parents=True)
            bootstrap.interpreter().touch()
        return 0

    monkeypatch.setattr(bootstrap, "run", run)
    return seen


def failing(where: str, code: int) -> Callable[[list[str]], int]:
    return lambda command: code if where in command else 0


def test_only_the_standard_library_is_imported() -> None:
    tree = ast.parse(Path(bootstrap.__file__).read_text("utf-8"))
    names = {
        name.split(".")[0]
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }

    assert names
    assert names <= sys.stdlib_module_names


def test_the_demo_is_installed_once_and_run(runs: Runs) -> None:
    assert bootstrap.main(["demo", "--quiet"]) == 0
    assert bootstrap.main(["demo"]) == 0

    assert [command[1:3] for command in runs[:2]] == [["-m", "venv"], ["-m", "pip"]]
    assert runs[1][-2:] == ["--editable", "CLONE"]
    assert runs[2][1:] == ["-m", "solver.sticks.precompile"]
    assert runs[3:] == [
        ["CLONE/.venv/bin/casewright", "demo", "--quiet"],
        ["CLONE/.venv/bin/casewright", "demo"],
    ]


def test_a_changed_pyproject_is_installed_again(runs: Runs, clone: Path) -> None:
    bootstrap.main(["demo"])
    (clone / "pyproject.toml").write_text("[project]\nname = 'x'\n")
    bootstrap.main(["demo"])

    assert len([command for command in runs if "pip" in command]) == 2


def test_the_tests_need_the_development_packages_and_the_demo_is_content_with_them(
    runs: Runs,
) -> None:
    bootstrap.main(["demo"])
    bootstrap.main(["test"])
    bootstrap.main(["demo"])

    targets = [command[-1] for command in runs if "pip" in command]
    assert targets == ["CLONE", "CLONE[dev]"]


def test_every_check_is_run_and_options_go_to_pytest(runs: Runs) -> None:
    assert bootstrap.main(["test", "-m", "not slow"]) == 0

    checks = [command[2:] for command in runs if command[0] == "CLONE/.venv/bin/python"][2:]
    assert checks == [
        ["ruff", "check", "."],
        ["ruff", "format", "--check", "."],
        ["mypy"],
        ["pytest", "--numprocesses=auto", "--dist=loadfile", "-m", "not slow"],
    ]


def test_a_failed_check_is_the_answer_and_the_others_run_still(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(bootstrap, "run", failing("mypy", 3))

    assert bootstrap.run_checks([]) == 3
    assert [line for line in capsys.readouterr().err.splitlines() if line.startswith("==")] == [
        "== ruff check .",
        "== ruff format --check .",
        "== mypy",
        "== pytest --numprocesses=auto --dist=loadfile",
    ]


def test_a_failed_install_is_said_and_tried_again(
    runs: Runs, clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bootstrap.main(["demo"])
    (clone / "pyproject.toml").write_text("changed")
    monkeypatch.setattr(bootstrap, "run", failing("pip", 1))

    assert bootstrap.main(["demo"]) == 1
    assert "could not be installed" in capsys.readouterr().err
    assert not bootstrap.is_installed("")


def test_a_python_without_venv_is_told_what_to_install(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    find = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == "ensurepip" else find(name)
    )

    assert bootstrap.main(["demo"]) == 1
    assert "lacks ensurepip" in (said := capsys.readouterr().err)
    assert "apt-get install python3-venv" in said


def test_an_old_python_is_named(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 10, 2))

    assert bootstrap.main(["test"]) == 1
    assert "Python 3.11 or newer is needed, this is 3.10" in capsys.readouterr().err


@pytest.mark.parametrize("arguments", [[], ["build"]])
def test_other_words_print_the_usage(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert bootstrap.main(arguments) == 2
    assert capsys.readouterr().err.startswith("usage: python3 -m cli.bootstrap demo|test")
