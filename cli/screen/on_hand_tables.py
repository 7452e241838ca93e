"""What is there already: what it is used for, what is left, what is cut again."""

from __future__ import annotations

from collections.abc import Iterator

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, count, listed, plain_name
from solver.job.have import Have, stock_name
from solver.job.job import Job
from solver.plan.on_hand import UsedPiece, material_of, size_of
from solver.plan.plan import Option
from solver.units import Ticks, format_length, with_unit


def have_tables(job: Job, option: Option) -> list[Titled]:
    """Return the table of what is there; none where nothing is."""
    if option.have is None:
        return []
    table = plain_table("no.", "there", f"size ({job.unit})", "used for", right=("no.",))
    for number, have in enumerate(job.have, start=1):
        table.add_row(
            str(number),
            plain_name(_what_is_there(job, have)),
            _size(job, have),
            plain_name("; ".join(_uses(job, option, number)) or NONE),
        )
    return [Titled("What is there, and what it is used for", table)]


def reading_text(job: Job, have: Have) -> str:
    """Say in words how a line of what is there was read."""
    size = _size(job, have)
    sized = f"{size} {job.unit}" if size_of(job, have) is not None else size
    edges = "clean edges" if have.is_clean else "factory edges, to be trimmed"
    if have.mark is not None:
        return f"{_what_is_there(job, have)}, underside at {with_unit(have.mark, job.unit)}"
    notes = [] if have.what in ("spoiled", "fixed") and size_of(job, have) is None else [edges]
    return ", ".join([_what_is_there(job, have), sized, *notes])


def _what_is_there(job: Job, have: Have) -> str:
    many = f"{have.count} x " if have.count > 1 else ""
    return f"{many}{have.what} {have.name or material_of(job, have)}"


def _size(job: Job, have: Have) -> str:
    size = size_of(job, have)
    if size is None:
        return "gone" if have.what == "spoiled" else "as planned"
    return " x ".join(format_length(side, job.unit) for side in size if side)


def _uses(job: Job, option: Option, number: int) -> Iterator[str]:
    """Say what pieces serve for, sheet by sheet, and what is left of them."""
    assert option.have is not None
    for one in option.have.used:
        if one.have == number:
            yield f"{one.part}, {one.how}{_cut_to(job, option, one)}"
    name = stock_name(job.have[number - 1], number)
    for sheet, made in enumerate(option.sheets, start=1):
        if made.stock in (name, f"rest of {name}"):
            yield f"sheet {sheet}: {listed([piece.part for piece in made.pieces])}"
    for rest in option.have.left:
        if rest.have == number:
            yield f"{rest.count} left" + (f": {rest.why}" if rest.why else "")


def _cut_to(job: Job, option: Option, one: UsedPiece) -> str:
    """Say to what size a piece is cut down, and what that leaves."""
    part = next((part for part in option.parts if part.id == one.part), None)
    if one.how != "cut down" or part is None:
        return ""
    rests = [_by(job, rest.length, rest.width) for rest in one.rests]
    left = f", leaves {listed(rests)}" if rests else ""
    return f" to {_by(job, part.length, part.width)}{left}"


def _by(job: Job, length: Ticks, width: Ticks) -> str:
    return f"{format_length(length, job.unit)} x {with_unit(width, job.unit)}"


def have_lines(option: Option) -> list[str]:
    """Say what is held by what is there, what is cut again, and what must still be bought."""
    if option.have is None:
        return []
    lines = [f"Held by what is there: {plain_name(said)}." for said in option.have.kept]
    if option.have.again:
        lines.append(f"Cut again: {plain_name(listed(list(option.have.again)))}.")
    new = count(option.sheet_count, "new sheet")
    fewest = f"fewer than {option.sheet_bound} cannot do"
    lines.append(f"Around what is there: {new}" + (f"; {fewest}." if option.sheet_count else "."))
    return lines
