"""Pieces on hand among the sheets of an option, drawn in their true size.

A piece with clean edges needs no edge trim, so the cutting is given it larger by the trim
(:func:`solver.sizing.on_hand_use.with_on_hand`); here its sheet gets its own size back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from solver.job.have import stock_name
from solver.job.job import Job
from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Sheet
from solver.units import Ticks


def as_they_are(job: Job, sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return the sheets, those with clean edges in their true size with nothing trimmed off."""
    clean = {
        name
        for number, have in enumerate(job.have, start=1)
        for name in ([stock_name(have, number)] if have.is_clean else [])
    }
    return tuple(
        _untrimmed(sheet) if sheet.stock in clean or _is_rest(job, sheet) else sheet
        for sheet in sheets
    )


def _is_rest(job: Job, sheet: Sheet) -> bool:
    names = {stock_name(have, number) for number, have in enumerate(job.have, start=1)}
    return sheet.stock.removeprefix("rest of ") in names and sheet.stock not in names


def _untrimmed(sheet: Sheet) -> Sheet:
    """Take the trim off all places and sizes, and the cuts that would make it."""
    trim = sheet.edge_trim
    if trim == 0:
        return sheet
    size = sheet.length - 2 * trim, sheet.width - 2 * trim
    cuts = list(_moved(sheet.cuts, size, trim, sheet.margin))
    return sheet.model_copy(
        update={
            "length": size[0],
            "width": size[1],
            "edge_trim": 0,
            "pieces": tuple(
                piece.model_copy(update={"x": piece.x - trim, "y": piece.y - trim})
                for piece in sheet.pieces
            ),
            "cuts": tuple(
                cut.model_copy(update={"number": number}) for number, cut in enumerate(cuts, 1)
            ),
        }
    )


def _moved(
    cuts: Iterable[Cut], size: tuple[Ticks, Ticks], trim: Ticks, margin: Ticks
) -> Iterator[Cut]:
    """Move the cuts; one that falls off the far edge is made without its margin, or not at all."""
    for cut in cuts:
        if cut.kind == "trim":
            continue
        far, end = size if cut.direction == "crosscut" else (size[1], size[0])
        at = cut.at - trim
        if at >= far:
            at -= margin
        if at < far:
            yield cut.model_copy(
                update={
                    "at": at,
                    "start": max(0, cut.start - trim),
                    "end": min(end, cut.end - trim),
                }
            )
