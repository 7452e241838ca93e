"""The shell of the program: exit codes, messages, encodings, and what it costs to start."""

from __future__ import annotations

import errno
import json
import os
import resource
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from cli.command_table import PANELS, first_sentence
from cli.main import app, exit_code, guarded
from solver.errors import (
    CannotBeDoneError,
    CasewrightError,
    InputError,
    InterruptedPlanError,
    LengthError,
    SelfCheckError,
)

ROOT = Path(__file__).parents[2]
COMMANDS = [name for names in PANELS.values() for name in names]


def run(
    *arguments: str, cwd: Path | None = None, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """Run the program as a user does, in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "cli", *arguments],
        cwd=cwd or ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        capture_output=True,
        check=False,
    )


def code_of(error: BaseException) -> int:
    def fail() -> None:
        raise error

    with pytest.raises(typer.Exit) as caught:
        guarded(fail)()
    return caught.value.exit_code


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (CannotBeDoneError("too tall"), 1),
        (InputError("wrong", "job.toml line 3"), 2),
        (LengthError("no length"), 2),
        (SelfCheckError("refused"), 70),
        (InterruptedPlanError("nothing yet"), 130),
    ],
)
def test_each_class_of_error_has_its_exit_code_and_its_message_on_standard_error(
    error: CasewrightError, code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert code_of(error) == code
    assert exit_code(error) == code
    shown = capsys.readouterr()
    assert shown.err == f"casewright: {error}\n"
    assert shown.out == ""


def test_an_interrupt_ends_with_130(capsys: pytest.CaptureFixture[str]) -> None:
    assert code_of(KeyboardInterrupt()) == 130
    assert "nothing is written" in capsys.readouterr().err


@pytest.mark.parametrize("error", [KeyboardInterrupt(), ImportError("half of a package")])
def test_an_interrupt_while_a_command_is_loaded_ends_with_130(
    error: BaseException, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(_: str) -> None:
        raise error from KeyboardInterrupt()

    monkeypatch.setattr("cli.command_table.import_module", interrupted)
    done = CliRunner().invoke(app, ["check", "job.toml"])

    assert done.exit_code == 130
    assert "nothing is written" in done.stderr


def test_an_unexpected_error_is_a_fault_without_a_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    assert code_of(ZeroDivisionError("division by zero")) == 70

    shown = capsys.readouterr().err
    assert shown.startswith("casewright: a fault in Casewright: ZeroDivisionError: division by")
    assert "Traceback" not in shown
    report = json.loads((tmp_path / "casewright-report-nojob.json").read_text())
    assert any("ZeroDivisionError" in line for line in report["details"])


def test_a_closed_pipe_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    silenced: list[bool] = []
    monkeypatch.setattr("cli.main.silence_stdout", lambda: silenced.append(True))

    def fail() -> None:
        raise BrokenPipeError(errno.EPIPE, os.strerror(errno.EPIPE))

    guarded(fail)()
    assert silenced == [True]


def test_usage_errors_end_with_2_and_say_what_is_allowed() -> None:
    for arguments in (["plan"], ["plan", "x.toml", "--seed", "x"], ["plot"]):
        done = run(*arguments)

        assert done.returncode == 2
        assert done.stdout == b""
        assert b"casewright" in done.stderr


def test_the_version_is_that_of_the_package() -> None:
    assert run("--version").stdout.decode().split()[0] == "casewright"


def test_help_lists_every_command() -> None:
    shown = run("--help").stdout.decode()

    assert len(COMMANDS) == 23
    assert [name for name in COMMANDS if f"\n  {name} " not in shown] == []


def test_help_has_whole_first_sentences_in_panels_at_80_columns() -> None:
    shown = run("--help", COLUMNS="80").stdout.decode()

    words = " ".join(shown.split())
    assert [panel for panel in PANELS if f"\n{panel}:\n" not in shown] == []
    assert [name for name in COMMANDS if first_sentence(name) not in words] == []
    assert max(map(len, shown.splitlines())) <= 80
    assert "..." not in shown.partition("Options:")[2]


@pytest.mark.parametrize("name", COMMANDS)
def test_the_sentence_in_the_help_is_the_first_of_the_command(name: str) -> None:
    command = getattr(import_module(f"cli.commands.{name}"), name)

    text = " ".join(str(command.__doc__).split())
    assert first_sentence(name).endswith(".")
    assert f"{text} ".startswith(f"{first_sentence(name)} ")
    assert f"Example: casewright {name}" in text


def test_a_command_that_is_not_there_is_told_with_the_nearest() -> None:
    done = run("evidenc")
    assert (done.returncode, b"No such command 'evidenc'" in done.stderr) == (2, True)
    assert b"Did you mean 'verify'" in run("verifi").stderr


def test_help_imports_nothing_heavy() -> None:
    heavy = ("pandas", "numpy", "ortools", "pydantic", "rich", "openpyxl")
    code = f"import sys, cli.main; print([m for m in {heavy!r} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True)

    assert done.stdout.decode().strip() == "[]"


def test_help_costs_less_than_a_quarter_of_a_second() -> None:
    """Processor time of the best of five, so that a busy machine fails nobody."""
    costs = []
    for _ in range(5):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        run("--help")
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        costs.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)

    assert min(costs) < 0.25


def test_signs_that_an_encoding_lacks_are_written_plainly() -> None:
    done = run("defaults", PYTHONIOENCODING="ascii")

    assert done.returncode == 0
    assert done.stdout.isascii()


def test_the_reader_of_a_pipe_may_leave() -> None:
    command = f"{sys.executable} -m cli defaults | head -1; echo ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", command], cwd=ROOT, capture_output=True, check=True)

    assert done.stdout.decode().splitlines()[-1] == "0"
    assert done.stderr == b""


@pytest.mark.parametrize("columns", ["", "80"])
def test_what_is_not_a_terminal_gets_a_fixed_width_and_no_colour(columns: str) -> None:
    lines = run("defaults", COLUMNS=columns).stdout.decode().splitlines()

    assert max(map(len, lines)) == int(columns or "100")
    assert "\x1b" not in "".join(lines)
