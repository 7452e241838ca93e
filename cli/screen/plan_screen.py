"""A whole plan on the console: options side by side, pictures, then the details.

The details are what stands where, the marks, the cuts, and what each stage of the order of wishes
reached and proved.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from textwrap import fill

from rich.console import Console
from rich.text import Text

from cli.screen.advice_tables import (
    advice_line,
    advice_table,
    change_text,
    near_line,
    near_table,
    slack_lines,
    slack_table,
)
from cli.screen.before_after import changed_line, changed_tables, freely_line
from cli.screen.case_pictures import picture_keys, pictures
from cli.screen.caution_lines import cautions
from cli.screen.console import Titled, lined_up, plain_table, points
from cli.screen.cutting_tables import (
    mouldings_table,
    parts_table,
    price_table,
    set_lines,
    sheet_tables,
    stops_table,
)
from cli.screen.marking_tables import band_lines, band_tables, lines_apart_notes, marking_tables
from cli.screen.on_hand_tables import have_lines, have_tables
from cli.screen.option_comparison import comparison, shared_lines, shared_tables
from cli.screen.sawing_tables import sawing_notes
from cli.screen.strength_tables import hold_lines, sag_lines, sag_table
from cli.screen.wording import NONE, listed, mass_text, of_stage, percent, plain_name, triple
from solver.plan.built import Bay, CasePlan, Opening, Placement
from solver.plan.plan import Option, Plan
from solver.planning.arrangement_words import NAMED
from solver.planning.look_words import look_points, parted
from solver.planning.look_words import points as told
from solver.strength.cautions import cautions_of
from solver.units import Unit, format_length, with_unit

READING = (
    "Lengths: + or − after a size says that the true size is a little more or less.",
    "Sheets: pieces are placed from the factory corner, along the sheet and across it.",
)
"""How the tables are to be read."""


def print_plan(console: Console, plan: Plan, *, every: bool) -> None:
    """Print `plan`; the details of the recommended option, or with `every` of all."""
    console.print(Text(plain_name(plan.job.head.title), style="bold"))
    if plan.recommendation:
        console.print(plain_name(plan.recommendation))
    for line in point_by_point(plan.options):
        print_hung(console, line)
    _print_changed(console, plan)
    console.print()
    for table in comparison(plan, console.width):
        console.print(table)
        console.print()
    _print_remarks(console, plan)
    _print_near(console, plan)
    for line in pictures(plan, console.width, plain=is_plain(console)):
        console.print(Text(line), soft_wrap=True)
    for option in plan.options:
        if option.cases and (every or "recommended" in option.tags or plan.comparison):
            _print_details(console, plan, option)


def point_by_point(options: Sequence[Option]) -> list[str]:
    """Return what each option looks like, a line each; none where nothing is said."""
    return [plain_name(told(option)) for option in options if look_points(option)]


def print_hung(console: Console, line: str) -> None:
    """Print a line, what does not go on it indented under it."""
    console.print(fill(line, console.width, subsequent_indent="  "))


def _print_changed(console: Console, plan: Plan) -> None:
    """Print what has changed since the plan before, where there was one."""
    if plan.comparison is None:
        return
    console.print(fill(changed_line(plan.comparison, plan.unit), console.width))
    for titled in changed_tables(plan):
        console.print()
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
    for line in freely_line(plan):
        console.print()
        console.print(fill(line, console.width))


def is_plain(console: Console) -> bool:
    """Return whether the console's encoding lacks the signs that lines are drawn with."""
    return not console.encoding.lower().startswith("utf")


def _print_remarks(console: Console, plan: Plan) -> None:
    """Print why options do not work, what would do, and notes; each once, with the names."""
    for names, lines in option_remarks(plan.options):
        console.print(Text(plain_name(names), style="bold"))
        for line in lines:
            text = plain_name(line)
            console.print(fill(text, console.width, initial_indent="  ", subsequent_indent="  "))
        console.print()
    if plan.not_shown:
        console.print(f"{plan.not_shown} worse combinations of shelf counts are not shown.\n")


def _print_near(console: Console, plan: Plan) -> None:
    """Print the near misses, or that there is none."""
    if plan.near:
        titled = near_table(plan)
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
    for line in near_line(plan.near_note):
        console.print(fill(line, console.width))
    if plan.near or plan.near_note:
        console.print()


def option_remarks(options: Sequence[Option]) -> list[tuple[str, list[str]]]:
    """Return what is to be said about options, with the names of those it holds for."""
    names_of: dict[tuple[str, ...], list[str]] = {}
    for option in options:
        why = option.why or ""
        lines = ([why] if why else []) + [change_text(change) for change in option.changes]
        lines += [*lines_apart_notes(option), *option.notes]
        if lines:
            names_of.setdefault(tuple(lines), []).append(option.name)
    return [("; ".join(names), list(lines)) for lines, names in names_of.items()]


def _print_details(console: Console, plan: Plan, option: Option) -> None:
    console.print()
    console.rule(plain_name(option.name), align="left", style="default")
    for titled in _details(plan, option, console.width):
        console.print()
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
    console.print()
    room = set_lines(option.sets, plan.job.head.currency)
    room += slack_lines(option.sheets, option.mouldings, plan.unit)
    lines = [
        *READING,
        *band_lines(option.band, plan.job.head.currency),
        *shared_lines(option),
        *together_lines(plan, option),
        *have_lines(option),
        *sawing_notes(option.sheets),
        *room,
        *advice_line(option.advice_note),
        *sag_lines(option, plan.unit),
        *hold_lines(option, plan.unit),
        *cautions(plan.job, option),
        *(one.text for one in cautions_of(plan.job, option)),
    ]
    points(console, lines)


def together_lines(plan: Plan, option: Option) -> list[str]:
    """Name all that could not be kept on one shelf, where a sentence names only some of it."""
    apart = parted(plan.job, option.cases)
    return [plain_name(f"Not on one shelf: {listed(apart)}.")] if len(apart) > NAMED else []


def _details(plan: Plan, option: Option, width: int) -> list[Titled]:
    unit = plan.unit
    tables = [
        *marking_tables(option, unit),
        *standing_tables(option, unit, picture_keys(plan), width),
    ]
    tables += sag_table(option, unit)
    tables.append(parts_table(option.parts, unit))
    tables += shared_tables(option)
    tables += have_tables(plan.job, option)
    tables += band_tables(option.band, unit)
    tables += sheet_tables(option.sheets, unit, width, option.settings)
    if option.mouldings:
        tables.append(mouldings_table(option.mouldings, unit))
        tables.append(stops_table(option.mouldings, unit))
    if option.sheets or option.mouldings:
        tables.append(slack_table(option.sheets, option.mouldings, unit))
    if option.advice:
        tables.append(advice_table(option.advice, unit, plan.job.head.currency))
    if option.cost is not None:
        tables.append(price_table(option, option.cost))
    return [*tables, stages_table(option, unit, plan.job.head.currency)]


def stages_table(option: Option, unit: Unit, currency: str) -> Titled:
    """Return the stages of an option with value, proven bound, whether they meet, and in words."""
    table = plain_table("wish", "reached", "bound", "proven", "", right=("reached", "bound"))
    for stage in option.stages:
        bound = NONE if stage.bound is None else of_stage(stage.bound, stage, unit, currency)
        reached = of_stage(stage.value, stage, unit, currency)
        if stage.unit == "money" and _no_prices(option):
            reached = bound = NONE
        table.add_row(
            stage.name,
            reached,
            bound,
            "yes" if stage.proven else "no",
            plain_name("; ".join(text for text in (stage.sentence, stage.note) if text)),
        )
    return Titled("What is proven, in the order of wishes", table)


def _no_prices(option: Option) -> bool:
    """Whether nothing that is bought has a price, so that amounts would all read nothing."""
    return option.cost is not None and not option.cost.complete and not option.cost.total


COLUMNS = ("", "thing", "from left", "W x H x D", "headroom")


def standing_tables(
    option: Option, unit: Unit, keys: Mapping[str, str], width: int
) -> list[Titled]:
    """Return a table for each opening, bay by bay, the lowest opening first.

    `keys` are the letters of the picture by kind of thing; `width` is the columns there
    are [-].
    """
    openings = [
        (f"Opening {opening.index}{bay_label(option, case, bay)}{_heading(opening, unit)}", opening)
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
    ]
    rows = [_rows(opening, unit, keys) for _, opening in openings]
    widths = lined_up([COLUMNS, *(row for some in rows for row in some)], width, folded=1)
    tables = []
    for (title, _), some in zip(openings, rows, strict=True):
        table = plain_table(*COLUMNS, right=("from left", "headroom"), widths=widths)
        table.show_header = False
        for row in some:
            table.add_row(*row)
        tables.append(Titled(title, table))
    if tables:
        tables[0].table.show_header = True
    return tables


def bay_label(option: Option, case: CasePlan, bay: Bay) -> str:
    """Return `, case, bay 2`, as far as there are several to tell apart."""
    label = f", {plain_name(case.name)}" if len(option.cases) > 1 else ""
    return f"{label}, bay {bay.number}" if len(case.bays) > 1 else label


def _heading(opening: Opening, unit: Unit) -> str:
    lip = ""
    if opening.lip_above_floor or opening.lip_below_ceiling:
        daylight = opening.height - opening.lip_above_floor - opening.lip_below_ceiling
        lip = f", {with_unit(daylight, unit)} daylight"
    clear = with_unit(opening.height, unit)
    if not opening.items:
        return f": {clear} clear{lip}, empty"
    load = f"{mass_text(opening.load, unit)} of {mass_text(opening.load_limit, unit)}"
    return f": {clear} clear{lip}, {percent(opening.fill)} full, {load}"


def _rows(opening: Opening, unit: Unit, keys: Mapping[str, str]) -> list[tuple[str, ...]]:
    return [
        (
            keys.get(thing.item, ""),
            f"{plain_name(thing.item)}{_notes(thing, unit)}",
            format_length(thing.x, unit),
            triple((thing.width, thing.height, thing.depth), unit),
            format_length(thing.headroom, unit),
        )
        for thing in sorted(opening.items, key=lambda t: (t.x, t.row, t.y))
    ]


def _notes(thing: Placement, unit: Unit) -> str:
    """How a thing stands, where that is not plainly on the shelf in the front row."""
    notes = []
    if thing.row > 1:
        notes.append(f"row {thing.row}, {with_unit(thing.z, unit)} back")
    if thing.on is not None:
        notes.append("on the one below")
    elif thing.y:
        notes.append(f"on a riser of {with_unit(thing.y, unit)}")
    if thing.lying:
        notes.append("lying")
    return f" ({', '.join(notes)})" if notes else ""
