"""Rules on hanging sheets: whose they are, weights, hinges, joints, what is cautioned about.

Restated from the job and the plan; the figures have a module of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.hang_facts import CaseFacts, facts
from solver.checking.hang_figures import PER_STUD, figures, screws_for, verdicts
from solver.checking.views import OptionView, same
from solver.job.doorway import OldDoor
from solver.plan.hanging import HingePlace, Joint
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, with_unit

LEAVES = ((36, 9 * TICKS_PER_INCH // 2), (None, 5 * TICKS_PER_INCH))
"""Height of a hinge's leaf by the width of the case [in]."""
NEAR = TICKS_PER_INCH
"""A hinge nearer to a shelf than this says so [tick]."""
SCREWS = {
    "in": (TICKS_PER_INCH, 1.25, (1.25, 1.5, 1.75, 2.0, 2.5, 3.0)),
    "mm": (TICKS_PER_MM, 30.0, (30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0)),
}
"""Ticks of the unit; how far a screw bites in the end of a board, and lengths sold, in the unit.
With what follows common practice, no source, as in :mod:`solver.strength.fasteners`, restated
here."""
THIN_SCREW, THICK_SCREW = {"in": "#6", "mm": "3.5"}, {"in": "#8", "mm": "4"}
"""For sides thinner than 9/16 in, and for others."""
EDGE = TICKS_PER_INCH * 5 // 4
"""First and last fastener of a joint from the edges of the board [tick]."""
APART = {"in": 6 * TICKS_PER_INCH, "mm": 150 * TICKS_PER_MM}
"""Fasteners of the back [tick]."""
CLEAT = 3 * TICKS_PER_INCH
"""Screws into the studs below the top of the case [tick]."""
PINS, LOW = 2, 8
"""Pins at each end of a shelf; leaves that a case must be high to have room for any old mortise
and all that it needs besides [-]."""
LEAD, ASBESTOS = 1978, 1980
CANE, PROJECTS = 27 * TICKS_PER_INCH, 4 * TICKS_PER_INCH
ACCESSIBLE = 32 * TICKS_PER_INCH


def listed(view: OptionView) -> Iterator[Finding]:
    """Every case has its sheet, once, in the order of the plan, and of its own kind."""
    if view.option.hanging is None:
        return
    needs = [(case.name, case.kind) for case in view.option.cases]
    has = [(sheet.case, sheet.kind) for sheet in view.option.hanging.cases]
    yield from same(Code.HANG_LISTED, view.where, "hanging sheets", needs, has)


def masses(view: OptionView) -> Iterator[Finding]:
    """What a case weighs, empty and filled, and where its centre of gravity is."""
    for case in facts(view):
        sheet, loaded = case.sheet, case.loaded
        names = ("left", "front", "bottom")
        pairs: list[tuple[str, float, int]] = [
            ("weight empty [g]", case.empty.grams, sheet.empty),
        ]
        pairs += [
            (f"centre of gravity from the {name} [tick]", place * TICKS_PER_MM, has)
            for name, place, has in zip(
                names, (loaded.x, loaded.z, loaded.y), sheet.centre, strict=False
            )
        ]
        for what, needs, has in pairs:
            if not abs(needs - has) <= 1 + needs * 1e-9:
                yield finding(Code.HANG_MASS, case.view.where, what, f"{needs:.1f}", str(has))
        things = case.things
        mass = sum(thing.mass for thing in things)
        what = "weight of the contents [g]"
        yield from same(Code.HANG_MASS, case.view.where, what, mass, sheet.contents)
        needs_named = tuple(dict.fromkeys(t.item for t in things if t.mass_assumed))
        what = "things without a weight of their own"
        yield from same(Code.HANG_MASS, case.view.where, what, needs_named, sheet.assumed)


def hinges(view: OptionView) -> Iterator[Finding]:
    """Old mortises on the case are used; hinges are enough, apart, and placed as stated."""
    for case in facts(view):
        hung, places, hinge = case.view.case.kind == "hung", case.sheet.hinges, case.sheet.hinge
        if not hung or hinge is None:
            given = "none" if hinge is None and not places else "hinges"
            wanted = "hinges" if hung else "none"
            yield from same(Code.HANG_HINGES, case.view.where, "hinges", wanted, given)
            continue
        ground = case.view.job.ground
        leaf, gap = _leaf(case), case.door.head_gap if case.door else 0
        high = case.view.plan.outside.height
        old, used = _mortises(case, leaf), sorted(one.from_top for one in places if one.old)
        if high < LOW * leaf and set(used) <= set(old):
            old = used  # they may leave no room for as many as are needed
        least = max(3, 2 + max(0, -(-(high - 60 * TICKS_PER_INCH) // (30 * TICKS_PER_INCH))))
        rules: list[tuple[str, object, object]] = [
            ("old mortises used [tick]", old, used),
            ("at least so many hinges", max(least, len(old)), max(least, len(old), len(places))),
            ("hinges", len(places), hinge.count),
            ("height of the leaf [tick]", leaf, hinge.leaf),
            ("screws in a leaf", ground.screws_per_leaf, hinge.screws_per_leaf),
            ("screws", 2 * len(places) * ground.screws_per_leaf, hinge.screws),
            ("screw", (ground.screw, ground.screw_thread), (hinge.screw, hinge.thread)),
            ("from the head [tick]", [p.from_top + gap for p in places], _heads(places)),
            ("nearer than 1 in to a shelf", [_near(case, p, leaf) for p in places], _said(places)),
        ]
        for what, needs, has in rules:
            yield from same(Code.HANG_HINGES, case.view.where, what, needs, has)
        if any(below.from_top - above.from_top < leaf for above, below in pairwise(places)):
            apart = with_unit(leaf, case.view.unit)
            yield finding(Code.HANG_HINGES, case.view.where, "hinges", f"{apart} apart", "nearer")
        if places and not (places[0].from_top >= 0 and places[-1].from_top + leaf <= high):
            yield finding(Code.HANG_HINGES, case.view.where, "hinges", "on the case", "beyond it")


def _heads(places: Sequence[HingePlace]) -> list[int]:
    return [place.from_head for place in places]


def _said(places: Sequence[HingePlace]) -> list[bool]:
    return [place.near_shelf for place in places]


def _leaf(case: CaseFacts) -> int:
    """As the old mortises are, else by the width; three have room on any case [tick]."""
    size = case.view.plan.outside
    given = case.door.mortise_height if case.door else None
    table = (leaf for most, leaf in LEAVES if most is None or size.width <= most * TICKS_PER_INCH)
    return min(given or next(table), size.height // 3)


def _mortises(case: CaseFacts, leaf: int) -> list[int]:
    """Tops of the old mortises that lie on the case, none within the leaf of the one above."""
    if case.door is None:
        return []
    last, tops = case.view.plan.outside.height - leaf, list[int]()
    for mark in sorted(case.door.old_mortises):
        top = mark - case.door.head_gap
        if 0 <= top <= last and not (tops and top - tops[-1] < leaf):
            tops.append(top)
    return tops


def _near(case: CaseFacts, place: HingePlace, leaf: int) -> bool:
    top = case.view.plan.outside.height - place.from_top
    boards = [shelf for bay in case.view.plan.bays for shelf in bay.shelves]
    return any(s.underside - NEAR < top and s.top + NEAR > top - leaf for s in boards)


def joined(view: OptionView) -> Iterator[Finding]:
    """Every kind of board is joined at all its ends, with enough fasteners that lie on it."""
    for case in facts(view):
        bays, ordered = case.view.plan.bays, case.view.case
        counts = {
            "top": 2,
            "bottom": 2,
            "upright": 2 * (len(bays) - 1),
            "toe": 2 if ordered.raised_bottom else 0,
            "shelf": 2 * sum(len(bay.shelves) for bay in bays),
        }
        needs = {part: ends for part, ends in counts.items() if ends}
        has = {joint.part: joint.ends for joint in case.sheet.joints}
        yield from same(Code.HANG_JOINTS, case.view.where, "board ends joined", needs, has)
        for joint in case.sheet.joints:
            yield from _fasteners(case, joint)
        yield from _back(case)
        yield from _wall(case)


def _fasteners(case: CaseFacts, joint: Joint) -> Iterator[Finding]:
    ordered, lip = case.view.case, case.view.lip[0] if joint.part == "shelf" else 0
    deep = ordered.raised_bottom if joint.part == "toe" else case.view.depth - lip
    count = screws_for(deep / TICKS_PER_INCH)
    if joint.part == "shelf" and ordered.fixing == "pins":
        count = PINS
    elif joint.part != "toe" and ordered.joint == "dado":
        count = 0
    where = f"{case.view.where}, {joint.part}"
    needs = count, _fastener(case, joint, count)
    has = joint.fasteners, joint.fastener
    yield from same(Code.HANG_JOINTS, where, "fasteners in an end", needs, has)
    at, step = joint.from_front, case.view.job.head.marking_step
    first = min(EDGE, deep // 4)
    even = [lip + first + (deep - 2 * first) * n / max(1, count - 1) for n in range(count)]
    good = len(at) == count and all(
        one % step == 0 and abs(one - place) <= step / 2 + 1
        for one, place in zip(at, even, strict=True)
    )
    if at and not good:
        on = f"{count} evenly over the board, on marking steps"
        yield finding(Code.HANG_JOINTS, where, "places of the fasteners [tick]", on, str(at))


def _fastener(case: CaseFacts, joint: Joint, count: int) -> str:
    """The screw that is long enough to bite in the board's end beyond the side; or a pin."""
    if not count:
        return ""
    if joint.part == "shelf" and case.view.case.fixing == "pins":
        return "shelf pin"
    unit, thick = case.view.unit, case.view.job.thickness(case.view.case.material)
    per, bite, lengths = SCREWS[unit]
    long = next((one for one in lengths if one * per >= thick + bite * per), lengths[-1])
    size = THIN_SCREW[unit] if thick < TICKS_PER_INCH * 9 // 16 else THICK_SCREW[unit]
    return f"{size} x {with_unit(int(long * per), unit)} screw"


def _back(case: CaseFacts) -> Iterator[Finding]:
    """The back has a fastener at each spacing, round it and along each board that is fixed."""
    back, size = case.sheet.back, case.view.plan.outside
    if (back is None) != (case.view.case.back == "none"):
        has = "none" if back is None else "given"
        needs = "given" if back is None else "none"
        yield finding(Code.HANG_JOINTS, case.view.where, "fastening of the back", needs, has)
    if back is None:
        return
    apart, bays = APART[case.view.unit], case.view.plan.bays
    round_it = 2 * sum(-(-side // apart) for side in (size.width, size.height))
    fixed = case.view.case.fixing == "fixed"
    boards = [bay.inside.width for bay in bays for _ in bay.shelves if fixed]
    boards += [bays[0].inside.height for _ in bays[1:]]
    between = sum(max(1, -(-long // apart) - 1) for long in boards)
    needs_all, has_all = (apart, round_it, between), (back.spacing, back.around, back.across)
    what = "spacing [tick], fasteners round the back and across it"
    yield from same(Code.HANG_JOINTS, case.view.where, what, needs_all, has_all)


def _wall(case: CaseFacts) -> Iterator[Finding]:
    """A case that does not hang in a doorway is fixed to the studs that it is sure to cross."""
    fixing, kind, ground = case.sheet.wall, case.view.case.kind, case.view.job.ground
    if fixing is None or kind == "hung":
        has, needs = ("none" if fixing is None else "some"), ("none" if kind == "hung" else "some")
        yield from same(Code.HANG_JOINTS, case.view.where, "fixing to the wall", needs, has)
        return
    studs = max(1, case.view.plan.outside.width // ground.stud_spacing)
    least = PER_STUD if kind == "wall" else 2 if studs == 1 else 1
    down = min(CLEAT, case.view.plan.outside.height // 2)
    wanted = (studs, least, ground.screw, ground.screw_thread, down)
    shown = (fixing.studs, fixing.screws_per_stud, fixing.screw, fixing.thread, fixing.from_top)
    what = "studs, screws in each, screw, thread and place below the top [tick]"
    yield from same(Code.HANG_JOINTS, case.view.where, what, wanted, shown)


def cautions(view: OptionView) -> Iterator[Finding]:
    """Every caution that the job calls for is there, each with its source; the last line defers."""
    hanging = view.option.hanging
    if hanging is None or not view.whole:
        return
    has = {one.key for one in hanging.cautions if one.text and one.source}
    for key in sorted(_called_for(view) - has):
        yield finding(Code.HANG_CAUTION, view.where, f"caution on {key}", "given", "left out")
    if len(has) < len({one.key for one in hanging.cautions}) or not hanging.defer:
        what = "cautions with text and source, and what comes first"
        yield finding(Code.HANG_CAUTION, view.where, what, "all of them", "some are missing")


def _called_for(view: OptionView) -> set[str]:
    """Keys of cautions that no plan of such a job may leave out."""
    job, keys = view.job, {"saws"}
    kinds = {case.case.kind for case in view.cases}
    built = job.head.house_built
    if job.ground.country != "US":
        keys.add("country")
    if kinds & {"hung", "built-in"} and (built == "unknown" or built < LEAD):
        keys.add("lead-paint")
    if kinds - {"standing"} and (built == "unknown" or built < ASBESTOS):
        keys.add("asbestos")
    if job.ground.glass != "none" or any(case.glass for case in job.cases):
        keys.add("glass")
    if "hung" in kinds:
        keys.add("pinch")
    if kinds & {"standing", "built-in"} and job.ground.children is not False:
        keys.add("children")
    for case in view.cases:
        size, above = case.plan.outside, case.plan.above_floor
        if case.case.kind == "wall" and size.depth > PROJECTS and above > CANE:
            keys.add("projects")
        if case.plan.swing is not None and case.plan.swing.passage_90 < ACCESSIBLE:
            keys.add("passage")
        door = next((one for one in job.doorways if one.name == case.case.doorway), None)
        old = door.old_door if door else None
        if case.case.kind == "hung" and old is None:
            keys.add("not-asked")
        keys |= _old_door(old) if old and door else set()
    return keys


def _old_door(old: OldDoor) -> set[str]:
    """Of what the old door did."""
    did = {
        "louvred": old.louvred,
        "return-air": old.return_air,
        "appliance": old.appliance,
        "panel": old.panel,
        "shut-off": old.shut_off,
        "switch": old.switch,
        "privacy": old.privacy,
        "entered": old.entered,
    }
    keys = {key for key, answer in did.items() if answer == "yes"}
    if "unknown" in {*did.values(), old.exit, old.fire_door}:
        keys.add("not-known")
    return keys | ({"cleared"} if old.cleared_by else set())


RULES = (listed, masses, hinges, figures, verdicts, joined, cautions)
"""All rules on the hanging sheets of an option."""
