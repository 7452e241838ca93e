"""Rules on near misses, on changes that let everything fit, and on mends of a shelf that sags."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.checking.findings import Code, Finding, finding
from solver.checking.sag import LIMITS, Shape, pairs, shape, weights
from solver.checking.structure import option_where
from solver.checking.views import OpeningView, OptionView, at_least, same, same_length
from solver.job.boards import UNKNOWN_WOOD
from solver.job.case import SHELVES_MOST, Case
from solver.plan.built import Mend, ShelfStrength
from solver.plan.plan import Option, Plan
from solver.plan.slack_and_advice import Alteration, NearMiss
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, inches, mm

LEAST_ROOM: dict[Unit, Ticks] = {"in": inches("1/32"), "mm": mm("0.5")}
"""Room in every strip where the job keeps no margin [tick]."""
LOOKS = ("headroom", "gap", "end margin")
SIZES = ("width", "height", "depth")


def near(plan: Plan) -> Iterator[Finding]:
    """Near misses are told of a plan with an option that fits everything, and keep their rules."""
    for number, one in enumerate(plan.near, start=1):
        where = f"near miss {number}"
        if not plan.options or plan.options[0].cost is None:
            yield finding(Code.NEAR_SAVING, where, "option it is compared with", "priced", "none")
            continue
        for rule in NEAR_RULES:
            yield from rule(plan, one, where)
        start = _start(plan, one)
        for change in one.alters:
            yield from _amount(Code.NEAR_CHANGE, plan, change, where)
            yield from _comes_to(plan, start, change, where)


def _start(plan: Plan, one: NearMiss) -> Option:
    """The option that a near miss starts from: that of its shelves, else the recommended one."""
    alike = (o for o in plan.options if o.cases and dict(o.shelf_counts) == dict(one.shelf_counts))
    return next(alike, plan.options[0])


def saving(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """What it saves is the price of the recommended option less its own."""
    cost = plan.options[0].cost
    assert cost is not None
    if (one.saves is None) != (one.total is None) or (one.saves is not None and not cost.complete):
        yield finding(
            Code.NEAR_SAVING, where, "prices", "known or left off together", "given in part"
        )
    elif one.saves is not None and one.total is not None:
        yield from same(Code.NEAR_SAVING, where, "saving", cost.total - one.total, one.saves)


def sheets(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """It saves no more sheets than are bought."""
    most = plan.options[0].sheet_count
    if one.sheets_saved > most:
        yield finding(
            Code.NEAR_SHEETS, where, "sheets saved", f"at most {most}", str(one.sheets_saved)
        )


def gains(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """It gains what it says: money or a sheet, things let in, or another number of shelves."""
    shelves = sum(map(sum, one.shelf_counts.values()))
    now = sum(map(sum, plan.options[0].shelf_counts.values()))
    held = {
        "saves": (one.saves if one.saves is not None else one.sheets_saved) > 0,
        "lets in": bool(one.lets_in),
        "more shelves": shelves > now,
        "fewer shelves": shelves < now,
    }
    if not held[one.gains]:
        others = [word for word, true in held.items() if true] or ["nothing told"]
        yield finding(Code.NEAR_GAINS, where, "what it gains", " or ".join(others), one.gains)


def counts(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """Its shelves are those of an option, or those recommended with the shelves that change."""
    wanted = {name: list(bays) for name, bays in plan.options[0].shelf_counts.items()}
    for change in one.alters:
        for name, bays in wanted.items():
            if change.what == "shelves" and change.case in (None, name):
                wanted[name] = [n + (change.number or 0) for n in bays]
    changed = any(change.what == "shelves" for change in one.alters)
    known = [] if changed else [_listed(option.shelf_counts) for option in plan.options]
    has = _listed(one.shelf_counts)
    within = all(0 <= n <= SHELVES_MOST for bays in has.values() for n in bays)
    if has not in [wanted, *known] or not within:
        yield finding(Code.NEAR_COUNTS, where, "shelves", str(wanted), str(has))


def _listed(counts: dict[str, tuple[int, ...]]) -> dict[str, list[int]]:
    return {name: list(bays) for name, bays in counts.items()}


def lets_in(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """It lets in what the option of its shelves leaves out, all of it."""
    if not one.lets_in:
        return
    left = {out.item: out.count for out in _start(plan, one).left_out}
    yield from same(Code.NEAR_LETS_IN, where, "things let in", left, dict(one.lets_in))


def room(plan: Plan, one: NearMiss, where: str) -> Iterator[Finding]:
    """It keeps the margin in every strip, or without one a little room."""
    needs = plan.job.shop.margin or LEAST_ROOM[plan.unit]
    yield from at_least(Code.NEAR_SLACK, where, "room in every strip", needs, one.slack, plan.unit)


NEAR_RULES = (saving, sheets, gains, counts, lets_in, room)
"""All rules on one near miss."""


def changes(plan: Plan, option: Option) -> Iterator[Finding]:
    """A change that would do moves by whole steps, to something that can be."""
    for number, one in enumerate(option.changes, start=1):
        where = f"{option_where(option)}, change {number}"
        for change in one.alters:
            yield from _amount(Code.CHANGE_AMOUNT, plan, change, where)
        if len(one.alters) == 1:
            yield from same(Code.CHANGE_AMOUNT, where, "amount", one.alters[0].by, one.by)


def leaves(plan: Plan, option: Option) -> Iterator[Finding]:
    """What may be left out is of the job, and as few things as the layout shown leaves out."""
    kinds = {item.name: item.count for item in plan.job.items}
    most = sum(left.count for left in option.left_out)
    for number, one in enumerate(option.changes, start=1):
        where = f"{option_where(option)}, change {number}"
        known = all(0 < count <= kinds.get(name, 0) for name, count in one.leaves.items())
        if one.leaves and (not known or sum(one.leaves.values()) > most):
            yield finding(
                Code.CHANGE_LEAVES,
                where,
                "things to leave out",
                f"at most {most}, of the things listed",
                str(dict(one.leaves)),
            )


OPTION_RULES = (changes, leaves)
"""All rules on the changes of one option."""


def _amount(code: Code, plan: Plan, change: Alteration, where: str) -> Iterator[Finding]:
    """A length changes by whole steps of the shop or of the marking; a look not below nothing."""
    if change.what not in (*LOOKS, *SIZES):
        return
    step = plan.job.head.marking_step if change.what in LOOKS else plan.job.shop.cutting_step
    by = change.by or 0
    if by < step or by % step:
        needs = f"a whole number of steps of {step} ticks"
        yield finding(code, where, f"change of {change.what}", needs, f"{by} ticks")
    elif change.what in LOOKS:
        yield from at_least(
            code, where, f"present {change.what}", by, _look(plan, change), plan.unit
        )


def _look(plan: Plan, change: Alteration) -> Ticks:
    look = plan.job.look
    return {"headroom": look.headroom, "gap": look.gap, "end margin": look.end_margin}[change.what]


def _comes_to(plan: Plan, start: Option, change: Alteration, where: str) -> Iterator[Finding]:
    """The length that it comes to is the present one, less or more by the change."""
    if change.to is None or change.by is None:
        return
    by = -change.by if change.less else change.by
    for now in [_look(plan, change)] if change.what in LOOKS else _sizes(plan, start, change):
        yield from same_length(
            Code.NEAR_CHANGE, where, f"new {change.what}", now + by, change.to, plan.unit
        )


def _sizes(plan: Plan, start: Option, change: Alteration) -> list[Ticks]:
    """The size of every case that changes, outside or inside as the job gives it [tick]."""
    sizes = []
    for case in plan.job.cases:
        for planned in start.cases:
            if planned.name == case.name and change.case in (None, case.name):
                outside: Ticks = getattr(planned.outside, change.what)
                sizes.append(outside - _around(plan, case, change.what))
    return sizes


def _around(plan: Plan, case: Case, what: str) -> Ticks:
    """What the boards add to a size that the job gives inside [tick]."""
    if case.sizes == "outside":
        return 0
    if what == "depth":
        return 0 if case.back == "none" else plan.job.thickness(case.back)
    boards = 2 * plan.job.thickness(case.material)
    return boards + (case.raised_bottom if what == "height" else 0)


DISPLAY = ("display-first", "display-long")
LIP = 19.05
"""Thickness of a lip that is proposed where there is none, 3/4 in [mm]."""
STEPS = {
    ("lip", "in"): TICKS_PER_INCH // 8,
    ("lip", "mm"): 2 * TICKS_PER_MM,
    ("thickness", "in"): TICKS_PER_INCH // 32,
    ("thickness", "mm"): TICKS_PER_MM,
}
"""By how much sizes that are proposed go up [tick]."""


def mends(view: OptionView) -> Iterator[Finding]:
    """A shelf over a limit, and no other, says what mends it; each mends it, and no less would."""
    for opening, shelf in pairs(view):
        over = _over(shelf)
        if over < bool(shelf.mends) or (over and not _says_load(shelf)):
            needs = "some, the load among them" if over else "none"
            has = ", ".join(mend.what for mend in shelf.mends) or "none"
            yield finding(Code.STRENGTH_MENDS, opening.where, "what would mend it", needs, has)
        for mend in shelf.mends:
            yield from _mends(opening, shelf, mend)


def _over(shelf: ShelfStrength) -> bool:
    """Whether a sag, as shown, is over a limit."""
    first, years = shelf.sag_first, shelf.sag_long
    least = min(shelf.allowed_first, shelf.allowed_industry)
    return first > least or years > shelf.allowed_long


def _says_load(shelf: ShelfStrength) -> bool:
    return shelf.display_load <= 0 or any(mend.what == "less load" for mend in shelf.mends)


def _mends(opening: OpeningView, shelf: ShelfStrength, mend: Mend) -> Iterator[Finding]:
    """Hold one change against the sag that it leads to."""
    where, now = f"{opening.where}, {mend.what}", shape(opening)
    if (mend.mass is None, mend.length is None) != (
        mend.what != "less load",
        mend.what == "less load",
    ):
        yield finding(Code.STRENGTH_MENDS, where, "figure", "a load or a length", "another")
    if mend.what == "less load":
        if mend.mass != shelf.display_load:
            needs, has = f"{shelf.display_load} g", f"{mend.mass} g"
            yield finding(Code.STRENGTH_MENDS, where, "load", needs, has)
        return
    size = (mend.length or 0) / TICKS_PER_MM
    if mend.what == "upright":
        half = (now.span - now.thickness) / 2
        fits = max(0.0, half - 1 / TICKS_PER_MM) < size < half + 0.5 / TICKS_PER_MM  # whole ticks
        carries = replace(now, span=size).beam.carries(DISPLAY) if fits else -1.0
        if carries + 1 < shelf.load:
            needs = f"{shelf.load} g borne over half, {half:.3f} mm"
            yield finding(Code.STRENGTH_MENDS, where, "upright", needs, f"{size:.3f} mm")
        return
    step = STEPS[mend.what, opening.unit] / TICKS_PER_MM
    if (mend.length or 0) % STEPS[mend.what, opening.unit]:
        needs, has = f"whole steps of {step} mm", f"{size} mm"
        yield finding(Code.STRENGTH_MENDS, where, "size", needs, has)
    changed, less = (_with(now, mend.what, one) for one in (size, size - step))
    if changed is None or not _keeps(opening, changed):
        yield finding(Code.STRENGTH_MENDS, where, "size", "enough", f"{size:.2f} mm")
    elif less is not None and _keeps(opening, less, surely=True):
        yield finding(Code.STRENGTH_MENDS, where, "size", "the least", f"{size:.2f} mm")


def _with(now: Shape, what: str, size: float) -> Shape | None:
    """Return the board with a lip so high in all, or so thick; None where that is no more."""
    if what == "thickness":
        return replace(now, thickness=size) if size > now.thickness else None
    thick, above, below = now.lip
    if size <= now.thickness + above + below or now.depth <= (thick or LIP):
        return None
    lip = (thick or LIP, above, size - now.thickness - above)
    return replace(now, lip=lip, wood=now.wood if thick else UNKNOWN_WOOD)


def _keeps(opening: OpeningView, board: Shape, *, surely: bool = False) -> bool:
    """Whether it keeps both display limits; `surely`: by more than a tick of rounding."""
    sag = board.beam.sag(weights(opening))
    rounding = (-2 if surely else 2) / TICKS_PER_MM
    return all(sag * LIMITS[name][1] <= board.span / LIMITS[name][0] + rounding for name in DISPLAY)
