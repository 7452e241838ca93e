"""A survey as tables and lines: what is out and what to do, what is missing, sizes."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from cli.screen.console import plain_table
from cli.screen.wording import plain_name
from solver.doorway.survey import Judgement
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.plan.swinging import PlaceSize, PlaceSizes
from solver.units import Unit, with_unit


def headline(door: Doorway, unit: Unit) -> str:
    """Name the doorway and its clear opening."""
    width, height = with_unit(door.clear_width, unit), with_unit(door.clear_height, unit)
    return f"{plain_name(door.name)}: clear opening {width} wide, {height} high, the smallest each"


def judgements_table(found: tuple[Judgement, ...]) -> Table:
    """Each thing that was found, and what to do about it."""
    table = plain_table("what", "measured", "", "what to do")
    for one in found:
        verdict = "REFUSED" if one.verdict == "refused" else one.verdict
        table.add_row(one.what, one.measured, verdict, one.do)
    return table


def source_lines(found: tuple[Judgement, ...]) -> list[str]:
    """The source of each judgement, once each."""
    return list(dict.fromkeys(f"{one.what}: {one.source}" for one in found))


def size_source_lines(sizes: PlaceSizes) -> list[str]:
    """The source of each deduction, once each."""
    both = (*sizes.width.deductions, *sizes.height.deductions)
    return list(dict.fromkeys(f"{one.what}: {one.source}" for one in both))


def sizes_table(sizes: PlaceSizes, unit: Unit) -> Table:
    """Outside sizes at most, with every deduction."""
    table = plain_table("outside size", "", "length", "why", right=("length",))
    for name, size in (("width", sizes.width), ("height", sizes.height)):
        _size_rows(table, name, size, unit)
    bottom = with_unit(sizes.above_floor, unit)
    table.add_row("above the floor", "bottom of the case", bottom, "")
    return table


def _size_rows(table: Table, name: str, size: PlaceSize, unit: Unit) -> None:
    table.add_row(name, size.what, with_unit(size.measured, unit), size.why)
    for one in size.deductions:
        table.add_row("", f"less {one.what}", with_unit(one.length, unit), one.why)
    table.add_row("", "at most", with_unit(size.size, unit), "down to the cutting step")


def has_line(case: Case, unit: Unit) -> str:
    """Say what the job gives the case, beside what the place leaves."""
    width = with_unit(case.width, unit) if isinstance(case.width, int) else "open"
    height = with_unit(case.height, unit) if isinstance(case.height, int) else "open"
    return f"the job has {width} x {height} {case.sizes}, {with_unit(case.above_floor, unit)} up"


def as_data(
    door: Doorway, found: tuple[Judgement, ...], missing: tuple[str, ...]
) -> dict[str, Any]:
    """One doorway as JSON data; lengths in mm."""
    return {
        "doorway": door.model_dump(mode="json"),
        "judgements": [one.model_dump(mode="json") for one in found],
        "missing": list(missing),
    }
