"""The cuts of each sheet in order, the settings of the saws over all sheets, the offcuts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from cli.screen.console import Titled, lined_up, plain_table
from cli.screen.wording import NONE, plain_name
from solver.plan.saw_cuts import Cut, CutCaution, Panel, SawSetting
from solver.plan.stocked import Sheet
from solver.sequence.saw_choice import ranges, set_to
from solver.units import Unit, format_length

COLUMNS = ("cut", "of", "saw set to", "from", "comes off", "goes on")

SAW_NOTES = (
    (
        "guided saw",
        "track: guided circular saw, the track on the line, good face down, the sheet flat on a"
        " board that may be cut into; what comes off is held up.",
    ),
    (
        "table saw",
        "fence, sled: table saw, good face up, with guard and riving knife; a rip runs along the"
        " fence, a crosscut on the sled and never along the fence; push block for the last of it.",
    ),
    (
        "mitre saw",
        "stop: mitre saw, good face up, held to its fence and the stop, the blade at rest before"
        " it is lifted; sawdust kept away from the stop.",
    ),
    ("panel saw", "yard: the yard's panel saw; hand in these cuts with the order."),
)
"""How each saw is used, under the name by which its settings go."""

CAUTIONS: dict[CutCaution, str] = {
    "no saw": "none of the saws in [shop] makes this cut; have the yard make it, or name a guided"
    " saw in [shop] saws",
    "narrow": "less than the least safe rip comes off; clamp the panel, or keep the wider side"
    " between fence and blade",
    "short": "what is held is shorter than is safe; clamp it to a longer board",
    "long": "long: support behind the saw, or a second pair of hands",
}


def cut_tables(sheets: Sequence[Sheet], unit: Unit, width: int) -> list[Titled]:
    """Return the cuts of each sheet in the order in which they are made, in `width` columns [-]."""
    prefix = prefix_of([piece.part for sheet in sheets for piece in sheet.pieces])
    rows = [[_row(cut, unit, prefix) for cut in sheet.cuts] for sheet in sheets]
    widths = lined_up([COLUMNS, *(row for some in rows for row in some)], width, folded=4)
    tables = []
    for number, some in enumerate(rows, start=1):
        table = plain_table(*COLUMNS, right=COLUMNS[:1], widths=widths)
        for row in some:
            table.add_row(*row)
        tables.append(Titled(f"Sheet {number}, cuts in order ({unit})", table))
    return tables


def prefix_of(names: Sequence[str]) -> str:
    """What all parts' names begin with, up to the last stroke, where there is only one case."""
    cases = {name.rpartition("/")[0] for name in names}
    alone = len(cases) == 1 and all("/" in name for name in names)
    return f"{cases.pop()}/" if alone else ""


def _row(cut: Cut, unit: Unit, prefix: str) -> tuple[str, ...]:
    return (
        str(cut.number),
        cut.panel,
        f"{cut.kind}, {set_to(cut.saw, cut.guide, cut.setting, unit)}",
        cut.measured_from,
        _off(cut.comes_off, prefix),
        _on(cut, unit, prefix),
    )


def _off(panel: Panel | None, prefix: str) -> str:
    if panel is None:
        return NONE
    name = plain_name(panel.name.removeprefix(prefix))
    return f"strip {name}" if panel.what == "strip" else name


def _on(cut: Cut, unit: Unit, prefix: str) -> str:
    """Say what is left: how wide after a rip, how long after a crosscut; or what it is."""
    panel = cut.goes_on
    if panel is None or panel.what in ("part", "offcut", "waste"):
        return _off(panel, prefix)
    size = panel.width if cut.direction == "rip" else panel.length
    new = "" if panel.name == cut.panel else f"{_off(panel, prefix)}, "
    return f"{new}{format_length(size, unit)}"


def settings_table(settings: Sequence[SawSetting], unit: Unit) -> Titled:
    """Return the settings of the saws in the order of the work, with the cuts of each."""
    table = plain_table("setting", "saw", "set to", "sheet: cuts", right=("setting",))
    for one in settings:
        stands = ", as it stands" if one.as_it_stands else ""
        trim = ", trimming" if one.trim else ""
        table.add_row(
            str(one.number),
            one.saw or "none",
            f"{set_to(one.saw, one.guide, one.setting, unit)}{trim}{stands}",
            "; ".join(f"{some.sheet}: {ranges(some.cuts)}" for some in one.cuts),
        )
    return Titled(f"Settings of the saws, in the order of the work ({unit})", table)


def offcut_table(sheets: Sequence[Sheet], unit: Unit) -> Titled | None:
    """Return the leftovers worth keeping, or None where there are none."""
    figures = ("sheet", "length", "width", "along", "across")
    table = plain_table("offcut", *figures, "enough for another", right=figures)
    for number, sheet in enumerate(sheets, start=1):
        for offcut in sheet.offcuts:
            sizes = (offcut.length, offcut.width, offcut.x, offcut.y)
            table.add_row(
                offcut.name,
                str(number),
                *(format_length(size, unit) for size in sizes),
                offcut.enough_for or NONE,
            )
    title = f"Offcuts to keep, at least, and where they lie on the sheet ({unit})"
    return Titled(title, table) if table.row_count else None


def sawing_notes(sheets: Sequence[Sheet]) -> list[str]:
    """Return how each saw is used, and what to watch at which cuts."""
    cuts = [(number, cut) for number, sheet in enumerate(sheets, 1) for cut in sheet.cuts]
    used = {cut.saw for _, cut in cuts}
    notes = [note for saw, note in SAW_NOTES if saw in used]
    if cuts:
        notes.append(
            "Cuts: what comes off is as large as the setting, from the edge named to the blade;"
            " the margin is room behind it. What goes on: its width after a rip, its length after"
            " a crosscut. Label each part as it comes off."
        )
    for caution, text in CAUTIONS.items():
        where = [(number, cut.number) for number, cut in cuts if caution in cut.cautions]
        if where:
            notes.append(f"{_places(where)}: {text}.")
    return notes


def _places(where: Iterable[tuple[int, int]]) -> str:
    by_sheet: dict[int, list[int]] = {}
    for sheet, cut in where:
        by_sheet.setdefault(sheet, []).append(cut)
    texts = [
        f"sheet {sheet} {'cut' if len(cuts) == 1 else 'cuts'} {ranges(cuts)}"
        for sheet, cuts in by_sheet.items()
    ]
    return "; ".join(texts).capitalize()
