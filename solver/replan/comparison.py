"""Two plans side by side: what moved, what stayed, what it costs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from solver.job.job import Job
from solver.plan.compared import (
    ComparedFigures,
    Comparison,
    MarkMoved,
    Measured,
    OpeningPlace,
    PartChanged,
    ThingsMoved,
)
from solver.plan.plan import Option, Plan
from solver.units import Ticks

Spot = tuple[str, int, int]
"""(case, bay, shelf or opening)."""


def comparison(last: Plan, old: Option, job: Job, new: Option) -> Comparison:
    """Compare an option of the last plan with the one planned after it."""
    before, after = marks_of(old), marks_of(new)
    moved = tuple(
        MarkMoved(case=case, bay=bay, shelf=shelf, before=before[spot], after=mark)
        for spot, mark in after.items()
        if spot in before and before[spot] != mark
        for case, bay, shelf in [spot]
    )
    things = tuple(_things(old, new))
    stood = sum(things_of(new).values())
    return Comparison(
        job_hash=last.job_hash,
        option=old.name,
        marks=moved,
        marks_kept=len(after) - len(moved),
        things=things,
        things_kept=stood - sum(one.count for one in things if one.to is not None),
        parts=tuple(_parts(old, new)),
        measured=tuple(_measured(last.job, job)),
        before=figures(old),
        after=figures(new),
    )


def marks_of(option: Option) -> dict[Spot, Ticks]:
    """Undersides of all shelves [tick]."""
    return {
        (case.name, bay.number, shelf.index): shelf.underside
        for case in option.cases
        for bay in case.bays
        for shelf in bay.shelves
    }


def things_of(option: Option) -> Counter[tuple[str, Spot]]:
    """How many of each kind stand in each opening."""
    return Counter(
        (item.item, (case.name, bay.number, opening.index))
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
        for item in opening.items
    )


def figures(option: Option) -> ComparedFigures:
    """What is compared in figures."""
    scores = option.scores
    return ComparedFigures(
        price=None if option.cost is None else option.cost.total,
        sheets=option.sheet_count,
        places_parted=None if scores is None else scores.places_parted,
        steps_range=None if scores is None else scores.steps_range,
        headroom_least=None if scores is None else scores.headroom_least,
        headroom_spread=None if scores is None else scores.headroom_spread,
        left_out=sum(one.count for one in option.left_out),
    )


def _things(old: Option, new: Option) -> Iterator[ThingsMoved]:
    """What left an opening, kind by kind, with the openings that have more than before."""
    before, after = things_of(old), things_of(new)
    for item in dict.fromkeys(name for name, _ in (*before, *after)):
        yield from _of_kind(
            item,
            {spot: n for (name, spot), n in (before - after).items() if name == item},
            {spot: n for (name, spot), n in (after - before).items() if name == item},
        )


def _of_kind(
    item: str, gone: Mapping[Spot, int], come: Mapping[Spot, int]
) -> Iterator[ThingsMoved]:
    out = [spot for spot, n in sorted(gone.items()) for _ in range(n)]
    into = [spot for spot, n in sorted(come.items()) for _ in range(n)]
    count = max(len(out), len(into))
    pairs = zip(
        [*out, *[None] * (count - len(out))], [*into, *[None] * (count - len(into))], strict=True
    )
    for (start, end), times in Counter(pairs).items():
        yield ThingsMoved(item=item, count=times, from_=_where(start), to=_where(end))


def _where(spot: Spot | None) -> OpeningPlace | None:
    return None if spot is None else OpeningPlace(case=spot[0], bay=spot[1], opening=spot[2])


def _parts(old: Option, new: Option) -> Iterator[PartChanged]:
    before = {part.id: (part.length, part.width) for part in old.parts}
    after = {part.id: (part.length, part.width) for part in new.parts}
    for ident in dict.fromkeys((*before, *after)):
        was, now = before.get(ident), after.get(ident)
        if was != now:
            yield PartChanged(
                part=ident,
                length_before=was[0] if was else None,
                length=now[0] if now else None,
                width_before=was[1] if was else None,
                width=now[1] if now else None,
            )


def _measured(before: Job, after: Job) -> Iterator[Measured]:
    """Materials whose thickness is another than before."""
    old = {sheet.material: sheet.thickness for sheet in before.sheets}
    for material, now in {sheet.material: sheet.thickness for sheet in after.sheets}.items():
        if old.get(material, now) != now:
            yield Measured(material=material, before=old[material], after=now)
