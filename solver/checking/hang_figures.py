"""The figures of hanging sheets worked out again, and the verdicts that follow from them.

Each figure is held against its own statics here; a sheet must have every one that its kind of
case calls for, and may not call good what is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import isclose

from solver.checking.findings import Code, Finding, finding
from solver.checking.hang_facts import GRAVITY, INCH, POUND, CaseFacts, Load, facts
from solver.checking.views import OptionView
from solver.job.boards import BOARDS, MOVEMENT
from solver.units import TICKS_PER_INCH, TICKS_PER_MM

Judged = dict[str, tuple[float, bool | None]]
"""By key: the value, and whether it is as it should be; None where nothing is held against it."""

SHANKS = {"#6": 0.138, "#8": 0.164, "#10": 0.190, "#12": 0.216, "#14": 0.242}
"""Shank diameters of wood screws, ASME B18.6.1 [in]."""
EN_1935 = 500 / 1540
PLAY = INCH / 32
SHEAR = 85_000 * POUND / INCH**2
TEST_HEIGHT, TEST_TILT = 56 * INCH, 0.43 * INCH
CLEAT_DOWN = 3 * INCH
PER_STUD = 2
JOINT_GRAVITY = 0.42
SLACK = 1e-6
"""Share by which two ways to a figure may differ [-]."""


def figures(view: OptionView) -> Iterator[Finding]:
    """Every figure of a sheet follows from weights, sizes and the job; none is missing."""
    for case in facts(view):
        shown = {one.key: one for one in case.sheet.figures}
        needs = expected(case)
        for key, (value, _) in needs.items():
            has = shown[key].value if key in shown else None
            if has is None or not isclose(value, has, rel_tol=SLACK, abs_tol=1e-6):
                where = f"{case.view.where}, {key}"
                yield finding(Code.HANG_FIGURE, where, "figure", f"{value:.6g}", f"{has}")
        for key in shown.keys() - needs.keys():
            yield finding(Code.HANG_FIGURE, case.view.where, "figure", "none", key)


def verdicts(view: OptionView) -> Iterator[Finding]:
    """A figure is called good or not enough just where it is, and says what follows if not."""
    for case in facts(view):
        shown = {one.key: one for one in case.sheet.figures}
        for key, (_, good) in expected(case).items():
            if key not in shown:
                continue
            has = shown[key]
            if has.ok is not good or (has.ok is False and not has.says):
                where = f"{case.view.where}, {key}"
                yield finding(Code.HANG_VERDICT, where, "verdict", _word(good), _word(has.ok))


def _word(good: bool | None) -> str:
    return "none" if good is None else "good" if good else "not enough, with what follows"


def expected(case: CaseFacts) -> Judged:
    """All figures that the sheet of a case must have."""
    kind = case.view.case.kind
    if kind == "hung":
        of_kind = {**_hung(case), **_racking(case)} if case.spread > 0 else {}
    else:
        of_kind = _on_the_wall(case) if kind == "wall" else _standing(case)
    return {**of_kind, **_joint(case), **_moving(case)}


def _hung(case: CaseFacts) -> Judged:
    ground, loaded = case.view.job.ground, case.loaded
    pull = case.pull(loaded)
    each = pull / ground.screws_per_leaf
    out, down = _bite(case, 2850), _sideways(_gravity(case), SHANKS[ground.screw])
    weight = loaded.weight / max(1, len(case.sheet.hinges)) / ground.screws_per_leaf
    worse = max(1.0, pull / loaded.weight / EN_1935)
    droop = PLAY * case.width / case.spread + _sheared(case)
    door = case.door
    floor = ((door.highest_floor_in_swing or 0) + (door.pile or 0)) / TICKS_PER_MM if door else 0.0
    foot = case.view.plan.above_floor / TICKS_PER_MM - floor - droop
    judged: Judged = {
        "pull-empty": (case.pull(case.empty), None),
        "pull-loaded": (pull, None),
        "pull-full": (case.pull(case.full), None),
        "screw-out": (each, each <= out),
        "screw-down": (weight, weight <= down),
        "rating": (ground.hinge_margin * loaded.weight * worse, None),
        "droop": (droop, None),
        "foot": (foot, foot > 0),
    }
    if ground.abuse_load:
        hung_on = pull + ground.abuse_load / 1000 * GRAVITY * case.reach / case.spread
        good = 2 * hung_on / ground.screws_per_leaf <= _bite(case, 15_700)
        judged["abuse"] = (hung_on, good)
    return judged


def _sheared(case: CaseFacts) -> float:
    """Half the weight, on average, shears the back over its whole width."""
    if not case.back:
        return 0.0
    return case.loaded.weight / 2 / (SHEAR * case.height * case.back) * case.width


def _racking(case: CaseFacts) -> Judged:
    weight, back = case.loaded.weight, case.back
    needed = INCH * (7 / 16 if case.width > 30 * INCH else 5 / 32)
    boards = 2 + min(len(bay.shelves) for bay in case.view.plan.bays)
    apart = 6 * INCH if case.view.unit == "in" else 150.0
    return {
        "back": (needed, back >= needed),
        "fastener": (weight / case.height * apart, None),
        "joint": (weight * case.width / 4 / boards, None),
    }


def _gravity(case: CaseFacts) -> float:
    """Of the wood that the screws bite; that of white pine where it is no wood."""
    named = BOARDS.get(case.view.job.ground.jamb)
    return (named.gravity if named else None) or 0.35


def _bite(case: CaseFacts, factor: float) -> float:
    """Withdrawal by factor G2 D L [N]."""
    ground = case.view.job.ground
    thread = ground.screw_thread / TICKS_PER_INCH
    return factor * _gravity(case) ** 2 * SHANKS[ground.screw] * thread * POUND


def _sideways(gravity: float, shank: float) -> float:
    """C D2 by species group [N]."""
    groups = ((0.60, 4800), (0.50, 3960), (0.42, 3240), (0.0, 2520))
    return next(c for least, c in groups if gravity >= least) * shank**2 * POUND


def _standing(case: CaseFacts) -> Judged:
    """Moments about the front edge, the front as much lower as on carpet."""
    at, tilt = min(case.height, TEST_HEIGHT), TEST_TILT / case.depth
    judged: Judged = {}
    for key, load in (("tip-empty", case.empty), ("tip-loaded", case.loaded)):
        pull = max(0.0, _righting(load, tilt) / at)
        judged[key] = (pull, pull >= 10 * POUND)
    edge = max(0.0, _righting(case.empty, tilt)) / (at * tilt)
    return {**judged, "climbed": (edge, edge >= 60 * POUND)}


def _righting(load: Load, tilt: float) -> float:
    return load.weight * load.z - load.weight * load.y * tilt


def _on_the_wall(case: CaseFacts) -> Judged:
    ground, loaded = case.view.job.ground, case.loaded
    studs = max(1, case.view.plan.outside.width // ground.stud_spacing)
    screws, lever = studs * PER_STUD, case.height - CLEAT_DOWN
    if lever <= 0:
        return {}
    out = loaded.weight * (case.depth - loaded.z) / lever / screws
    down = loaded.weight / screws
    return {
        "studs": (float(studs), studs >= 2),
        "wall-out": (out, out <= _bite(case, 2850)),
        "wall-down": (down, down <= _sideways(_gravity(case), SHANKS[ground.screw])),
    }


def _joint(case: CaseFacts) -> Judged:
    """Half of the greatest load limit on each end of a fixed shelf."""
    ordered = case.view.case
    if ordered.fixing == "pins" or not any(bay.shelves for bay in case.view.plan.bays):
        return {}
    limits = [o.load_limit for bay in case.view.plan.bays for o in bay.openings]
    end = max(limits, default=0) / 1000 * GRAVITY / 2
    if ordered.joint == "dado":
        return {"joint-dado": (end, None)}
    count = screws_for((case.view.depth - case.view.lip[0]) / TICKS_PER_INCH)
    thin = case.view.thickness < TICKS_PER_INCH * 9 / 16
    held = 2 / 3 * _sideways(JOINT_GRAVITY, SHANKS["#6" if thin else "#8"])
    return {"joint-screws": (float(count), end / count <= held)}


def _moving(case: CaseFacts) -> Judged:
    """A lip swells and shrinks over its width by 4 per cent of moisture."""
    lip = case.view.case.lip
    if lip is None:
        return {}
    wide = case.view.job.moulding(lip.moulding).width / TICKS_PER_MM
    named = case.view.job.ground.boards.get(lip.moulding, "")
    most = max(flat for _, flat in MOVEMENT.values())
    _, flat = MOVEMENT.get(named, (0.0, most))
    return {"lip-moves": (wide * flat * 4, None)}


def screws_for(depth: float) -> int:
    """Screws in each end of a board so deep [in]: 2 to 4, 3 to 10, 4 to 14, then one each 6."""
    steps = [0.0, 4.0, 10.0, *(14.0 + 6 * more for more in range(20))]
    return 1 + sum(depth > step for step in steps)
