"""Rules on saws: whether those of the shop can make the cuts, how they are set, in which order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from solver.checking.findings import Code, Finding, finding
from solver.checking.sawing import SawnCut, SawView, is_near
from solver.checking.views import same
from solver.job.job import Saw, Shop
from solver.plan.saw_cuts import LONG, SLED_MOST, Cut, CutCaution, SawSetting
from solver.plan.stocked import Part, Sheet
from solver.units import Ticks

GUIDES: dict[Saw, dict[str, tuple[str | None, ...]]] = {
    "guided saw": {"rip": ("track",), "crosscut": ("track",)},
    "table saw": {"rip": ("fence", "sled"), "crosscut": ("sled",)},
    "mitre saw": {"rip": (), "crosscut": ("stop",)},
    "panel saw": {"rip": (None,), "crosscut": (None,)},
}
"""What can be set on each saw for a rip and for a crosscut: never the fence for a crosscut.
At the mitre saw an end is trimmed to a mark."""

NO_WAY: list[tuple[Saw | None, str | None]] = [(None, None)]


def guide(view: SawView) -> Iterator[Finding]:
    """What is set belongs to the saw, and a crosscut is never made against the rip fence."""
    for sawn in view.sawn_cuts:
        cut = sawn.cut
        allowed = _guides(cut.saw, cut)
        if cut.guide not in allowed:
            needs = " or ".join(str(one) for one in allowed) or "another saw"
            what = f"guide for a {cut.direction} with the {cut.saw or 'missing saw'}"
            yield finding(Code.CUT_GUIDE, view.place(cut), what, needs, str(cut.guide))


def _guides(saw_: Saw | None, cut: Cut) -> tuple[str | None, ...]:
    if saw_ is None or (saw_ == "mitre saw" and cut.kind == "trim"):
        return (None,) if cut.direction == "crosscut" or saw_ is None else ()
    return GUIDES.get(saw_, {}).get(cut.direction, ())


def saw(view: SawView) -> Iterator[Finding]:
    """The shop has the saw, and the saw can make the cut; none is named only where none can."""
    if view.shop is None:
        return
    for sawn in view.sawn_cuts:
        ways = [] if sawn.panel is None else list(_ways(sawn, view.shop))
        has = (sawn.cut.saw, sawn.cut.guide)
        if sawn.panel is not None and has not in (ways or NO_WAY):
            needs = " or ".join(f"{one} with {what or 'no guide'}" for one, what in ways)
            shown = f"{has[0]} with {has[1] or 'no guide'}"
            yield finding(Code.CUT_SAW, view.place(sawn.cut), "saw", needs or "none", shown)


def _ways(sawn: SawnCut, shop: Shop) -> Iterator[tuple[Saw | None, str | None]]:
    """All saws of the shop that can make a cut within its limits."""
    for one in shop.saws:
        for what in _guides(one, sawn.cut):
            if _can(sawn, one, what, shop):
                yield one, what


def _can(sawn: SawnCut, one: Saw, what: str | None, shop: Shop) -> bool:
    if one == "panel saw":
        return sawn.cut.panel == "sheet"
    if one == "guided saw":
        return True
    assert sawn.panel is not None
    size, most = sawn.panel.size, shop.lifted
    limited = most is not None and one == "table saw"
    if most is not None and limited and (max(size) > max(most) or min(size) > min(most)):
        return False
    run, fed = size[1 - sawn.axis], size[sawn.axis]
    if what == "fence":
        return _along_fence(run, fed - sawn.taken if sawn.cut.kind == "trim" else sawn.taken, shop)
    if one == "mitre saw":
        return run <= shop.mitre_capacity and fed >= shop.least_length
    return run <= shop.sled_capacity and fed >= shop.least_length and max(size) <= SLED_MOST


def _along_fence(run: Ticks, width: Ticks, shop: Shop) -> bool:
    """A panel runs along the fence where it is long enough, and longer than the fence is far."""
    longest = run if shop.longest_rip is None else shop.longest_rip
    return max(shop.least_length, width) <= run <= longest and width >= shop.least_rip


def measured_from(view: SawView) -> Iterator[Finding]:
    """The edge named is the one that the setting is counted from."""
    for sawn in view.sawn_cuts:
        if sawn.panel is None:
            continue
        side = "edge" if sawn.cut.direction == "rip" else "end"
        at_fence = sawn.cut.guide == "fence"
        trim = sawn.cut.kind == "trim"
        far = trim and is_near(view.sheet, sawn.cut, sawn.panel) == at_fence
        near = "factory" if sawn.panel.rect[sawn.axis] == 0 else "sawn"
        needs = f"far factory {side}" if far else f"{near} {side}"
        has = sawn.cut.measured_from
        yield from same(Code.CUT_MEASURED, view.place(sawn.cut), "measured from", needs, has)


def cautions(view: SawView) -> Iterator[Finding]:
    """A cut that is not safe by the limits of the shop says so."""
    if view.shop is None:
        return
    for sawn in view.sawn_cuts:
        if sawn.panel is not None:
            needs, has = _cautions(sawn, view.shop), sawn.cut.cautions
            yield from same(Code.CUT_CAUTION, view.place(sawn.cut), "cautions", needs, has)


def _cautions(sawn: SawnCut, shop: Shop) -> tuple[CutCaution, ...]:
    assert sawn.panel is not None
    length = max(sawn.panel.size)
    cautions: list[tuple[CutCaution, bool]] = [
        ("no saw", sawn.cut.saw is None),
        ("narrow", sawn.cut.kind != "trim" and sawn.taken < shop.least_rip),
        ("short", length < shop.least_length),
        ("long", sawn.cut.saw in ("table saw", "mitre saw") and length > LONG),
    ]
    return tuple(caution for caution, holds in cautions if holds)


def offcuts(view: SawView) -> Iterator[Finding]:
    """The offcuts named are the leftovers worth keeping, by size and place, largest first."""
    if view.shop is None:
        return
    wanted = sorted(_leftovers(view, view.shop), key=lambda w: (-w[2] * w[3], w))
    needs = [(f"offcut {n}", *place[:4]) for n, place in enumerate(wanted, start=1)]
    what, where = "offcuts (name, x, y, length, width) [tick]", view.view.where
    listed = [(o.name, o.x, o.y, o.length, o.width) for o in view.sheet.offcuts]
    yield from same(Code.CUT_OFFCUT, where, what, needs, listed)
    named = [(place[4], *place[:4]) for place in wanted]
    yield from same(Code.CUT_OFFCUT, where, "names of the offcuts at the cuts", needs, named)


def _leftovers(view: SawView, shop: Shop) -> Iterator[tuple[Ticks, Ticks, Ticks, Ticks, str]]:
    """Place, size and name of the leftovers that are large enough to keep."""
    for sawn in view.sawn_cuts:
        for panel, lying in sawn.parts():
            if panel is None or lying is None or panel.what not in ("offcut", "waste"):
                continue
            r, least = lying.rect, shop.least_offcut
            size = r[2] - r[0], r[3] - r[1]
            if max(size) >= max(least) and min(size) >= min(least):
                yield r[0], r[1], *size, panel.name


def offcut_use(view: SawView) -> Iterator[Finding]:
    """An offcut named as enough for a part is of its material and yields it."""
    if not view.sheet.offcuts:
        return
    own = [p for p in view.view.parts.values() if p.material == view.sheet.material]
    alike = {(p.name, p.length, p.width, p.grain): p for p in own}.values()
    for offcut in view.sheet.offcuts:
        fitting = {part.name for part in alike if _fits(part, offcut.length, offcut.width)}
        use = offcut.enough_for
        if (use not in fitting) if fitting else (use is not None):
            needs = " or ".join(sorted(fitting)) or "nothing"
            where = f"{view.view.where}, {offcut.name}"
            yield finding(Code.CUT_OFFCUT_USE, where, "enough for", needs, str(use))


def _fits(part: Part, length: Ticks, width: Ticks) -> bool:
    along, across = part.length, part.width
    if part.grain == "width":
        along, across = across, along
    turned = part.grain == "any" and across <= length and along <= width
    return turned or (along <= length and across <= width)


RULES = (guide, saw, measured_from, cautions, offcuts, offcut_use)
"""Rules on one sheet's cuts and the shop that makes them."""


def settings(rows: Sequence[SawSetting], sheets: Sequence[Sheet], where: str) -> Iterator[Finding]:
    """Every cut is in one row of settings, set as the row says; rows beside each other differ."""
    numbers = [row.number for row in rows]
    needs = list(range(1, len(rows) + 1))
    yield from same(Code.CUT_SETTINGS, where, "numbers of the settings", needs, numbers)
    cuts = {(n, c.number): c for n, sheet in enumerate(sheets, 1) for c in sheet.cuts}
    listed = Counter((some.sheet, n) for row in rows for some in row.cuts for n in some.cuts)
    for at in sorted(cuts.keys() | listed.keys()):
        times = 1 if at in cuts else 0
        what = f"settings with sheet {at[0]} cut {at[1]}"
        yield from same(Code.CUT_SETTINGS, where, what, times, listed[at])
    for row in rows:
        for some in row.cuts:
            for n in some.cuts:
                cut = cuts.get((some.sheet, n))
                if cut is not None:
                    own = (cut.saw, cut.guide, cut.kind == "trim", cut.setting)
                    what = f"setting {row.number} for sheet {some.sheet} cut {n}"
                    yield from same(Code.CUT_SETTINGS, where, what, own, _key(row))
    for one, then in pairwise(rows):
        if _key(one) == _key(then):
            what = f"setting {then.number}"
            has = "the same again"
            yield finding(Code.CUT_SETTINGS, where, what, "another than before", has)


def _key(row: SawSetting) -> tuple[object, ...]:
    return row.saw, row.guide, row.trim, row.setting


def settings_order(rows: Sequence[SawSetting], where: str) -> Iterator[Finding]:
    """Going from row to row, the cuts of each sheet come in the order of their numbers."""
    last: dict[int, int] = {}
    for row in rows:
        for some in row.cuts:
            for number in some.cuts:
                before = last.get(some.sheet, 0)
                if number <= before:
                    what = f"cut of sheet {some.sheet} in setting {row.number}"
                    needs = f"one after {before}"
                    yield finding(Code.CUT_SETTINGS_ORDER, where, what, needs, str(number))
                last[some.sheet] = number


def stands(rows: Sequence[SawSetting], where: str) -> Iterator[Finding]:
    """A saw stands as it was set where only other saws were used since."""
    before: dict[Saw | None, tuple[object, ...]] = {}
    for row in rows:
        needs = before.get(row.saw) == _key(row)
        what = f"as_it_stands of setting {row.number}"
        yield from same(Code.CUT_STANDS, where, what, needs, row.as_it_stands)
        before[row.saw] = _key(row)
