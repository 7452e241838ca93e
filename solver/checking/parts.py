"""The list of parts that a case needs, restated from the job, and the rules on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from solver.checking.findings import Code, Finding, finding
from solver.checking.views import CaseView, OptionView, same, same_length
from solver.plan.stocked import Part
from solver.units import Ticks, to_mm


@dataclass(frozen=True)
class Wanted:
    """A part as the job asks for it: finished size, and what joints or clearances add to it.

    All lengths in ticks [tick].
    """

    ident: str
    name: str
    material: str
    length: Ticks
    width: Ticks
    added_length: Ticks = 0
    added_width: Ticks = 0

    @property
    def cut_length(self) -> Ticks:
        """Length to cut [tick]."""
        return self.length + self.added_length

    @property
    def cut_width(self) -> Ticks:
        """Width to cut [tick]."""
        return self.width + self.added_width

    def turned(self) -> Wanted:
        """The same with length and width changed round."""
        return Wanted(
            self.ident,
            self.name,
            self.material,
            self.width,
            self.length,
            self.added_width,
            self.added_length,
        )


def wanted(view: CaseView) -> list[Wanted]:
    """Every sheet part of a case; without grain the longer side is the length."""
    parts = _carcass(view) + _shelves(view) + _back(view)
    return [
        part.turned()
        if view.job.grain(part.material) == "any" and part.cut_width > part.cut_length
        else part
        for part in parts
    ]


def _carcass(view: CaseView) -> list[Wanted]:
    case, t, deep = view.case, view.thickness, view.depth
    outside = view.plan.outside
    across = outside.width - 2 * t
    inside = outside.height - 2 * t - case.raised_bottom
    joint = 2 * case.dado if case.joint == "dado" else 0

    def board(ident: str, name: str, length: Ticks, width: Ticks, added: Ticks = 0) -> Wanted:
        return Wanted(f"{case.name}/{ident}", name, case.material, length, width, added)

    parts = [board(f"side-{end}", "side", outside.height, deep) for end in ("left", "right")]
    parts += [board(name, name, across, deep, joint) for name in ("top", "bottom")]
    parts += [
        board(f"upright-{n}", "upright", inside, deep, joint) for n in range(1, len(view.bays))
    ]
    if case.raised_bottom:
        parts.append(board("toe", "toe", across, case.raised_bottom))
    return parts


def shelf_part_id(view: CaseView, bay: int, index: int) -> str:
    """Id of a shelf's part: the bay is named where there are several."""
    return f"{view.case.name}/{_shelf_name(view, bay, index)}"


def _shelf_name(view: CaseView, bay: int, index: int) -> str:
    return f"bay-{bay}-shelf-{index}" if len(view.bays) > 1 else f"shelf-{index}"


def _shelves(view: CaseView) -> list[Wanted]:
    case = view.case
    joint = 2 * case.dado if case.joint == "dado" else 0
    ends = joint if case.fixing == "fixed" else -case.pin_clearance
    return [
        Wanted(
            shelf_part_id(view, bay.bay.number, shelf.index),
            "shelf",
            case.material,
            bay.bay.inside.width,
            view.depth,
            ends,
            -view.lip[0],
        )
        for bay in view.bays
        for shelf in bay.bay.shelves
    ]


def _back(view: CaseView) -> list[Wanted]:
    case, outside = view.case, view.plan.outside
    if case.back == "none":
        return []
    ident, inset = f"{case.name}/back", -case.back_inset
    whole = Wanted(ident, "back", case.back, outside.height, outside.width, inset, inset)
    if len(view.bays) == 1 or _comes_out_of_a_sheet(view, whole):
        return [whole]
    near = case.back_inset // 2
    joints = [bay.bay.x + bay.bay.inside.width + view.thickness // 2 for bay in view.bays[:-1]]
    edges = [near, *joints, outside.width - case.back_inset + near]
    return [
        Wanted(f"{ident}-{n}", "back", case.back, outside.height, edges[n] - edges[n - 1], inset)
        for n in range(1, len(edges))
    ]


def _comes_out_of_a_sheet(view: CaseView, part: Wanted) -> bool:
    """A back that no sheet yields whole is cut bay by bay, the joints behind the uprights."""
    shop = view.job.shop
    sizes = [(part.cut_length, part.cut_width)]
    if view.job.grain(part.material) == "any":
        sizes.append((part.cut_width, part.cut_length))
    return any(
        length + shop.margin + 2 * shop.edge_trim <= sheet.length
        and width + shop.margin + 2 * shop.edge_trim <= sheet.width
        for sheet in view.job.sheets
        if sheet.material == part.material
        for length, width in sizes
    )


def lips(view: CaseView) -> dict[str, tuple[str, Ticks]]:
    """Moulding and length [tick] of each shelf's lip, by part id."""
    case = view.case
    if case.lip is None:
        return {}
    shorter = case.pin_clearance if case.fixing == "pins" else 0
    return {
        _lip_id(view, bay.bay.number, shelf.index): (
            case.lip.moulding,
            bay.bay.inside.width - shorter,
        )
        for bay in view.bays
        for shelf in bay.bay.shelves
    }


def _lip_id(view: CaseView, bay: int, index: int) -> str:
    return f"{view.case.name}/lip-{_shelf_name(view, bay, index).removeprefix('shelf-')}"


def listed(view: OptionView) -> Iterator[Finding]:
    """The parts listed are exactly those that the cases need, each once."""
    has = Counter(part.id for part in view.option.parts)
    needs = {part.ident for case in view.cases for part in wanted(case)}
    for ident in sorted(needs - has.keys()):
        yield finding(Code.PARTS_MISSING, view.where, f"part {ident}", "listed", "missing")
    for ident in sorted(has.keys() - needs if view.whole else ()):
        yield finding(Code.PARTS_UNWANTED, view.where, f"part {ident}", "left off", "listed")
    for ident, times in sorted(has.items()):
        if times > 1:
            yield finding(
                Code.PARTS_REPEATED, view.where, f"part {ident}", "listed once", f"{times} times"
            )


def _pairs(view: OptionView) -> Iterator[tuple[CaseView, Wanted, Part]]:
    needs = {part.ident: (case, part) for case in view.cases for part in wanted(case)}
    for part in view.option.parts:
        if part.id in needs:
            yield *needs[part.id], part


def name(view: OptionView) -> Iterator[Finding]:
    """A part carries the name of what it is and of its case."""
    for case, needs, part in _pairs(view):
        label = needs.name, case.case.name
        where = f"{view.where}, part {part.id}"
        yield from same(Code.PARTS_NAME, where, "name and case", label, (part.name, part.case))


def material(view: OptionView) -> Iterator[Finding]:
    """Backs are of the back's material, all else of the case's."""
    for _, needs, part in _pairs(view):
        where = f"{view.where}, part {part.id}"
        yield from same(Code.PARTS_MATERIAL, where, "material", needs.material, part.material)


def sizes(view: OptionView) -> Iterator[Finding]:
    """A part has its finished size with what joints, lips and clearances add or take."""
    for _, needs, part in _pairs(view):
        where = f"{view.where}, part {part.id}"
        yield from same_length(
            Code.PARTS_LENGTH, where, "length", needs.cut_length, part.length, view.unit
        )
        yield from same_length(
            Code.PARTS_WIDTH, where, "width", needs.cut_width, part.width, view.unit
        )


def thickness(view: OptionView) -> Iterator[Finding]:
    """A part is as thick as its material measures."""
    for _, needs, part in _pairs(view):
        yield from same_length(
            Code.PARTS_THICKNESS,
            f"{view.where}, part {part.id}",
            "thickness",
            view.job.thickness(needs.material),
            part.thickness,
            view.unit,
        )


def grain(view: OptionView) -> Iterator[Finding]:
    """A part keeps its direction where its material has grain."""
    for _, needs, part in _pairs(view):
        where = f"{view.where}, part {part.id}"
        yield from same(
            Code.PARTS_GRAIN, where, "grain", view.job.grain(needs.material), part.grain
        )


ALLOWED = {"back": ("planted back inset",), "shelf": ("dado", "pin clearance", "lip")}
"""Names of what is added to a part or taken off, by the part's name; of all others `OTHERS`."""
OTHERS = ("dado",)


def allowance(view: OptionView) -> Iterator[Finding]:
    """What the allowances add to a part is what its joints, lip and clearances ask for."""
    for _, needs, part in _pairs(view):
        known, named = ALLOWED.get(needs.name, OTHERS), [one.what for one in part.allowances]
        if not set(named) <= set(known) or len(set(named)) < len(named):
            where, what = f"{view.where}, part {part.id}", "names of its allowances"
            yield finding(Code.PARTS_ALLOWANCE, where, what, f"of {known}", f"{named}")
        has = sum(a.length for a in part.allowances), sum(a.width for a in part.allowances)
        if has != (needs.added_length, needs.added_width):
            yield finding(
                Code.PARTS_ALLOWANCE,
                f"{view.where}, part {part.id}",
                "allowance in length and width",
                f"{to_mm(needs.added_length)} and {to_mm(needs.added_width)} mm",
                f"{to_mm(has[0])} and {to_mm(has[1])} mm",
            )


def shelf_part(view: OptionView) -> Iterator[Finding]:
    """Each shelf names its own part."""
    for bay in view.bays:
        for shelf in bay.bay.shelves:
            yield from same(
                Code.PARTS_SHELF,
                f"{bay.where}, shelf {shelf.index}",
                "part",
                shelf_part_id(bay.case, bay.bay.number, shelf.index),
                shelf.part,
            )
