"""The options side by side: what each fits, looks like and costs; and its sheets of a batch."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence

from rich.table import Table

from cli.screen.console import Titled, plain_table
from cli.screen.look_cells import air_text, outline_text, parted_text, steps_text
from cli.screen.wording import (
    NONE,
    AlikeBays,
    alike_bays,
    amount,
    count,
    listed,
    mass_text,
    percent,
    plain_name,
    short_text,
    status_text,
    tag_words,
    triple,
)
from solver.plan.plan import Option, Plan
from solver.plan.stocked import Sheet, Stick
from solver.planning.look_words import look_points
from solver.units import Unit, format_length

LABEL_WIDTH = 18
OPTION_WIDTH = 15
"""Least columns of one option, so that four stand side by side on 80 columns."""

LINES_MOST = 6
"""Most lines that a client is given of what does not fit [-]; the screen has all."""

Row = tuple[str, Callable[[Plan, Option], str]]


def comparison(plan: Plan, width: int) -> list[Table]:
    """Return the options side by side, in as many tables as the width asks for.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are [-].
    """
    each = max(1, (width - LABEL_WIDTH - 1) // OPTION_WIDTH)
    options = plan.options
    return [_side_by_side(plan, options[at : at + each]) for at in range(0, len(options), each)]


def _side_by_side(plan: Plan, options: Sequence[Option]) -> Table:
    table = plain_table()
    # a fixed width: one that could give way would be restored, and the last option cut off
    table.add_column("", width=LABEL_WIDTH - 2, overflow="fold")
    for option in options:
        table.add_column(plain_name(option.name), min_width=OPTION_WIDTH - 3, overflow="fold")
    for label, cell in _rows(plan):
        cells = [cell(plan, option) for option in options]
        if any(text not in ("", NONE) for text in cells):
            table.add_row(label, *cells)
    return table


def _rows(plan: Plan) -> list[Row]:
    unit = plan.unit
    return [
        ("", lambda _, option: ", ".join(tag_words(option))),
        ("status", lambda p, option: status_text(option, unit, p.job.head.currency)),
        ("shelves/openings", lambda _, option: _counts(option)),
        (f"outside WxHxD, {unit}", lambda _, option: _outside(option, unit)),
        (f"clear heights, {unit}, bottom up", lambda _, option: _clear(option, unit)),
        (f"marks, {unit}, from the bottom end", lambda _, option: _marks(option, unit)),
        ("places parted", lambda _, option: parted_text(option)),
        ("step per opening", lambda _, option: steps_text(option, unit)),
        ("off the mirror", lambda _, option: outline_text(option)),
        ("air over things", lambda _, option: air_text(option, unit)),
        ("fill, bottom up", lambda _, option: _fill(option)),
        ("does not fit", lambda _, option: _left_out(option, unit)),
        (
            "wishes missed",
            lambda _, option: str(option.scores.wishes_missed if option.scores else NONE),
        ),
        ("parts to cut", lambda _, option: str(len(option.parts)) if option.parts else NONE),
        ("to buy", lambda _, option: stock_text(option)),
        ("price", price_text),
        ("proven bound", _bound),
        (
            "board used",
            lambda _, option: _board_used(option),
        ),
        ("weight of things", lambda _, option: _weight(option, unit)),
    ]


def client_rows(plan: Plan, options: Sequence[Option]) -> list[tuple[str, ...]]:
    """Return what a client compares: a label, then each option's cell; no row of blanks."""
    unit = plan.unit
    rows: list[tuple[str, Callable[[Option], str]]] = [
        ("shelves / openings", _counts),
        (f"outside, W x H x D, {unit}", lambda option: _outside(option, unit)),
        (f"clear heights, {unit}, lowest first", lambda option: _clear(option, unit)),
        ("how it looks", lambda option: "\n".join(look_points(option))),
        ("room above things", lambda option: air_text(option, unit)),
        ("does not fit", lambda option: _first_lines(_left_out(option, unit))),
        ("weight of what is shown", lambda option: _weight(option, unit)),
    ]
    shown_rows = [(label, *(cell(option) for option in options)) for label, cell in rows]
    return [row for row in shown_rows if any(text not in ("", NONE) for text in row[1:])]


def _first_lines(text: str) -> str:
    """Return the first lines of a list, with how many more there are."""
    lines = text.split("\n")
    if len(lines) <= LINES_MOST:
        return text
    return "\n".join([*lines[: LINES_MOST - 1], f"and {len(lines) - LINES_MOST + 1} more kinds"])


def _counts(option: Option) -> str:
    """Shelves and openings of each bay; the bays of a case in one line where they agree."""
    lines = []
    for case, counts in option.shelf_counts.items():
        texts = [f"{n} / {n + 1}" for n in counts]
        same = f"{texts[0]} in each bay" if len(texts) > 1 else texts[0]
        text = same if len(set(texts)) == 1 else ", ".join(texts)
        lines.append(text if len(option.shelf_counts) == 1 else f"{plain_name(case)}: {text}")
    return "\n".join(lines)


def _outside(option: Option, unit: Unit) -> str:
    lines = []
    for case in option.cases:
        size = triple((case.outside.width, case.outside.height, case.outside.depth), unit)
        lines.append(size if len(option.cases) == 1 else f"{plain_name(case.name)}: {size}")
    return "\n".join(lines)


def _by_bays(option: Option, lines: Callable[[AlikeBays], list[str]]) -> str:
    """Lines for each group of bays that are alike, under its label where there are several."""
    groups, blocks = alike_bays(option), []
    for group in groups:
        label = plain_name(group.label(option)) if len(groups) > 1 else ""
        blocks += ([f"{label}:"] if label else []) + lines(group)
    return "\n".join(blocks)


def _clear(option: Option, unit: Unit) -> str:
    return _by_bays(
        option,
        lambda group: [
            f"{opening.index:>2}  {format_length(opening.height, unit)}"
            for opening in group.first.openings
        ],
    )


def _marks(option: Option, unit: Unit) -> str:
    return _by_bays(
        option,
        lambda group: (
            [
                f"{shelf.index:>2}  {format_length(shelf.underside, unit)}"
                for shelf in group.first.shelves
            ]
            or ["no shelves"]
        ),
    )


def _fill(option: Option) -> str:
    return _by_bays(option, lambda group: [_fill_line(group, k) for k in _indices(group)])


def _indices(group: AlikeBays) -> list[int]:
    return [opening.index for opening in group.first.openings]


def _fill_line(group: AlikeBays, index: int) -> str:
    """Fill of opening `index`, as a range where the bays differ."""
    fills = [bay.openings[index].fill for bay in group.bays]
    least, most = percent(min(fills)), percent(max(fills))
    text = most if least == most else f"{min(fills) * 100:.0f}–{most}"
    return f"{index:>2}  {text}"


def _left_out(option: Option, unit: Unit) -> str:
    if not option.cases:
        return NONE
    return "\n".join(
        f"{left.count} {plain_name(left.item)}: {short_text(left.short_by, unit)}"
        for left in option.left_out
    )


def stock_text(option: Option) -> str:
    """Return sheets and sticks by what they are, those on hand apart."""
    stock: list[Sheet | Stick] = [*option.sheets, *option.mouldings]
    counts = Counter((one.stock, one.on_hand) for one in stock)
    lines = [
        f"{number} {plain_name(name)}{' (on hand)' if on_hand else ''}"
        for (name, on_hand), number in counts.items()
    ]
    return "\n".join(lines) or shared_text(option) or NONE


def _board_used(option: Option) -> str:
    if option.scores is None or option.shared is not None:
        return NONE
    return percent(option.scores.board_used)


def price_text(plan: Plan, option: Option) -> str:
    """Return the price of an option, and whether all of it is known."""
    if option.cost is None:
        return NONE
    text = amount(option.cost.total, plan.job.head.currency)
    if option.cost.complete:
        return text
    return f"{text}, prices missing" if option.cost.total else "no prices given"


def _bound(plan: Plan, option: Option) -> str:
    """The least that sheets and mouldings could cost; without prices, the fewest sheets."""
    if option.cost is None or not option.cases:
        return NONE
    if not option.cost.complete and not option.cost.stock_bound:
        return f"at least {count(option.sheet_bound, 'sheet')}" if option.sheets else NONE
    return amount(option.cost.stock_bound, plan.job.head.currency)


def _weight(option: Option, unit: Unit) -> str:
    things = [
        thing
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
        for thing in opening.items
    ]
    if not things:
        return NONE
    assumed = sum(thing.mass_assumed for thing in things)
    total = mass_text(sum(thing.mass for thing in things), unit)
    return f"{total}, {assumed} assumed" if assumed else total


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
    names_on: dict[int, list[str]] = {number: [] for number in sorted(set(numbers.values()))}
    for part, number in numbers.items():
        names_on[number].append(part)
    return names_on


def shared_text(option: Option) -> str | None:
    """Return in short which sheets of the batch carry parts; None outside of batches."""
    shared = option.shared
    if shared is None:
        return None
    lines = []
    for word, numbers in (("sheet", shared.sheets), ("stick", shared.mouldings)):
        numbered = [str(number) for number in _by_number(numbers)]
        if numbered:
            lines.append(
                f"{word}{'' if len(numbered) == 1 else 's'} {listed(numbered)} of the batch"
            )
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
