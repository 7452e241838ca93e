"""The figures of a case that stands, is built in or hangs on a wall: tipping and fixings."""

from __future__ import annotations

from solver.job.boards import BOARDS
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.hanging import Figure, WallFixing
from solver.strength import fasteners, stability
from solver.strength.constants import MM_PER_INCH, NEWTONS_PER_POUND, millimetres
from solver.strength.figures import figure, shown
from solver.strength.weights import Mass
from solver.units import TICKS_PER_INCH

CLEAT_DOWN = 3 * TICKS_PER_INCH
"""Fixing below the top of the case, common practice [tick]."""
SCREWS_PER_STUD = 2
"""Screws in each stud: woodworkers' practice for wide cleats [-]."""
TEST = "ASTM F2057-23 as quoted in 88 FR 28408, as a yardstick: shelving is outside its scope"


def standing_figures(planned: CasePlan, empty: Mass, loaded: Mass) -> list[Figure]:
    """Return the pulls that tip a case, empty and loaded, its front lower as on carpet."""
    depth = millimetres(planned.outside.depth)
    at = min(millimetres(planned.outside.height), stability.TEST_HEIGHT)
    tilt = stability.TEST_TILT / depth
    fixing = "fix it to at least two studs near the top; heavy things low"
    tips = []
    for key, what, mass in (("empty", "empty", empty), ("loaded", "loaded", loaded)):
        behind = stability.behind_when_tilted(mass.z, mass.y, tilt)
        pull = max(0.0, stability.tipping_pull(mass.weight, behind, at))
        tips.append(
            figure(
                f"tip-{key}",
                f"pull that tips it, {what}, not fixed",
                ("force", pull),
                (
                    "W (x - y tilt) / h, to be over 10 lb (44 N) with the front 0.43 in (11 mm) "
                    "lower",
                    shown(W_N=mass.weight, x_mm=mass.z, y_mm=mass.y, h_mm=at, tilt=tilt),
                ),
                TEST,
                assumes="a hard floor, nothing sliding, nobody climbing",
                judged=(pull >= stability.TEST_PULL, fixing),
            )
        )
    return [*tips, _climbed(planned, empty, tilt, fixing)]


def _climbed(planned: CasePlan, empty: Mass, tilt: float, fixing: str) -> Figure:
    """Load on the front edge of a shelf at which the empty case tips on carpet."""
    up = min(millimetres(planned.outside.height), stability.TEST_HEIGHT)
    behind = max(0.0, stability.behind_when_tilted(empty.z, empty.y, tilt))
    load = stability.edge_load(empty.weight, behind, up * tilt) or 0.0
    return figure(
        "climbed",
        "load on a shelf's front edge that tips it, empty, not fixed",
        ("force", load),
        (
            "W (x - y tilt) / (h tilt), to be over 60 lb (267 N)",
            shown(W_N=empty.weight, x_mm=empty.z, y_mm=empty.y, h_mm=up, tilt=tilt),
        ),
        TEST,
        assumes="the edge leans out over the front by what the floor tilts; nobody pulls",
        judged=(load >= stability.TEST_EDGE_LOAD, fixing),
    )


def wall_figures(job: Job, planned: CasePlan, loaded: Mass) -> list[Figure]:
    """Pull and shear on the screws of a case that hangs on a wall."""
    ground, size = job.ground, planned.outside
    studs = stability.studs_behind(millimetres(size.width), millimetres(ground.stud_spacing))
    out = millimetres(size.depth) - loaded.z
    lever = millimetres(size.height) - millimetres(CLEAT_DOWN)
    tension = stability.wall_tension(loaded.weight, out, lever)
    count = studs * SCREWS_PER_STUD
    gravity = BOARDS[ground.jamb].gravity or 0.35
    shank = fasteners.SCREWS[ground.screw].shank
    thread = millimetres(ground.screw_thread) / MM_PER_INCH
    allowed = fasteners.withdrawal_allowable(gravity, shank, thread) * NEWTONS_PER_POUND
    sideways = fasteners.lateral_allowable(gravity, shank) * NEWTONS_PER_POUND
    more = "more studs, a cleat that reaches further, longer screws"
    return [
        figure(
            "studs",
            "studs it is sure to cross",
            ("count", float(studs)),
            ("width / spacing, rounded down", shown(width_mm=millimetres(size.width))),
            "arithmetic; find and mark them all the same",
            judged=(studs >= 2, "find two studs, or a cleat that reaches a second one"),
        ),
        figure(
            "wall-out",
            "pull on each upper wall screw, loaded",
            ("force", tension / count),
            (
                "W x / v / screws; allowed 2850 G2 D L",
                f"{shown(W_N=loaded.weight, x_mm=out, v_mm=lever)}, {count} screws, "
                f"{allowed:.0f} N allowed",
            ),
            "statics; NDS ch. 12 as quoted",
            assumes=f"{SCREWS_PER_STUD} screws a stud through a cleat on the case's top and sides",
            judged=(tension / count <= allowed, more),
        ),
        figure(
            "wall-down",
            "weight on each wall screw, loaded",
            ("force", loaded.weight / count),
            ("W / screws; rough limit C D2", f"{loaded.weight / count:.0f} N; {sideways:.0f} N"),
            "pre-1991 design values, superseded: a rough check only",
            assumes="cleat tight to the stud; plasterboard between them lessens it",
            judged=(loaded.weight / count <= sideways, more),
        ),
    ]


def wall_fixing(job: Job, planned: CasePlan) -> WallFixing:
    """Return what fixes a case to the wall: into studs, near its top."""
    ground = job.ground
    studs = stability.studs_behind(planned.outside.width, ground.stud_spacing)
    return WallFixing(
        studs=studs,
        screws_per_stud=SCREWS_PER_STUD if planned.kind == "wall" or studs < 2 else 1,
        screw=ground.screw,
        thread=ground.screw_thread,
        from_top=min(CLEAT_DOWN, planned.outside.height // 2),
    )
