"""What to cut and what to buy: parts, sheets, mouldings with their stop settings, prices.

Also what came of the wishes for matched parts, and a cut plan (`casewright cut`) on the console.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from rich.console import Console
from rich.text import Text

from cli.screen.advice_tables import advice_line, advice_table, slack_lines, slack_table
from cli.screen.console import Titled, lined_up, plain_table, points
from cli.screen.sawing_tables import (
    cut_tables,
    offcut_table,
    prefix_of,
    sawing_notes,
    settings_table,
)
from cli.screen.wording import (
    NONE,
    alike_parts,
    amount,
    count,
    grouped,
    listed,
    percent,
    plain_name,
)
from solver.outcome import Status
from solver.plan.plan import Cost, CutPlan, Option
from solver.plan.saw_cuts import SawSetting, StickCut
from solver.plan.stocked import MatchedSet, Part, Sheet, Stick
from solver.units import Unit, format_length, with_unit
from solver.words import word

SHEETS_SHOWN = 60
"""Most sheets whose tables are printed; a list for so many is read from its files [-]."""


def print_cut_plan(console: Console, plan: CutPlan) -> None:
    """Print the parts, every sheet or stick, and the summary."""
    tables = [] if plan.mouldings is not None else [parts_table(plan.parts, plan.unit)]
    tables += _stock_tables(plan, console.width)
    sheets, sticks = plan.sheets or (), plan.mouldings or ()
    tables.append(slack_table(sheets[:SHEETS_SHOWN], sticks, plan.unit))
    if plan.advice:
        tables.append(advice_table(plan.advice, plan.unit, plan.cost.currency))
    for titled in tables:
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
        console.print()
    points(console, sawing_notes(plan.sheets or ()))
    for line in [*not_shown(plan), *summary(plan)]:
        console.print(line)


def parts_table(parts: Sequence[Part], unit: Unit) -> Titled:
    """Return the parts to cut, those that are alike counted; joint allowances are included."""
    figures = ("qty", "length", "width", "thick")
    table = plain_table("part", *figures, "material", "grain", "allowances", right=figures)
    several = len({part.case for part in parts}) > 1
    for alike in alike_parts(parts):
        part = alike[0]
        name = word(part.name, unit)
        table.add_row(
            f"{plain_name(part.case)}: {name}" if several else name,
            str(len(alike)),
            *(format_length(size, unit) for size in (part.length, part.width, part.thickness)),
            plain_name(part.material),
            "either" if part.grain == "any" else part.grain,
            allowances_text(part, unit),
        )
    return Titled(f"Parts ({unit}, as cut: allowances are in the sizes)", table)


def allowances_text(part: Part, unit: Unit) -> str:
    """Say what joints and clearances add to the finished length and width."""
    texts = []
    for allowance in part.allowances:
        sides = [
            f"{side} {'+' if length > 0 else ''}{format_length(length, unit)}"
            for side, length in (("length", allowance.length), ("width", allowance.width))
            if length
        ]
        texts.append(f"{word(allowance.what, unit)}: {', '.join(sides)}")
    return "; ".join(texts)


def sheet_tables(
    sheets: Sequence[Sheet], unit: Unit, width: int, settings: Sequence[SawSetting] = ()
) -> list[Titled]:
    """Return where pieces lie and the cuts of each sheet, then the saws' settings and offcuts."""
    both = zip(_piece_tables(sheets, unit, width), cut_tables(sheets, unit, width), strict=True)
    tables = [table for pair in both for table in pair]
    if settings:
        tables.append(settings_table(settings, unit))
    offcuts = offcut_table(sheets, unit)
    return [*tables, offcuts] if offcuts else tables


def _piece_tables(sheets: Sequence[Sheet], unit: Unit, width: int) -> list[Titled]:
    """Return a table of the pieces of each sheet, with where each lies, in `width` columns [-]."""
    columns = ("piece", "along", "across", "length", "width", "")
    rows = [
        [
            (
                plain_name(piece.part),
                *(format_length(v, unit) for v in (piece.x, piece.y, piece.length, piece.width)),
                "turned" if piece.turned else "",
            )
            for piece in sheet.pieces
        ]
        for sheet in sheets
    ]
    widths = lined_up([columns, *(row for some in rows for row in some)], width, folded=0)
    tables = []
    for number, (sheet, some) in enumerate(zip(sheets, rows, strict=True), start=1):
        table = plain_table(*columns, right=columns[1:5], widths=widths)
        for row in some:
            table.add_row(*row)
        tables.append(Titled(f"Sheet {number}: {sheet_line(sheet, unit)}", table))
    return tables


def sheet_line(sheet: Sheet, unit: Unit) -> str:
    """Return a sheet in one line: what it is, how large, how it is cut and how full it is."""
    size = f"{format_length(sheet.length, unit)} x {with_unit(sheet.width, unit)}"
    hand = ", on hand" if sheet.on_hand else ""
    trim = f"{with_unit(sheet.edge_trim, unit)} off each factory edge"
    used = percent(sheet_used_share(sheet))
    how = f"{sheet.first_cut} first, {count(len(sheet.cuts), 'cut')}, {used} used"
    return f"{plain_name(sheet.stock)}{hand} ({size}, {trim}; {how})"


def sheet_used_share(sheet: Sheet) -> float:
    """Return the share of a sheet that becomes parts [-]."""
    area = sum(piece.length * piece.width for piece in sheet.pieces)
    return area / (sheet.length * sheet.width)


def mouldings_table(sticks: Sequence[Stick], unit: Unit) -> Titled:
    """Return the sticks of moulding with their pieces, in the order in which they are cut."""
    table = plain_table("stick", "pieces, from one end")
    prefix = prefix_of([piece.part for stick in sticks for piece in stick.pieces])
    for number, stick in enumerate(sticks, start=1):
        pieces = [
            f"{_piece_name(p.part.removeprefix(prefix))} {format_length(p.length, unit)}"
            for p in stick.pieces
        ]
        hand = ", on hand" if stick.on_hand else ""
        name = f"{number}: {plain_name(stick.stock)}, {format_length(stick.length, unit)}{hand}"
        table.add_row(name, "\n".join(pieces))
    return Titled(f"Mouldings ({unit})", table)


def _piece_name(part: str) -> str:
    """Name a piece without the mark that it is trim: there is nothing else on these sticks."""
    return plain_name(part.replace("/trim-", "/").removeprefix("trim-"))


def price_table(option: Option, cost: Cost) -> Titled:
    """Return the lines of the price, what they come to, and what it cannot be less than."""
    table = plain_table("to buy", "qty", "each", "together", right=("qty", "each", "together"))
    stock: list[Sheet | Stick] = [*option.sheets, *option.mouldings]
    for alike in grouped(stock, lambda s: (s.stock, s.length, s.on_hand, s.price)):
        first = alike[0]
        each, together = _price_of(first, len(alike), cost.currency)
        table.add_row(plain_name(first.stock), str(len(alike)), each, together)
    table.add_section()
    missing = "" if cost.complete else ", prices are missing"
    if cost.complete or cost.total:
        total, bound = amount(cost.total, cost.currency), amount(cost.stock_bound, cost.currency)
        table.add_row(f"total ({cost.total_is}{missing})", "", "", total)
        table.add_row("stock cannot cost less than", "", "", bound)
    table.add_row("sheets to buy", str(option.sheet_count), "", "")
    table.add_row("sheets cannot be fewer than", str(option.sheet_bound), "", "")
    return Titled("Price", table)


def _price_of(stock: Sheet | Stick, number: int, currency: str) -> tuple[str, str]:
    """Return the price of one and of all, in words where it costs nothing or is not known."""
    if stock.on_hand:
        return "on hand", amount(Decimal(0), currency)
    if stock.price is None:
        return "no price", NONE
    return amount(stock.price, currency), amount(stock.price * number, currency)


def set_lines(sets: Sequence[MatchedSet], currency: str) -> list[str]:
    """Return a sentence for each set: where its parts lie in order, or what it would cost."""
    return [f"Matched set {plain_name(one.name)}: {_outcome(one, currency)}." for one in sets]


def _outcome(one: MatchedSet, currency: str) -> str:
    if not one.granted:
        return f"not granted, {_refused(one, currency)}"
    names = ", ".join(plain_name(part) for part in one.parts)
    if len(one.parts) == 1:
        return f"granted, {names} on sheet {one.sheet}"
    way = "along the sheet" if one.laid == "along" else "across the sheet"
    return f"granted, on sheet {one.sheet}, {way} from the factory corner: {names}"


def _refused(one: MatchedSet, currency: str) -> str:
    """Say why a set is not granted, or what it would cost."""
    if one.why is not None:
        return one.why
    price = f"{amount(one.costs, currency)} more" if one.costs else ""
    sheets = one.more_sheets or 0
    more = f"{count(sheets, 'sheet')} more" if sheets > 0 else ""
    both = f"{price} ({more})" if price and more else price or more or "larger sheets"
    return f"it would take {both}"


def stops_table(sticks: Sequence[Stick], unit: Unit) -> Titled:
    """Return each setting of the stop: how many pieces, and which cuts of which sticks.

    The end of the stick lies against the stop; the saw cut is on the far side of the piece.
    """
    table = plain_table("setting", "stop at", "pieces", "cuts", right=("setting", "stop at"))
    numbered = [(n, cut) for n, stick in enumerate(sticks, start=1) for cut in stick.cuts]
    for batch in sorted({cut.batch for _, cut in numbered}):
        some = [(number, cut) for number, cut in numbered if cut.batch == batch]
        table.add_row(
            str(batch), format_length(some[0][1].setting, unit), str(len(some)), _cuts(some)
        )
    return Titled(f"Stop settings for mouldings ({unit}, longest first, all sticks)", table)


def _cuts(some: Sequence[tuple[int, StickCut]]) -> str:
    """Name the cuts by stick: `stick 1: cuts 1 and 2; stick 3: cut 1`."""
    by_stick: dict[int, list[str]] = {}
    for number, cut in some:
        by_stick.setdefault(number, []).append(str(cut.number))
    return "; ".join(
        f"stick {number}: {count(len(cuts), 'cut').split(' ', 1)[1]} {listed(cuts)}"
        for number, cuts in by_stick.items()
    )


def _stock_tables(plan: CutPlan, width: int) -> list[Titled]:
    if plan.mouldings is not None:
        return [
            mouldings_table(plan.mouldings, plan.unit),
            stops_table(plan.mouldings, plan.unit),
        ]
    sheets = plan.sheets or ()
    whole = len(sheets) <= SHEETS_SHOWN
    return sheet_tables(sheets[:SHEETS_SHOWN], plan.unit, width, plan.settings if whole else ())


def not_shown(plan: CutPlan) -> list[str]:
    """Say where the tables are that are too many to print."""
    last = len(plan.sheets or ())
    if last <= SHEETS_SHOWN:
        return []
    return [
        f"Sheets {SHEETS_SHOWN + 1} to {last}, and the settings of the saws over all sheets, are "
        "not printed: --json FILE and --csv FOLDER have them."
    ]


def summary(plan: CutPlan) -> list[str]:
    """Return what is bought, what it costs, how much becomes parts, and what is proven."""
    bought = count(plan.sheet_count, _stock_word(plan))
    lines = [f"To buy: {bought}; fewer than {plan.sheet_bound} cannot do."]
    if plan.cost.complete:
        total, bound = (
            amount(m, plan.cost.currency) for m in (plan.cost.total, plan.cost.stock_bound)
        )
        lines.append(f"Price: {total}; less than {bound} cannot do.")
    else:
        lines.append("Price: not known, since prices are missing.")
    if plan.sheets:
        lines.append(f"Board used: {used_share(plan.sheets) * 100:.0f} % of the sheets.")
    lines += set_lines(plan.sets, plan.cost.currency)
    lines += slack_lines(plan.sheets or (), plan.mouldings or (), plan.unit)
    return [*lines, *advice_line(plan.advice_note), status_line(plan)]


def _stock_word(plan: CutPlan) -> str:
    return "stick" if plan.mouldings is not None else "sheet"


def used_share(sheets: tuple[Sheet, ...]) -> float:
    """Return the share of all sheets that becomes parts [-]."""
    area = sum(piece.length * piece.width for sheet in sheets for piece in sheet.pieces)
    return area / sum(sheet.length * sheet.width for sheet in sheets)


def status_line(plan: CutPlan) -> str:
    """Say in plain words what is proven."""
    best = "cheapest" if plan.cost.complete and plan.cost.total else "least stock"
    if plan.status is Status.OPTIMAL:
        return f"Proven: this is the {best} that can do."
    return f"Best found: whether it is the {best} that can do is not proven."
