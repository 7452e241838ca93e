"""The marking-out table: every mark of a bay's sides, as a running dimension from one end.

Where a thickness is not measured yet: the room that it needs at both ends, and which parts are
cut only when it is known.
"""

from __future__ import annotations

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, AlikeBays, alike_bays, amount, count, plain_name
from solver.plan.bands import Band, PartOverBand
from solver.plan.plan import Option
from solver.plan.plan_frames import boards
from solver.units import Ticks, Unit, caliper, format_length, with_unit
from solver.words import word

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


def band_tables(band: Band | None, unit: Unit) -> list[Titled]:
    """Return the ends of the band side by side, and the parts that depend on it."""
    if band is None:
        return []
    return [_ends(band, unit), *([_parts(band.parts, unit)] if band.parts else [])]


def band_lines(band: Band | None, currency: str) -> list[str]:
    """Say why it holds for every thickness between, and what stock does for all of them."""
    if band is None:
        return []
    price = "" if band.price is None else f", {amount(band.price, currency)} with mouldings"
    sheets = f"{count(band.sheets, 'sheet')} {'does' if band.sheets == 1 else 'do'}"
    return [
        f"Any thickness of the band: everything fits at both ends, and between them, since "
        f"{band.why}.",
        f"Any thickness of the band: {sheets}{price}.",
        "Measure the sheet before cutting the parts that depend on it: casewright plan"
        " --thickness.",
    ]


def _ends(band: Band, unit: Unit) -> Titled:
    table = plain_table("", "thinnest", "thickest", right=("thinnest", "thickest"))
    thin, thick = band.ends
    for one in band.materials:
        name = plain_name(one.material)
        table.add_row(name, caliper(one.least, unit), caliper(one.most, unit))
    table.add_row(
        "least headroom", _length(thin.headroom_least, unit), _length(thick.headroom_least, unit)
    )
    table.add_row(
        "lowest opening", with_unit(thin.clear_least, unit), with_unit(thick.clear_least, unit)
    )
    table.add_row(
        "highest opening", with_unit(thin.clear_most, unit), with_unit(thick.clear_most, unit)
    )
    return Titled("Thickness not measured yet: the same marks at both ends", table)


def _length(value: Ticks | None, unit: Unit) -> str:
    return NONE if value is None else with_unit(value, unit)


def _parts(parts: tuple[PartOverBand, ...], unit: Unit) -> Titled:
    table = plain_table("part", "length", "width")
    groups: dict[tuple[str, str], list[str]] = {}
    for one in parts:
        size = (
            _range(one.length_least, one.length_most, unit),
            _range(one.width_least, one.width_most, unit),
        )
        groups.setdefault(size, []).append(one.part)
    for (length, width), names in groups.items():
        table.add_row(", ".join(map(plain_name, names)), length, width)
    return Titled(f"Parts that depend on the thickness: cut when it is measured ({unit})", table)


def _range(least: Ticks, most: Ticks, unit: Unit) -> str:
    if least == most:
        return format_length(least, unit)
    return f"{format_length(least, unit)} to {format_length(most, unit)}"
