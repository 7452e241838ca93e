"""The questions of `casewright new`: each with its default, asked again until it can be read."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from cli.files import ENDINGS, read_inventory
from cli.quick_job import parse_shelves
from cli.starter import Answers, standard
from solver.errors import InputError
from solver.units import TICKS_PER_MM, Unit, parse_length

Ask = Callable[[str, str], str]
"""Shows a question and its default, and returns what was typed, or the default."""
Tell = Callable[[str], None]
KINDS = ("hung", "standing", "built-in", "wall")
SMALLEST = 100 * TICKS_PER_MM
"""A case smaller than this each way is taken for a typing error [tick]."""


def ask_for(unit: Unit, folder: Path, ask: Ask, tell: Tell) -> Answers:
    """Ask for the few measurements that matter; `folder` is where the job file will stand."""
    usual = standard(unit)

    def again(question: str, default: str, check: Callable[[str], str]) -> str:
        while True:
            try:
                return check(ask(question, default).strip())
            except InputError as error:
                tell(str(error))

    return Answers(
        unit=unit,
        kind=again(f"Kind of case ({', '.join(KINDS)})", usual.kind, _kind),
        width=again(f"Outside width ({unit})", usual.width, lambda text: _size(text, unit)),
        height=again(f"Outside height ({unit})", usual.height, lambda text: _size(text, unit)),
        depth=again(
            f"Outside depth ({unit}), or open", usual.depth, lambda text: _depth(text, unit)
        ),
        shelves=again("Shelves between bottom and top: 4, or 4,5, or 4-6", "4,5", _shelves),
        items=again(
            "List of things beside the job (.csv .xlsx .txt), or later",
            "later",
            lambda text: _list(text, folder, unit),
        ),
    )


def _kind(text: str) -> str:
    if text.lower() not in KINDS:
        msg = f"{text!r} is no kind of case; choose {', '.join(KINDS)}"
        raise InputError(msg)
    return text.lower()


def _size(text: str, unit: Unit) -> str:
    if parse_length(text, unit) < SMALLEST:
        msg = f"{text!r} is smaller than 100 mm; check the unit"
        raise InputError(msg)
    return text


def _depth(text: str, unit: Unit) -> str:
    if text.lower() in ("", "open", "none"):
        return ""
    if parse_length(text, unit) < SMALLEST // 2:
        msg = f"{text!r} is less than 50 mm; check the unit, or say open"
        raise InputError(msg)
    return text


def _shelves(text: str) -> str:
    counts = parse_shelves(text)
    if isinstance(counts, dict):
        return f"{{ least = {counts['least']}, most = {counts['most']} }}"
    return json.dumps(counts)


def _list(text: str, folder: Path, unit: Unit) -> str:
    """Read the list at once, so that its faults show while the client is still there."""
    if text.lower() in ("", "later"):
        return ""
    if Path(text).is_absolute() or Path(text).suffix.lower() not in ENDINGS:
        msg = (
            f"{text!r}: give the name of a {', '.join(ENDINGS)} file in the job's folder, or later"
        )
        raise InputError(msg)
    read_inventory(str(folder / text), unit).raise_if_unreadable()
    return text
