"""The trim of every case of an option."""

from __future__ import annotations

from solver.job import Job
from solver.plan import Option
from solver.settled import settled_job
from solver.trim.elevation import placed
from solver.trim.figures import figures
from solver.trim.glass import glass_of
from solver.trim.light import light_of
from solver.trim.notes import notes
from solver.trim.pieces import Trimmed, pieces_of
from solver.trimming import TrimSet


def trim_sets(job: Job, option: Option) -> tuple[TrimSet, ...]:
    """Return the trim of each case, piece by piece; a pure function of job and option.

    Parameters
    ----------
    job
        As understood, open sizes and all.
    option
        One of its plan, with a layout.
    """
    settled = settled_job(job, option)
    return tuple(
        _set(
            Trimmed(
                settled,
                case,
                planned,
                option.shelf_counts[case.name],
                tuple(part for part in option.parts if part.case == case.name),
            )
        )
        for case, planned in zip(settled.cases, option.cases, strict=True)
    )


def _set(one: Trimmed) -> TrimSet:
    order = one.case.trim
    return TrimSet(
        case=one.case.name,
        kind=one.case.kind,
        set="none" if order is None else order.set,
        pieces=placed(one, pieces_of(one)),
        flutes=one.flutes,
        light=light_of(one),
        glass=glass_of(one),
        figures=figures(one),
        notes=notes(one),
    )
