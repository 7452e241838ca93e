"""A job as understood, before it is solved: its cases, their openings, how lists were read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.table import Table

from cli.screen.console import plain_table
from cli.screen.trim_tables import trade_term
from cli.screen.wording import NONE, count, mass_text, plain_name, triple
from solver.carcass.boards_of_case import Box
from solver.intake.precheck import deepest_box, even_clear
from solver.job.case import Case, SizeRange
from solver.job.inventory import Item
from solver.job.job import Job
from solver.listing.line_readings import LineReading, Listing
from solver.units import Unit, format_length, with_unit


def cases_table(job: Job) -> Table:
    """Return the sizes of each case, outside and inside."""
    table = plain_table("case", "kind", "outside W x H x D", "inside W x H x D", "bays", "sizes")
    for case in job.cases:
        sizes = deepest_box(job, case)
        outside = sizes.outside_width, sizes.outside_height, sizes.outside_depth
        inside = sizes.inside_width, sizes.inside_height, sizes.depth
        table.add_row(
            plain_name(case.name),
            case.kind,
            triple(outside, job.unit),
            triple(inside, job.unit),
            _bays(job, sizes),
            _open(job, case),
        )
    return table


def _bays(job: Job, sizes: Box) -> str:
    width = format_length(sizes.bays[0][1], job.unit)
    return f"{len(sizes.bays)} of {width}"


def _open(job: Job, case: Case) -> str:
    """Say which sizes are open, and within what."""
    named = (("width", case.width), ("height", case.height), ("depth", case.depth))
    words = [
        f"{name} open, {case.sizes} {format_length(size.least, job.unit)} to "
        f"{format_length(size.most, job.unit)}"
        for name, size in named
        if isinstance(size, SizeRange)
    ]
    if len(case.bay_counts) > 1:
        words.append(f"{' or '.join(map(str, case.bay_counts))} bays")
    shown = ["; ".join(words) + "; largest shown"] if words else []
    if case.depth is None:
        shown.append("depth from the deepest thing")
    return "; ".join(shown) or "as given"


def openings_table(job: Job) -> Table:
    """Return the clear height of even spacing for each shelf count that is allowed."""
    heads = ("case", "shelves", "openings", "clear height, even")
    table = plain_table(*heads, right=heads[1:])
    for case in job.cases:
        sizes = deepest_box(job, case)
        for shelves in case.shelf_counts:
            clear = even_clear(sizes.inside_height, shelves, sizes.thickness)
            shown = format_length(clear, job.unit) if clear > 0 else NONE
            table.add_row(plain_name(case.name), str(shelves), str(shelves + 1), shown)
    return table


def trim_lines(job: Job) -> list[str]:
    """Say of each case what trim, light and glass are asked for."""
    lines = []
    for case in job.cases:
        orders = [*_trim_asked(case, job.unit)]
        if case.light is not None:
            orders.append(
                f"light, {case.light.watts:g} W a {'foot' if job.unit == 'in' else 'metre'}"
            )
        if case.glass is not None:
            orders.append("glass")
        if orders:
            lines.append(f"{plain_name(case.name)}: {', '.join(orders)}")
    return lines


def _trim_asked(case: Case, unit: Unit) -> Iterator[str]:
    order = case.trim
    if order is None:
        return
    if order.set != "none":
        of = f" of {plain_name(order.casing)}" if order.casing else ""
        yield f"{order.set} {trade_term('casing', unit)}{of}"
    if order.flutes:
        yield f"{count(order.flutes, 'flute')} a leg"
    for what, name in (
        ("baseboard", order.baseboard),
        ("scribe strips", order.scribe),
        ("edge bands", order.band),
    ):
        if name is not None:
            yield f"{trade_term(what, unit)} of {plain_name(name)}"


def tight_counts(job: Job) -> list[str]:
    """Say which shelf counts leave openings lower than the least clear height, evenly spaced."""
    least = job.look.clear_least
    return [
        f"case {plain_name(case.name)!r} with {count(shelves, 'shelf', 'shelves')}: even openings "
        f"would be lower than clear_least, {with_unit(least, job.unit)}"
        for case in job.cases
        for shelves in case.shelf_counts
        if even_clear(_inside(job, case), shelves, job.thickness(case.material)) < least
    ]


def _inside(job: Job, case: Case) -> int:
    return deepest_box(job, case).inside_height


_TEXT_MOST = 60
"""The units in full, since `in in` is hard to read."""


def readings_table(listing: Listing, unit: Unit) -> Table:
    """Return a row for each line of a list that is not blank; the summary counts those."""
    heads = ("line", "thing", "count", "W x H x D", "weight of one", "how it was read")
    table = plain_table(*heads, right=("line", "count"))
    for line in listing.lines:
        if line.item is not None:
            doubt = "in doubt, asked below; likeliest: " if line.doubts else ""
            table.add_row(str(line.number), *_cells(line.item, unit), f"{doubt}{_notes(line)}")
        elif line.problems:
            table.add_row(str(line.number), _text(line), "", "", "", "not read, see below")
        elif line.skipped != "blank":
            table.add_row(str(line.number), _text(line), "", "", "", _notes(line))
    return table


def items_table(items: Sequence[Item], unit: Unit) -> Table:
    """Return a row for each kind of thing of a job."""
    heads = ("thing", "count", "W x H x D", "weight of one", "wishes")
    table = plain_table(*heads, right=("count",))
    for item in items:
        table.add_row(*_cells(item, unit), ", ".join(wishes(item)))
    return table


def summary(listing: Listing) -> str:
    """Say how many things there are, and how many lines hold none."""
    things = sum(item.count for item in listing.items)
    skipped = [line for line in listing.lines if line.skipped is not None and not line.problems]
    reasons = sorted({line.skipped for line in skipped if line.skipped})
    text = (
        f"{count(things, 'thing')} of {count(len(listing.items), 'kind')} "
        f"on {count(len(listing.lines), 'line')}"
    )
    if skipped:
        text += f"; {count(len(skipped), 'line')} without a thing ({', '.join(reasons)})"
    return text


def wishes(item: Item) -> list[str]:
    """Return how and where a thing is to stand, where the job says so."""
    return [
        text
        for text, said in (
            ("sizes guessed", item.guessed),
            ("may lie", item.may_lie),
            (f"stack {item.stack}", item.stack > 1),
            (f"{item.rows} rows deep", item.rows > 1),
            (f"group {plain_name(item.group or '')}", item.group is not None),
            (f"heading {plain_name(item.heading or '')}", item.heading is not None),
            (f"keep {item.keep}", item.keep != "should"),
            ("hero", item.hero),
            ("fragile", item.fragile),
            (f"no. {item.order} in its series", item.order is not None),
            ("on one shelf", item.together),
            (f"apart from {', '.join(map(plain_name, item.apart))}", bool(item.apart)),
            (f"where {item.where}", item.where is not None),
            ("own gap", item.gap is not None),
            (f"picture {plain_name(item.picture or '')}", item.picture is not None),
        )
        if said
    ]


def _cells(item: Item, unit: Unit) -> tuple[str, str, str, str]:
    weight = NONE if item.weight is None else mass_text(item.weight, unit)
    sizes = triple((item.width, item.height, item.depth), unit)
    return plain_name(item.name), str(item.count), sizes, weight


def _notes(line: LineReading) -> str:
    notes = wishes(line.item) if line.item else [f"skipped: {line.skipped}"]
    return plain_name("; ".join([*notes, *line.notes]))


def _text(line: LineReading) -> str:
    shown = line.text if len(line.text) <= _TEXT_MOST else line.text[:_TEXT_MOST] + "…"
    return plain_name(shown)
