"""The layout problem in whole numbers, built once from the job; model code only reads it.

All lengths are ticks of 1/320 mm. Rounding happens here: things that must fit round
up, room for them rounds down, both through exact thresholds in marking steps.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import ceil
from typing import Literal

from solver.carcass.boards_of_case import Box, box, lip_sizes, load_limit, mass_of
from solver.carcass.thickness_band import gains_if_thin
from solver.job.case import Case
from solver.job.holds import Hold
from solver.job.inventory import Item
from solver.job.job import Job, front_clearance, size_allowance
from solver.layout.layout_problem import (
    BayShape,
    EmptyHeld,
    Form,
    Holding,
    Kind,
    LayoutProblem,
    LineGroup,
    MarkHeld,
    ThingsHeld,
    Wishes,
)
from solver.plan.built import LinesApart
from solver.strength.beams import inset_load_share
from solver.strength.shelf_beams import sag_load
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Grams, Ticks


def build(
    job: Job,
    counts: Mapping[str, Sequence[int]],
    depths: Mapping[str, Ticks],
    *,
    share: bool = True,
) -> LayoutProblem:
    """Build the problem for one combination of shelf counts.

    Parameters
    ----------
    job
        The job.
    counts
        Shelves of each bay, by case name [-].
    depths
        Inside depth of each case, by name [tick].
    share
        False to let every bay keep its own shelf lines although the job asks for common ones.
    """
    bays: list[BayShape] = []
    for number, case in enumerate(job.cases):
        sizes = box(job, case, depths[case.name])
        bays += [
            _bay(job, case, sizes, number, bay, count)
            for bay, count in enumerate(counts[case.name])
        ]
    groups, lined, apart = _line_groups(job, bays, share=share)
    held = _holding_of(job, lined)
    return LayoutProblem(lined, groups, _kinds(job), _wishes(job), apart, held)


def _bay(job: Job, case: Case, sizes: Box, number: int, bay: int, count: int) -> BayShape:
    # the last bay takes the ticks that do not divide; for the model all bays are alike
    look, width = job.look, min(width for _, width in sizes.bays)
    _, above, below = lip_sizes(job, case)
    front = front_clearance(job, case)
    pins = case.fixing == "pins"
    return BayShape(
        case=number,
        number=bay,
        shelves=count,
        width=width,
        run=width - int(look.spare * width) - 2 * look.end_margin,
        deep=sizes.depth - front,
        front=front,
        floor=sizes.floor,
        inside=sizes.inside_height,
        thickness=sizes.thickness,
        offset=case.first_hole if pins else 0,
        step=case.pin_pitch if pins else job.head.marking_step,
        line=0,
        lip=(above, below),
        load=load_limit(job, width, sizes.depth),
        above_floor=case.above_floor,
        sag=(_sag(job, case, sizes, 0), _sag(job, case, sizes, 1)),
        margin=look.end_margin,
        thinner=gains_if_thin(job, case),
        wider=sizes.bays[bay][1] - width,
    )


def _sag(job: Job, case: Case, sizes: Box, index: int) -> Grams | None:
    """Load by the sag limit, spread evenly but for the margins, where nothing stands [g]."""
    width = sizes.bays[-1][1]
    found, margin = sag_load(job, case, width, sizes.depth, index), job.look.end_margin
    return (
        found
        if found is None or 2 * margin >= width
        else int(found / inset_load_share(width, margin))
    )


def _families(job: Job, bays: Sequence[BayShape]) -> list[list[int]]:
    """Indices of bays that are to share lines: those of one case, and of cases beside it."""
    home = {case.name: case.name for case in job.cases}

    def find(name: str) -> str:
        return name if home[name] == name else find(home[name])

    for case in job.cases:
        if case.beside is not None:
            home[find(case.name)] = find(case.beside)
    families: dict[str, list[int]] = defaultdict(list)
    for index, bay in enumerate(bays):
        families[find(job.cases[bay.case].name)].append(index)
    return list(families.values())


def _meeting(family: Sequence[int], bays: Sequence[BayShape]) -> list[list[int]]:
    """Divide a family into bays whose marks meet: equal steps, counted from equal heights."""
    meeting: dict[tuple[Ticks, Ticks], list[int]] = defaultdict(list)
    for index in family:
        step = bays[index].step
        meeting[step, _line_height(bays[index]) % step].append(index)
    return list(meeting.values())


def _line_groups(
    job: Job, bays: Sequence[BayShape], *, share: bool
) -> tuple[tuple[LineGroup, ...], tuple[BayShape, ...], tuple[LinesApart, ...]]:
    """Group the bays by shelf lines, and say which bays are to share lines and do not."""
    families = _families(job, bays) if job.look.share_lines else [[b] for b in range(len(bays))]
    divided = [_meeting(family, bays) for family in families]
    together = [some for family in divided for some in family]
    apart = [_apart(job, bays, some, "marks") for family in divided for some in family[1:]]
    if not share:
        apart += [_apart(job, bays, some, "fit") for some in together if len(some) > 1]
        together = [[index] for some in together for index in some]
    lined = list(bays)
    for some in together:
        first = _line_height(bays[some[0]])
        for index in some:
            shift = (_line_height(bays[index]) - first) // bays[index].step
            lined[index] = replace(bays[index], line=shift)
    groups = [LineGroup(tuple(some), max(bays[b].shelves for b in some)) for some in together]
    return tuple(groups), tuple(lined), tuple(apart)


def _apart(
    job: Job, bays: Sequence[BayShape], some: Sequence[int], because: Literal["marks", "fit"]
) -> LinesApart:
    names = tuple((job.cases[bays[b].case].name, bays[b].number + 1) for b in some)
    return LinesApart(bays=names, because=because)


def _line_height(bay: BayShape) -> Ticks:
    """Top face above the room's floor of a shelf with mark number 0 [tick]."""
    return bay.above_floor + bay.offset + bay.thickness


def _wishes(job: Job) -> Wishes:
    look = job.look
    return Wishes(
        rhythm=look.rhythm,
        headroom=look.headroom,
        lift=look.lift,
        gap=look.gap,
        clear_least=look.clear_least,
        clear_most=look.clear_most,
        eye_level=look.eye_level,
        step=look.step,
        tallest=look.tallest,
        steepest=look.steepest,
        shelf_style=look.shelf_style,
        fragile_floor=_fragile_floor(job),
    )


FRAGILE_FLOOR = 18 * TICKS_PER_INCH
"""Fragile things stand above knees and wagging tails [tick]: common practice, no source."""
FRAGILE_FLOOR_WITH_CHILDREN = 48 * TICKS_PER_INCH
"""The same out of the reach of small children [tick]: common practice, no source."""


def _fragile_floor(job: Job) -> Ticks:
    children = job.site is not None and job.site.children is True
    return FRAGILE_FLOOR_WITH_CHILDREN if children else FRAGILE_FLOOR


KEEPS = ("must", "should", "optional")
"""How dear things are, dearest first."""


def _kinds(job: Job) -> tuple[Kind, ...]:
    kinds, numbers = [], {item.name: index for index, item in enumerate(job.items)}
    for index, item in enumerate(job.items):
        mass, assumed = mass_of(job, item)
        gap = job.look.gap if item.gap is None else item.gap
        kinds.append(
            Kind(
                name=item.name,
                count=item.count,
                mass=mass,
                mass_assumed=assumed,
                group=item.group,
                where=item.where,
                gap=gap,
                forms=tuple(_forms(index, item, size_allowance(job, item), gap)),
                area=-(-item.width * item.height // TICKS_PER_MM**2),
                keep=KEEPS.index(item.keep),
                heading=item.heading,
                hero=item.hero,
                fragile=item.fragile,
                order=item.order,
                together=item.together,
                apart=tuple(sorted(numbers[name] for name in item.apart if name in numbers)),
            )
        )
    return tuple(kinds)


def _forms(kind: int, item: Item, extra: Ticks, gap: Ticks) -> list[Form]:
    """All ways a kind may stand: upright or lying, stacked, rows deep; the plain one first."""
    width, height, depth = item.width + extra, item.height + extra, item.depth + extra
    stances = [((width, height, depth), False)]
    if item.may_lie:
        lying = [(height, width, depth), (width, depth, height)]
        stances += [(size, True) for size in dict.fromkeys(lying) if size != stances[0][0]]
    forms = []
    for (w, h, d), lies in stances:
        for rows in range(1, min(item.rows, item.count) + 1):
            for stack in range(1, min(item.stack, ceil(item.count / rows)) + 1):
                riser = ceil(stack * h / 2)
                for last in range(1 if rows > 1 else stack, stack + 1):
                    if (rows - 1) * stack + last > item.count:
                        continue
                    # only the rear row's pile may be lower: the height is then exact
                    front = stack * h + (rows - 2) * riser if rows > 1 else 0
                    forms.append(
                        Form(
                            kind=kind,
                            width=w,
                            depth=rows * d + (rows - 1) * gap,
                            height=max(front, last * h + (rows - 1) * riser),
                            things=(rows - 1) * stack + last,
                            size=(w, h, d),
                            lying=lies,
                            stack=stack,
                            rows=rows,
                        )
                    )
    return forms


def _holding_of(job: Job, bays: Sequence[BayShape]) -> Holding:
    """The job's holds for bays of certain shelf counts."""
    return Holding(tuple(_held(job, bays, hold) for hold in job.holds))


def _held(job: Job, bays: Sequence[BayShape], hold: Hold) -> MarkHeld | ThingsHeld | EmptyHeld:
    homes = [b for b, shape in enumerate(bays) if _is_there(job, shape, hold)]
    if hold.mark is not None and hold.shelf is not None:
        if not homes:
            return MarkHeld(-1, hold.shelf, 0)
        shape = bays[homes[0]]
        return MarkHeld(homes[0], hold.shelf, (hold.mark - shape.offset) // shape.step)
    opening = int(hold.opening or 0)
    spots = tuple((b, opening) for b in homes if opening < bays[b].openings)
    if hold.empty:
        return EmptyHeld(spots[0][0] if spots else -1, opening)
    kind = [item.name for item in job.items].index(str(hold.item))
    return ThingsHeld(kind, spots, hold.count or job.items[kind].count, hold.place)


def _is_there(job: Job, shape: BayShape, hold: Hold) -> bool:
    """Whether a bay is one that the hold speaks of."""
    if hold.case is not None and job.cases[shape.case].name != hold.case:
        return False
    return hold.bay is None or shape.number == hold.bay - 1
