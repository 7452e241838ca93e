"""The marking-out table: every mark of a bay's sides, as a running dimension from one end."""

from __future__ import annotations

from cli.tables.grouping import AlikeBays, alike_bays
from cli.tables.style import Titled, plain_table
from cli.tables.words import plain_name
from solver.plan import Option
from solver.plan_frames import boards
from solver.trade_words import word
from solver.units import Ticks, Unit, format_length

APART = "shelf lines not shared"
"""How it begins that bays keep lines of their own although they were to share them."""

Line = tuple[str, Ticks, Ticks, Ticks | None]
"""Board, underside, top face, clear opening above it (None: there is none) [tick]."""


def lines_apart_notes(option: Option) -> list[str]:
    """Say of each case whose bays were to share shelf lines and cannot, why not; each once."""
    notes = []
    for apart in option.lines_apart:
        if apart.because == "fit":
            notes.append(f"{APART}: no common lines let everything fit")
        else:
            cases = dict.fromkeys(name for name, _ in apart.bays)
            notes += [
                f"{APART}: the marks of case {name!r} never meet those beside it" for name in cases
            ]
    return list(dict.fromkeys(notes))


def marking_tables(option: Option, unit: Unit) -> list[Titled]:
    """Return one table for each kind of bay; bays that are alike share one."""
    return [_marking(group, option, unit) for group in alike_bays(option)]


def _marking(group: AlikeBays, option: Option, unit: Unit) -> Titled:
    figures = ("underside mark", "top face", "opening above")
    table = plain_table("board", *figures, right=figures)
    for board, underside, top, above in marking_lines(group, unit):
        clear = "" if above is None else format_length(above, unit)
        table.add_row(board, format_length(underside, unit), format_length(top, unit), clear)
    label = plain_name(group.label(option))
    title = f"Marking out{f', {label}' if label else ''}"
    return Titled(f"{title} ({unit}, all from the bottom end of the side, lowest first)", table)


def marking_lines(group: AlikeBays, unit: Unit) -> list[Line]:
    """Return the boards of a bay from the lowest up, with the toe where the bottom is raised."""
    lines = boards(group.case, group.first)
    raised = lines[0][1]
    return [(word("toe", unit), 0, raised, None), *lines] if raised else lines
