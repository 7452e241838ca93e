"""The app: its commands, and the one table from a class of error to an exit code.

Only light modules are imported here, so that `casewright --help` answers at once: a command
and what it needs (the solver, rich) are loaded when it is called.
"""

from __future__ import annotations

import codecs
import functools
import gc
import sys
from collections.abc import Callable
from importlib.metadata import version as version_of
from typing import Annotated, Any, NoReturn, TypeVar

import typer

from cli.command_table import PLAIN, CommandTable, PanelGroup
from cli.files.output import silence_stdout
from cli.run.faults import caused_by_interrupt, fault_text
from solver.errors import (
    CannotBeDoneError,
    CasewrightError,
    InputError,
    InterruptedPlanError,
    SelfCheckError,
)

T = TypeVar("T")

STOPPED = "stopped; nothing is written"
FAULT = 70
INTERRUPTED = 130

EXIT_CODES: dict[type[CasewrightError], int] = {
    CannotBeDoneError: 1,
    InputError: 2,
    SelfCheckError: FAULT,
    InterruptedPlanError: INTERRUPTED,
}
"""What each class of error means to the shell; usage errors are 2 as well."""


def guarded(function: Callable[..., T]) -> Callable[..., T | None]:
    """Return the function with every error turned into a message on stderr and an exit code."""

    @functools.wraps(function)
    def command(*args: Any, **kwargs: Any) -> T | None:
        try:
            return function(*args, **kwargs)
        except (typer.Exit, typer.Abort, typer.BadParameter):
            raise
        except BrokenPipeError:
            silence_stdout()  # the reader has seen enough, as with `| head`
            return None
        except KeyboardInterrupt:
            _fail(STOPPED, INTERRUPTED)
        except CasewrightError as error:
            _fail(str(error), exit_code(error))
        except Exception as error:
            if caused_by_interrupt(error):
                _fail(STOPPED, INTERRUPTED)
            _fail(fault_text(error), FAULT)

    return command


def exit_code(error: CasewrightError) -> int:
    """Return the exit code of an error; a class that is not in the table is a fault."""
    return next((code for kind, code in EXIT_CODES.items() if isinstance(error, kind)), FAULT)


def _fail(message: str, code: int) -> NoReturn:
    typer.echo(f"casewright: {message}", err=True)
    raise typer.Exit(code)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"casewright {version_of('casewright')}")
        raise typer.Exit


class Commands(PanelGroup):
    """The commands of this program, each guarded."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**{**settings, "commands": CommandTable(guarded)})


app = typer.Typer(name="casewright", cls=Commands, no_args_is_help=True, **PLAIN)


@app.callback()
def casewright(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Shelf spacing and sheet cutting for display cases, decided together."""


_PLAIN = {"−": "-", "×": "x", "…": "...", "≥": ">=", "≤": "<=", "–": "-", "·": ".", "✓": "x"}


def _plainer(error: UnicodeError) -> tuple[str, int]:
    """Write signs that a terminal's encoding lacks in plain ones; a codec error handler."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    return "".join(_PLAIN.get(sign, "?") for sign in signs), error.end


COLLECT_AFTER = 50_000
"""New objects between two looks for unused ones: the models loaded at the start are many, and
none of them is ever unused, so that the usual 700 cost a twentieth of a command's time [-]."""


def run() -> None:
    """Entry point of the console script."""
    gc.set_threshold(COLLECT_AFTER)
    codecs.register_error("casewright", _plainer)
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="casewright")  # type: ignore[union-attr]
    try:
        app(prog_name="casewright")
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
    finally:
        try:
            sys.stdout.flush()
        except BrokenPipeError:
            silence_stdout()
