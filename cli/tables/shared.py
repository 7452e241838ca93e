"""A job that is built in a batch: on which sheets of the batch its parts are."""

from __future__ import annotations

from collections.abc import Mapping

from cli.tables.style import Titled, plain_table
from cli.tables.words import listed, plain_name
from solver.plan import Option


def shared_tables(option: Option) -> list[Titled]:
    """Return the sheets and sticks of the batch that carry parts; none outside of batches."""
    shared = option.shared
    if shared is None:
        return []
    table = plain_table("of the batch", "parts")
    for word, numbers in (("sheet", shared.sheets), ("stick", shared.mouldings)):
        for number, parts in _by_number(numbers).items():
            table.add_row(f"{word} {number}", plain_name(listed(parts)))
    return [Titled("Where its parts are cut", table)]


def _by_number(numbers: Mapping[str, int]) -> dict[int, list[str]]:
    """The parts of each sheet, in the order of the sheets."""
    found: dict[int, list[str]] = {number: [] for number in sorted(set(numbers.values()))}
    for part, number in numbers.items():
        found[number].append(part)
    return found


def shared_text(option: Option) -> str | None:
    """Return in short which sheets of the batch carry parts; None outside of batches."""
    shared = option.shared
    if shared is None:
        return None
    lines = []
    for word, numbers in (("sheet", shared.sheets), ("stick", shared.mouldings)):
        found = [str(number) for number in _by_number(numbers)]
        if found:
            lines.append(f"{word}{'' if len(found) == 1 else 's'} {listed(found)} of the batch")
    return "\n".join(lines)


def shared_lines(option: Option) -> list[str]:
    """Say that the sheets are those of the batch, and what the price is."""
    if option.shared is None:
        return []
    name = plain_name(option.shared.name)
    return [
        f"Built in a batch, there called {name}: sheets, sticks and their cuts are in the file of "
        "the batch; the price is its share of them, by area and by length."
    ]
