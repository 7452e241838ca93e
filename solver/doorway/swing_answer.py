"""The swing of one hung case in full: figures, where it binds, trim, ways out, notes.

An option says of every hung case that does not swing where it binds and what would do.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import degrees, hypot

from solver.carcass.trim_face import doorway_trim
from solver.doorway import swing_clearance
from solver.doorway.swing_of_job import doorway_of, other_of_pair, pair_swing, swing_of
from solver.doorway.swing_scene import Swing, case_outlines
from solver.doorway.swing_trim import with_trim
from solver.doorway.ways_out import ways_out
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.swinging import PairSwing, Swinging
from solver.units import Ticks, with_unit


def swing_of_case(
    job: Job, case: Case, depth: Ticks | None = None, beside: Ticks | None = None
) -> Swinging:
    """Work out the swing of a hung case.

    `depth` is its outside depth, `beside` that of the other case of a pair; left out, each is the
    most that it may be [tick].
    """
    door = doorway_of(job, case)
    untrimmed = swing_of(job, case, depth, beside=beside)
    swing, choices = with_trim(untrimmed, door, doorway_trim(job, case, door), door.opens_to)
    answer = swing_figures(swing, door.opens_to)
    ways = () if answer.swings else ways_out(job, case, swing, door.opens_to)
    update = {"trim": choices, "ways_out": ways, "notes": _notes(job, case, swing)}
    return answer.model_copy(update={**update, "pair": _pair(job, case, untrimmed)})


def _pair(job: Job, case: Case, swing: Swing) -> PairSwing | None:
    other = other_of_pair(job, case)
    if other is None:
        return None
    return pair_swing(swing, swing_of(job, other, swing.neighbour, beside=swing.depth))


def planned_swing(job: Job, case: Case, depths: Mapping[str, Ticks]) -> Swinging | None:
    """Return the swing at outside depths by case [tick]; None where it hangs in no doorway."""
    if case.kind != "hung" or not case.doorway:
        return None
    other = other_of_pair(job, case)
    beside = None if other is None else depths[other.name]
    return swing_of_case(job, case, depths[case.name], beside)


def laid_out(job: Job, case: Case, depth: Ticks | None = None) -> Swing:
    """Return the swing of a hung case with its trim decided, for a drawing."""
    door = doorway_of(job, case)
    strips = doorway_trim(job, case, door)
    return with_trim(swing_of(job, case, depth), door, strips, door.opens_to)[0]


def swing_figures(swing: Swing, opens_to: int) -> Swinging:
    """All figures of one swing that must open to `opens_to` [degrees]."""
    room, at = swing_clearance.tightest(swing, opens_to)
    bind = swing_clearance.binding(swing, opens_to)
    full, stopped = swing_clearance.full_opening(swing)
    return Swinging(
        opens_to=opens_to,
        swings=swing_clearance.swings(swing, opens_to),
        latch_gap=swing.latch_gap,
        latch_gap_needed=swing_clearance.gap_needed(swing, opens_to),
        tightest=room,
        tightest_at=round(at, 1),
        hinge_gap=swing.hinge_gap,
        hinge_gap_needed=swing_clearance.hinge_gap_needed(swing, opens_to),
        widest=swing_clearance.widest(swing, opens_to),
        deepest=swing_clearance.deepest(swing, opens_to),
        binds_at=None if bind is None else round(degrees(bind.angle), 1),
        binds=None if bind is None else f"{bind.moving} on {bind.fixed}",
        opens_fully=round(full, 1),
        stopped_by=None if stopped is None else f"{stopped.moving} on {stopped.fixed}",
        passage_90=swing_clearance.passage(swing, min(90.0, full)),
        passage_full=swing_clearance.passage(swing, full),
        radius=-int(-max(hypot(*c) for shape in case_outlines(swing) for c in shape.corners) // 1),
    )


def _notes(job: Job, case: Case, swing: Swing) -> tuple[str, ...]:
    """Return what was assumed, and whether the case stands out of its wall."""
    door, notes = doorway_of(job, case), []
    if door.swing is None:
        notes.append("which way it swings is not said; out, into the room, is taken")
    if door.jamb_depth is None:
        notes.append("jamb depth not measured; taken as deep as the case")
    beyond = swing.depth - swing.stands_out - swing.jamb
    if beyond > 0:
        where = "in front of" if swing.back_leads else "behind"
        notes.append(f"stands {with_unit(beyond, job.unit)} {where} the wall at rest")
    return tuple(notes)


WAYS_SHOWN = 4
"""Ways out named in a note; `casewright swing` shows them all [-]."""


def swing_notes(cases: Iterable[CasePlan]) -> tuple[str, ...]:
    """Return a note for each case that does not swing, with where it binds and what would do."""
    return tuple(note for case in cases if (note := _case_note(case)) is not None)


def _case_note(case: CasePlan) -> str | None:
    if case.kind != "hung":
        return None
    if case.swing is None:
        return f"case {case.name!r} hangs in no doorway of the job: whether it swings is not known"
    return None if case.swing.swings else _note(case.name, case.swing)


def _note(name: str, swing: Swinging) -> str:
    where = (
        "less than the running clearance is left at the latch"
        if swing.binds_at is None
        else f"{swing.binds} at {swing.binds_at}°"
    )
    ways = [way.text for way in swing.ways_out if way.swings][:WAYS_SHOWN]
    would = f"; would do: {'; or '.join(ways)}" if ways else ""
    return f"case {name!r} does not swing: {where}{would}"
