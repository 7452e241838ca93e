"""The short answer to a plan: what to choose, what it looks like, what it costs, what is wrong.

It fits 40 lines of 80 columns for an ordinary job; `plan_screen` has everything.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from rich.console import Console
from rich.table import Table
from rich.text import Text

from cli.screen.advice_tables import change_text, near_gain
from cli.screen.before_after import changed_line, changed_tables, freely_line
from cli.screen.case_pictures import key_entries, picture_keys, pictures_in
from cli.screen.console import plain_table
from cli.screen.on_hand_tables import have_lines
from cli.screen.option_comparison import price_text, stock_text
from cli.screen.warnings import grave, more_cautions, warnings
from cli.screen.wording import NONE, alike_bays, count, plain_name
from solver.outcome import Status
from solver.plan.plan import Option, Plan
from solver.planning.look_words import look_points
from solver.units import format_length

SHOWN_MOST = 3
"""Options that are shown beside each other at most [-]."""
EACH_LEAST = 30
"""Columns that an option takes at least [-]."""
LINES_MOST = 40
"""Lines of the whole answer, of an ordinary job [-]."""
WARNED_LEAST = 3
"""Lines that warnings have even where the pictures leave no room [-]."""
KEYS_MOST = 2
"""Lines of the key of the pictures [-]."""
NOTHING = "nothing"
MARKS_MOST = 3
"""Lines of marks [-]."""
CHANGES_MOST = 3
"""Changes that would do, of those found [-]."""
NOTES_MOST = 2
"""Notes on the first option [-]."""
ROWS = 13
"""Rows that the pictures take, where no case needs more [-]."""


def print_brief(console: Console, plan: Plan, *, plain: bool) -> None:
    """Print the short answer; `plain` draws with ASCII signs only."""
    told = warnings(plan.job, plan.options[0])
    console.print(Text(plain_name(plan.job.head.title), style="bold"))
    if plan.comparison is not None:
        above, below = _change(console, plan), told[:1]
    else:
        first = told[: 1 if grave(plan.options[0]) else 0]
        above = _answer(console, plan, first, plain=plain)
        below = told[len(first) :]
    more = _folded(list(_more(plan)), console.width)
    room = LINES_MOST - 1 - len(above) - len(more)
    for line in [*above, *_warned(below, max(WARNED_LEAST, room), console.width), *more]:
        console.print(Text(line), soft_wrap=True)


def _answer(console: Console, plan: Plan, first: Sequence[str], *, plain: bool) -> list[str]:
    """What to choose, and what the best options look like and cost."""
    width = console.width
    lines = _folded([plain_name(plan.recommendation)] if plan.recommendation else [], width)
    lines += _folded([_cut(line, width) for line in first], width)
    shown = [option for option in plan.options if option.cases][: _beside(width)]
    if shown:
        lines += filter(None, pictures_in(plan, shown, width, ROWS, plain=plain))
        lines += _few(wrap("; ".join(key_entries(plan, picture_keys(plan))), width), KEYS_MOST)
        lines += _rendered(console, _figures(plan, shown, width))
        lines += _few(list(_marks(plan, shown[0], width)), MARKS_MOST)
    lines += _folded(_why(plan), width)
    lines += _folded(_notes(plan, first), width)
    near = [plain_name(f"Near: {one.text}: {near_gain(plan, one)}") for one in plan.near[:1]]
    return lines + _folded(near, width)


def _change(console: Console, plan: Plan) -> list[str]:
    """What a plan changes against the one before it, and nothing else."""
    if plan.comparison is None:
        return []
    lines = _folded([changed_line(plan.comparison, plan.unit)], console.width)
    for titled in changed_tables(plan):
        lines += [titled.title, *_rendered(console, titled.table)]
    return lines + _folded(freely_line(plan), console.width)


def _rendered(console: Console, table: Table) -> list[str]:
    with console.capture() as shown:
        console.print(table)
    return [line.rstrip() for line in shown.get().splitlines()]


def _folded(lines: Sequence[str], width: int) -> list[str]:
    return [one for line in lines for one in wrap(line, width, subsequent_indent="  ")]


def _warned(told: Sequence[str], most: int, width: int) -> list[str]:
    """Two lines each where there is room, else one, the gravest first, and how many are left."""
    whole = _folded([_cut(line, width) for line in told], width)
    if len(whole) <= most:
        return whole
    lines = [line if len(line) <= width else f"{wrap(line, width - 2)[0]} …" for line in told]
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], f"… and {count(len(lines) - most + 1, 'more warning')}: --full"]


def _beside(width: int) -> int:
    return max(1, min(SHOWN_MOST, width // EACH_LEAST))


def _cut(text: str, width: int) -> str:
    """Keep what fits two lines; what is cut off ends with a sign that there is more."""
    lines = wrap(text, width - 2)
    return text if len(lines) <= 2 else f"{lines[0]} {lines[1][: width - 6]} …"


def _few(lines: Sequence[str], most: int) -> list[str]:
    """The first lines, the last of them saying how many more there are."""
    if len(lines) <= most:
        return list(lines)
    return [*lines[: most - 1], f"… and {len(lines) - most + 1} more lines: --full"]


def _figures(plan: Plan, options: Sequence[Option], width: int) -> Table:
    """The five figures that decide, an option a column."""
    label = 12
    each = (width - label - 2) // len(options) - 2
    table = plain_table()
    table.add_column("", width=label)
    for option in options:
        table.add_column(plain_name(option.name), width=each, overflow="fold")
    table.show_header = False
    rows = (
        ("price", [price_text(plan, option) for option in options]),
        ("to buy", [_stock(option) for option in options]),
        ("looks", [_look(option) for option in options]),
        ("left out", [_left_out(option) for option in options]),
        ("worst", [_worst(plan, option) for option in options]),
    )
    for name, cells in rows:
        if set(cells) != {NOTHING}:
            most = 1 if name == "worst" else 2
            table.add_row(name, *("\n".join(_short(cell, each, most)) for cell in cells))
    return table


def _short(cell: str, width: int, most: int) -> list[str]:
    """The first lines of a cell."""
    lines = wrap(cell, width)
    return (
        lines if len(lines) <= most else [*lines[: most - 1], f"{lines[most - 1][: width - 2]} …"]
    )


def _stock(option: Option) -> str:
    """What is bought, without the sizes of its sheets."""
    return "; ".join(line.split(", ")[0] for line in stock_text(option).split("\n"))


def _look(option: Option) -> str:
    return plain_name(", ".join(look_points(option)[:2])) or NONE


def _left_out(option: Option) -> str:
    if not option.left_out:
        return NOTHING
    names = [f"{left.count} {plain_name(left.item)}" for left in option.left_out]
    return ", ".join(names[:3]) + (f" and {len(names) - 3} more kinds" if names[3:] else "")


def _worst(plan: Plan, option: Option) -> str:
    told = warnings(plan.job, option)
    return told[0] if told else "no warning"


def _marks(plan: Plan, option: Option, width: int) -> Iterator[str]:
    groups = alike_bays(option)
    for group in groups:
        label = f", {plain_name(group.label(option))}" if len(groups) > 1 else ""
        marks = ", ".join(format_length(s.underside, plan.unit) for s in group.first.shelves)
        text = marks or "no shelves"
        yield from wrap(
            f"Marks of {plain_name(option.name)}{label}, {plan.unit}, undersides from the bottom"
            f" end: {text}",
            width,
            subsequent_indent="  ",
        )


def _why(plan: Plan) -> list[str]:
    """Why options do not work; not where none does, which is told as the error."""
    if not any(o.fits_all and o.status in (Status.OPTIMAL, Status.FEASIBLE) for o in plan.options):
        return []
    lines = []
    for option in plan.options:
        if option.why:
            cure = "".join(f"; {change_text(change)}" for change in option.changes[:1])
            lines.append(plain_name(f"{option.name}: {option.why}{cure}"))
    return _few(lines, CHANGES_MOST)


def _notes(plan: Plan, told: Sequence[str]) -> list[str]:
    """What else is to be said of the first option, and was not warned of."""
    option = plan.options[0]
    said = [plain_name(note) for note in (*have_lines(option), *option.notes)]
    return _few([note for note in said if note not in told], NOTES_MOST)


def _more(plan: Plan) -> Iterator[str]:
    """How much is not shown, and what shows it."""
    best = plan.options[0]
    parts = [count(more_cautions(plan.job, best), "caution")]
    others = len([option for option in plan.options if option.cases]) - SHOWN_MOST
    if others > 0:
        parts.append(count(others, "more option"))
    if len(plan.near) > 1:
        parts.append(count(len(plan.near) - 1, "near miss", "near misses"))
    yield "Guards on; eyes, ears, lungs covered; local code and makers' instructions first."
    yield f"--full: what stands where, parts, cuts, proof, {', '.join(parts)}."
