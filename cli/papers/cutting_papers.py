"""What is held at the saw: cut list, sheets with their cuts, part labels; and the buy list.

Sizes are as cut, with joints and lips in them. A label goes on each piece as it comes off the saw.
The buy list goes errand by errand, and has room for the thickness of the sheets as measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cli.drawings.fonts import printable
from cli.papers.issue import Issue, ids_text, short_id
from cli.papers.paper_blocks import (
    BOX,
    Block,
    Paper,
    grid,
    heading,
    line,
    new_page,
    of_screen,
    of_table,
    points,
    together,
)
from cli.papers.paper_drawings import sheet_drawings
from cli.screen.buying_tables import buy_lines, buy_tables
from cli.screen.cutting_tables import (
    allowances_text,
    mouldings_table,
    set_lines,
    sheet_line,
    stops_table,
)
from cli.screen.sawing_tables import cut_tables, offcut_table, sawing_notes, settings_table
from cli.screen.trim_tables import flute_lines, headline, pieces_table
from cli.screen.wording import alike_parts, count, grouped
from solver.plan.stocked import Part
from solver.trim.trim_sets import trim_sets
from solver.units import Unit, caliper, format_length
from solver.words import word


def cut_list(issue: Issue) -> Paper:
    """Return the cut list, case by case and board by board."""
    blocks: list[Block] = [
        line(
            "Sizes are as cut: what joints, lips and clearances add or take is in them and told"
            " beside them. Length runs along the grain. Before the first cut, hold this list"
            " against the drawing and the boards in hand; cut one of each first."
        )
    ]
    for case in dict.fromkeys(part.case for part in issue.option.parts):
        parts = [part for part in issue.option.parts if part.case == case]
        blocks += [heading(f"{case}, {count(len(parts), 'part')}"), *_boards(parts, issue.unit)]
    blocks += [*_mouldings(issue), *_trim(issue)]
    blocks.append(heading("Reading the sizes"))
    blocks += points(["+ or − after a size: the true size is a little more or less."])
    return Paper("cut-list", "Cut list", "what to cut, to which size", tuple(blocks))


def _boards(parts: list[Part], unit: Unit) -> Iterator[Block]:
    """Yield a table for each material of a case."""
    for some in grouped(parts, lambda part: (part.material, part.thickness)):
        first = some[0]
        grain = "no grain" if first.grain == "any" else "grain along the length"
        yield grid(
            ("part", "qty", f"length, {unit}", f"width, {unit}", "allowed for", "cut"),
            [_row(alike, unit) for alike in alike_parts(some)],
            right=("qty", f"length, {unit}", f"width, {unit}"),
            title=f"{first.material}, {caliper(first.thickness, unit)} thick, {grain}",
        )


def _row(alike: list[Part], unit: Unit) -> tuple[str, ...]:
    part = alike[0]
    sizes = (format_length(size, unit) for size in (part.length, part.width))
    return ids_text(alike), str(len(alike)), *sizes, allowances_text(part, unit), BOX


def _mouldings(issue: Issue) -> list[Block]:
    """Return the pieces of moulding, equal lengths together."""
    pieces = [(stick.stock, p) for stick in issue.option.mouldings for p in stick.pieces]
    if not pieces:
        return []
    rows = []
    for alike in grouped(pieces, lambda one: (one[0], one[1].length)):
        stock, first = alike[0]
        names = ", ".join(short_id(piece.part) for _, piece in alike)
        length = format_length(first.length, issue.unit)
        rows.append((names, str(len(alike)), length, stock, BOX))
    columns = ("piece", "qty", f"length, {issue.unit}", "from", "cut")
    lips = word("lip", issue.unit)
    return [
        heading(f"Mouldings ({lips} and the like)"),
        grid(columns, rows, right=columns[1:3]),
    ]


def _trim(issue: Issue) -> Iterator[Block]:
    """Yield the trim of each case, with what is cut from which moulding and how its ends are."""
    for one in trim_sets(issue.job, issue.option):
        if any(piece.name != "shelf lip" for piece in one.pieces):
            yield heading(f"Trim of {headline(one)}")
            yield of_table(pieces_table(one, issue.unit), ticked="cut")
            flutes = flute_lines(one.flutes, issue.unit) if one.flutes else []
            yield from points([*flutes, *one.notes])


UPRIGHT = ("side", "upright", "back")
"""Parts whose grain runs up and down in the case."""


def part_labels(issue: Issue) -> Paper:
    """Return a label for each part and each piece of moulding."""
    stickers = [_part(issue, part) for part in issue.option.parts]
    for stick in issue.option.mouldings:
        case = [(piece.part.rpartition("/")[0], piece) for piece in stick.pieces]
        stickers += [
            {
                "name": printable(short_id(piece.part)),
                "size": f"{format_length(piece.length, issue.unit)} {issue.unit} long",
                "from": printable(f"{stick.stock}, {name}"),
                "arrow": "none",
                "top": "front edge",
            }
            for name, piece in case
        ]
    block: Block = {"kind": "labels", "labels": stickers}
    return Paper("labels", "Part labels", "one for each piece, as it comes off the saw", (block,))


def _part(issue: Issue, part: Part) -> Block:
    unit = issue.unit
    sizes = (part.length, part.width, part.thickness)
    upright = part.name in UPRIGHT
    return {
        "name": printable(short_id(part.id)),
        "size": f"{' x '.join(format_length(size, unit) for size in sizes)} {unit}",
        "from": printable(f"{part.material}, {part.case}"),
        "arrow": "none" if part.grain == "any" else "up" if upright else "along",
        "top": "TOP end" if upright else f"TOP face{_lip(part, unit)}",
    }


def _lip(part: Part, unit: Unit) -> str:
    """Say which edge takes the lip."""
    has = any(one.what == "lip" for one in part.allowances)
    return f", {word('lip', unit)} in front" if has else ""


def buy_list_paper(issue: Issue) -> Paper:
    """Return the buy list."""
    bought = issue.estimate.buying
    blocks: list[Block] = [
        of_screen(table, ticked="got") for table in buy_tables(bought, issue.job)
    ]
    blocks += points(buy_lines(bought))
    blocks.append(together(heading("Before anything is cut"), *_measured(issue)))
    use = "what to buy, errand by errand"
    return Paper("buy-list", "Buy list", use, tuple(blocks), shop=False)


def _measured(issue: Issue) -> list[Block]:
    """Return a table to write the sheets' thickness in, as calipers show it."""
    used = dict.fromkeys((part.material, part.thickness) for part in issue.option.parts)
    rows = [(material, caliper(thick, issue.unit), "", "") for material, thick in used]
    columns = ("sheet", "planned for", "measured", "and at another corner")
    table = grid(columns, rows, wide=columns[2:], rules="written")
    return [
        table,
        *points(
            [
                "Thickness by calipers, away from the factory edge. Where it is another than"
                " planned, casewright plan --thickness works marks and parts out again before the"
                " first cut."
            ]
        ),
    ]


WIDE = 1000
"""Columns for the tables of the screen [-]: nothing is folded, the page folds."""


def sheet_pages(issue: Issue) -> Paper:
    """Return the sheets, one a page, after the settings that hold for all of them."""
    option, unit = issue.option, issue.unit
    blocks: list[Block] = []
    if option.settings:
        blocks.append(
            line(
                "Settings in the order of the work: set the saw once, make all its cuts on every"
                " sheet, then go on. Numbers of sheets and cuts are those of the pages that"
                " follow."
            )
        )
        blocks.append(of_screen(settings_table(option.settings, unit), ticked="done"))
    offcuts = offcut_table(option.sheets, unit)
    blocks += [of_screen(offcuts)] if offcuts else []
    blocks += [heading("At the saw"), *points(_notes(issue))]
    drawn = sheet_drawings(issue)
    blocks += _sheets(issue, [block for block, _ in drawn])
    if option.mouldings:
        blocks += [new_page(), heading("Mouldings")]
        blocks.append(of_screen(mouldings_table(option.mouldings, unit), ticked="done"))
        blocks.append(of_screen(stops_table(option.mouldings, unit), ticked="done"))
    return Paper(
        "sheets",
        "Sheets and cuts",
        "numbered cuts and saw settings",
        tuple(blocks),
        pictures=tuple(file for _, file in drawn),
    )


def _notes(issue: Issue) -> list[str]:
    notes = set_lines(issue.option.sets, issue.job.head.currency)
    return [
        *sawing_notes(issue.option.sheets),
        *notes,
        "Measure the first piece of each setting before the next is cut.",
    ]


def _sheets(issue: Issue, drawings: Sequence[Block]) -> Iterator[Block]:
    """Yield a page for each sheet: its drawing, and its cuts below."""
    option, unit = issue.option, issue.unit
    cuts = cut_tables(option.sheets, unit, WIDE)
    pages = zip(option.sheets, cuts, drawings, strict=True)
    for number, (sheet, table, drawing) in enumerate(pages, start=1):
        yield new_page()
        yield heading(f"Sheet {number}: {sheet_line(sheet, unit)}")
        yield drawing
        yield of_table(table.table, ticked="done")
