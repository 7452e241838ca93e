"""How a saw's setting and the cuts made with it are written."""

from __future__ import annotations

from collections.abc import Sequence

from solver.units import Unit, format_length


def set_to(saw: str | None, guide: str | None, setting: int, unit: Unit) -> str:
    """Say what is set to what: `fence 11-7/8`."""
    where = guide or ("yard" if saw == "panel saw" else "at")
    return f"{where} {format_length(setting, unit)}"


def ranges(numbers: Sequence[int]) -> str:
    """Return numbers with those that follow each other drawn together: `2, 4-6`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        ", ".join(map(str, run)) if len(run) < 3 else f"{run[0]}-{run[-1]}" for run in runs
    )
