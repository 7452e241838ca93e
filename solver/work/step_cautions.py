"""Cautions of the steps, each with its source; those of the job come from solver.strength."""

from __future__ import annotations

from solver.job.defaults import CP
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.work import Caution
from solver.strength.hang_sheet import hanging_of

FACES = Caution(
    text="Good face down under a guided saw, up on a table saw; blade guard and riving knife on; "
    "nothing trapped between blade and stop.",
    source="faces: woodworkingtips.com etip010810sn, etip010817sn; the rest: " + CP,
)
LADDER = Caution(
    text="Before a screw goes into a wall: find cables and pipes behind it.", source=CP
)
LEAD = Caution(
    text="Old paint: no dry sanding, no heat gun; sheet the room off, work wet, clean up wet.",
    source="thisoldhouse advice on old doors; 40 CFR 745.85, from memory",
)
WET = Caution(
    text="Rags with oil finish go out flat or under water; air through the room; no flame.",
    source=CP,
)
OPEN = Caution(
    text="The open time on the label counts, less of it in a warm shop; have every clamp set to "
    "its opening before the first bead.",
    source=CP,
)
FALL = Caution(
    text="A tall case is tied or held until its fixings are in: it tips before it is fixed.",
    source="earthquakecountry.org bookcases; 16 CFR 1261 as a yardstick",
)


def of_job(job: Job, option: Option) -> dict[str, Caution]:
    """Cautions that the job calls for, by their key; the last of a key where there are several."""
    return {
        one.key: Caution(text=one.text, source=one.source)
        for one in hanging_of(job, option).cautions
    }
