"""A job as understood, before it is solved: its cases and what their openings would be."""

from __future__ import annotations

from collections.abc import Iterator

from rich.table import Table

from cli.tables.style import plain_table
from cli.tables.trim import term
from cli.tables.words import NONE, count, plain_name, triple
from solver.case import Case, SizeRange
from solver.geometry import Box
from solver.job import Job
from solver.precheck import deepest_box, even_clear
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
    said = [
        f"{name} open, {case.sizes} {format_length(size.least, job.unit)} to "
        f"{format_length(size.most, job.unit)}"
        for name, size in named
        if isinstance(size, SizeRange)
    ]
    if len(case.bay_counts) > 1:
        said.append(f"{' or '.join(map(str, case.bay_counts))} bays")
    shown = ["; ".join(said) + "; largest shown"] if said else []
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
        asked = [*_trim_asked(case, job.unit)]
        if case.light is not None:
            asked.append(
                f"light, {case.light.watts:g} W a {'foot' if job.unit == 'in' else 'metre'}"
            )
        if case.glass is not None:
            asked.append("glass")
        if asked:
            lines.append(f"{plain_name(case.name)}: {', '.join(asked)}")
    return lines


def _trim_asked(case: Case, unit: Unit) -> Iterator[str]:
    order = case.trim
    if order is None:
        return
    if order.set != "none":
        of = f" of {plain_name(order.casing)}" if order.casing else ""
        yield f"{order.set} {term('casing', unit)}{of}"
    if order.flutes:
        yield f"{count(order.flutes, 'flute')} a leg"
    for what, name in (
        ("baseboard", order.baseboard),
        ("scribe strips", order.scribe),
        ("edge bands", order.band),
    ):
        if name is not None:
            yield f"{term(what, unit)} of {plain_name(name)}"


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
