"""Rules on plans over a band of thickness: the plan is drawn again at both ends, and checked.

With marks and places kept, every clear height, width and depth is a straight line in each
thickness. What holds at the thinnest and at the thickest of all boards holds between.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product

from solver.checking import arrangement, heights_lines, items, shelf_load
from solver.checking.findings import Code, Finding
from solver.checking.parts import wanted
from solver.checking.views import CaseView, OpeningView, OptionView, same
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import Bay, Opening
from solver.units import Ticks, with_unit

OPENING_RULES: tuple[Callable[[OpeningView], Iterator[Finding]], ...] = (
    heights_lines.clear_least,
    heights_lines.clear_most,
    items.end_margin,
    items.front_margin,
    items.lip,
    items.back,
    shelf_load.load,
    arrangement.headroom,
    arrangement.spare,
)
"""Rules that depend on the thickness, held at both ends."""


def stated(view: OptionView) -> Iterator[Finding]:
    """A plan of sheets that are not measured yet says so, with both ends of each thickness."""
    known = _bands(view.job)
    band = view.option.band
    has = {} if band is None else {one.material: (one.least, one.most) for one in band.materials}
    yield from same(Code.BAND_STATED, view.where, "thicknesses not measured yet", known, has)


def fits(view: OptionView) -> Iterator[Finding]:
    """With the marks of the plan everything fits at the thinnest and at the thickest."""
    for job in _ends(view.job):
        for case in view.cases:
            drawn = redrawn(case, job)
            for opening in (opening for bay in drawn.bays for opening in bay.openings):
                for rule in OPENING_RULES:
                    yield from (_at(broken, view.job, job) for broken in rule(opening))


def _at(broken: Finding, before: Job, job: Job) -> Finding:
    """The finding, with the thickness that it is found at."""
    thick = ", ".join(
        f"{name} {with_unit(job.thickness(name), job.unit)}" for name in _bands(before)
    )
    where = f"with {thick}: {broken.where}"
    return Finding(
        Code.BAND_FITS, where, broken.needs, broken.has, broken.text.replace(broken.where, where, 1)
    )


def ends(view: OptionView) -> Iterator[Finding]:
    """The figures at both ends are those of the plan drawn again there."""
    band = view.option.band
    if band is None or not _bands(view.job):
        return
    for end, job in zip(band.ends, _ends(view.job), strict=True):
        openings = [
            opening
            for case in view.cases
            for bay in redrawn(case, job).bays
            for opening in bay.bay.openings
        ]
        rooms = [thing.headroom for opening in openings for thing in opening.items]
        clear = [opening.height for opening in openings]
        needs = (
            {name: job.thickness(name) for name in _bands(view.job)},
            min(rooms, default=None),
            min(clear),
            max(clear),
        )
        has = end.thickness, end.headroom_least, end.clear_least, end.clear_most
        yield from same(Code.BAND_ENDS, view.where, "thickness, headroom, openings", needs, has)


def parts(view: OptionView) -> Iterator[Finding]:
    """The parts that depend on the thickness are listed, each with its sizes at the ends."""
    band = view.option.band
    if band is None:
        return
    sizes: dict[str, list[tuple[Ticks, Ticks]]] = {}
    for job in _corners(view.job):
        for case in view.cases:
            for part in wanted(redrawn(case, job)):
                sizes.setdefault(part.ident, []).append((part.cut_length, part.cut_width))
    needs = {
        ident: (min(a), max(a), min(b), max(b))
        for ident, pairs in sizes.items()
        for a, b in [tuple(zip(*pairs, strict=True))]
        if len(set(pairs)) > 1
    }
    has = {
        one.part: (one.length_least, one.length_most, one.width_least, one.width_most)
        for one in band.parts
    }
    yield from same(Code.BAND_PARTS, view.where, "parts that depend on the thickness", needs, has)


RULES = (stated, fits, ends, parts)
"""Rules on an option of sheets that are not measured yet; none of them has anything else to say."""


def _bands(job: Job) -> dict[str, tuple[Ticks, Ticks]]:
    return {s.material: (s.band.least, s.band.most) for s in job.sheets if s.band is not None}


def _ends(job: Job) -> Iterator[Job]:
    """The job with all boards thinnest, then all thickest; nothing where all are measured."""
    known = _bands(job)
    for end in (0, 1) if known else ():
        yield job.measured({name: both[end] for name, both in known.items()})


def _corners(job: Job) -> Iterator[Job]:
    known = _bands(job)
    for chosen in product(*known.values()):
        yield job.measured(dict(zip(known, chosen, strict=True)))


def redrawn(view: CaseView, job: Job) -> CaseView:
    """Return a case with the same marks and places, and boards of the thickness of `job`."""
    case, plan = view.case, view.plan
    t, change = job.thickness(case.material), job.thickness(case.material) - view.thickness
    back = 0 if case.back == "none" else job.thickness(case.back)
    deep = view.depth
    if case.sizes == "outside" and case.depth is not None:
        deep = plan.outside.depth - back
    grown = 2 * change if case.sizes == "inside" else 0
    outside = plan.outside.model_copy(
        update={
            "width": plan.outside.width + grown,
            "height": plan.outside.height + grown,
            "depth": deep + back,
        }
    )
    clear = outside.width - (len(plan.bays) + 1) * t
    widths = [clear // len(plan.bays)] * (len(plan.bays) - 1)
    widths.append(clear - sum(widths))
    below = 0 if case.lip is None else job.moulding(case.lip.moulding).width - t - case.lip.above
    bays = tuple(
        _bay(bay, case, (t, width, outside.height, deep), below)
        for bay, width in zip(plan.bays, widths, strict=True)
    )
    drawn = plan.model_copy(update={"outside": outside, "bays": bays})
    return CaseView(job, case, drawn, view.where)


def _bay(bay: Bay, case: Case, sizes: tuple[Ticks, Ticks, Ticks, Ticks], below: Ticks) -> Bay:
    """One bay for (thickness, clear width, outside height, inside depth) [tick]."""
    t, width, high, deep = sizes
    inside = bay.inside.model_copy(
        update={"width": width, "height": high - 2 * t - case.raised_bottom, "depth": deep}
    )
    shelves = tuple(
        shelf.model_copy(update={"thickness": t, "top": shelf.underside + t, "depth": deep})
        for shelf in bay.shelves
    )
    floors = [case.raised_bottom + t, *(shelf.top for shelf in shelves)]
    ceilings = [*(shelf.underside for shelf in shelves), high - t]
    openings = tuple(
        _opening(opening, low, high_, below if opening.index < len(shelves) else 0)
        for opening, low, high_ in zip(bay.openings, floors, ceilings, strict=True)
    )
    return bay.model_copy(update={"inside": inside, "shelves": shelves, "openings": openings})


def _opening(opening: Opening, low: Ticks, high: Ticks, below: Ticks) -> Opening:
    things = tuple(
        thing.model_copy(update={"headroom": high - low - thing.y - thing.height})
        for thing in opening.items
    )
    return opening.model_copy(
        update={"floor": low, "height": high - low, "items": things, "lip_below_ceiling": below}
    )
