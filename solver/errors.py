"""The errors a user can cause, each saying what was given, what is allowed, what to do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


class CasewrightError(Exception):
    """Base of every error that is shown to the user as a message, never a traceback."""


class InputError(CasewrightError, ValueError):
    """The input or the command line is wrong; nothing was computed.

    Parameters
    ----------
    message
        What was given, what is allowed and what to do.
    where
        File, line, column or key, as far as it is known.
    """

    def __init__(self, message: str, where: str | None = None) -> None:
        super().__init__(f"{where}: {message}" if where else message)
        self.message = message
        self.where = where


class ManyInputsError(InputError):
    """Several things are wrong with the input; all of them are reported at once."""

    def __init__(self, errors: list[InputError], heading: str | None = None) -> None:
        lines = [str(error) for error in errors]
        super().__init__("\n".join([heading, *lines] if heading else lines))
        self.errors = errors


class LengthError(InputError):
    """A text cannot be read as a length."""


class MassError(InputError):
    """A text cannot be read as a weight."""


class CannotBeDoneError(CasewrightError):
    """The work cannot be done as asked; the message says why and what would do."""


class SelfCheckError(CasewrightError):
    """The program's own checker refused a plan: a bug, reported with the job attached."""


class InterruptedPlanError(CasewrightError):
    """The user stopped the work before anything was found."""


def message_of(fault: Mapping[str, Any]) -> str:
    """Return the message of one fault of a pydantic ValidationError, in its validator's words."""
    return str((fault.get("ctx") or {}).get("error") or fault["msg"])
