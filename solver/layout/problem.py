"""The layout problem in whole numbers, built once from the job; model code only reads it.

All lengths are ticks of 1/320 mm. Rounding happens here: things that must fit round
up, room for them rounds down, both through exact thresholds in marking steps.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from solver.band import bands
from solver.case import Case
from solver.geometry import Box, box, lip_sizes, load_limit, mass_of
from solver.inventory import Item, Where
from solver.job import Job, Rhythm, front_kept, guess
from solver.layout.holding import Holding, holding_of
from solver.strength.of_job import sag_load
from solver.units import Grams, Ticks


@dataclass(frozen=True)
class Form:
    """One way in which places of a kind may be filled.

    Attributes
    ----------
    kind
        Index of the kind [-].
    width, depth
        Floor space of one place, all its rows included [tick].
    height
        From the opening's floor to the highest top, risers and stack included [tick].
    things
        How many things one full place holds [-].
    size
        (width, height, depth) of one thing as it stands [tick].
    lying, stack, rows
        Whether it lies, how many on each other, how many rows deep.
    """

    kind: int
    width: Ticks
    depth: Ticks
    height: Ticks
    things: int
    size: tuple[Ticks, Ticks, Ticks]
    lying: bool
    stack: int
    rows: int

    @property
    def riser(self) -> Ticks:
        """How much higher each row stands than the row in front of it [tick]."""
        return ceil(self.stack * self.size[1] / 2) if self.rows > 1 else 0


@dataclass(frozen=True)
class Kind:
    """One kind of thing."""

    name: str
    count: int
    mass: Grams
    mass_assumed: bool
    group: str | None
    where: Where | None
    gap: Ticks
    """Least gap between two of the kind [tick]."""
    forms: tuple[Form, ...]


@dataclass(frozen=True)
class BayShape:
    """A bay for a given number of shelves.

    The mark of a shelf is ``offset + step * m`` with a whole `m`; `line` is what must be
    added to m to count steps of the shelf's top face in the line group's own count.
    """

    case: int
    number: int
    shelves: int
    width: Ticks
    run: Ticks
    """Width for things and the gaps between them: clear width less margins and spare [tick]."""
    deep: Ticks
    """Depth for things: inside depth less what stays free in front [tick]."""
    front: Ticks
    """What stays free in front of things [tick]."""
    floor: Ticks
    """Upper face of the bottom board, from the bottom end of the side [tick]."""
    inside: Ticks
    """Clear height from the bottom board to the top [tick]."""
    thickness: Ticks
    offset: Ticks
    step: Ticks
    line: int
    lip: tuple[Ticks, Ticks]
    """(above its shelf, below its shelf) [tick]."""
    load: Grams
    """Most load on one shelf [g]."""
    above_floor: Ticks
    sag: tuple[Grams | None, Grams | None] = (None, None)
    """Most load that the sag limit allows on the bottom board and on a shelf; None: any [g]."""
    thinner: tuple[Ticks, Ticks, Ticks] = (0, 0, 0)
    """How much higher the lowest opening, those between and the top one become with the
    marks kept where the boards turn out the thinnest that they may be [tick]."""

    @property
    def openings(self) -> int:
        """Number of openings [-]."""
        return self.shelves + 1

    def constant(self, index: int) -> Ticks:
        """What opening `index` is high apart from its marking steps [tick]."""
        top = self.floor + self.inside
        if self.shelves == 0:
            return self.inside
        if index == 0:
            return self.offset - self.floor
        return (top - self.offset if index == self.shelves else 0) - self.thickness

    def load_at(self, index: int) -> Grams:
        """Most load on the floor of opening `index`: standard load and sag limit, the less [g]."""
        sag = self.sag[min(index, 1)]
        return self.load if sag is None else min(self.load, sag)

    def higher_if_thin(self, index: int) -> Ticks:
        """How much higher opening `index` is with the thinnest boards and the same marks [tick]."""
        low, middle, top = self.thinner
        if self.shelves == 0:
            return top
        return low if index == 0 else top if index == self.shelves else middle

    def lips(self, index: int) -> tuple[Ticks, Ticks]:
        """Lip (above the floor, below the ceiling) of opening `index` [tick]."""
        above, below = self.lip
        return (above if index else 0), (below if index < self.shelves else 0)


@dataclass(frozen=True)
class LineGroup:
    """Bays whose shelves lie on common lines; `most` is the number of lines."""

    bays: tuple[int, ...]
    most: int


@dataclass(frozen=True)
class Wishes:
    """What the model needs of [look]; lengths in ticks."""

    rhythm: Rhythm
    headroom: Ticks
    lift: Ticks
    gap: Ticks
    clear_least: Ticks
    clear_most: Ticks | None
    step_least: Ticks
    step_most: Ticks
    eye_level: Ticks
    rhythm_slack: Ticks
    headroom_slack: Ticks


@dataclass(frozen=True)
class LayoutProblem:
    """One combination of shelf counts and depths, ready for the model."""

    bays: tuple[BayShape, ...]
    groups: tuple[LineGroup, ...]
    kinds: tuple[Kind, ...]
    wishes: Wishes
    notes: tuple[str, ...]
    holding: Holding = field(default_factory=Holding)
    """What is held, and the layout before this one."""

    @property
    def things(self) -> int:
        """How many things there are in all [-]."""
        return sum(kind.count for kind in self.kinds)

    def needed(self, form: Form, bay: BayShape, index: int) -> Ticks:
        """Clear height that opening `index` of a bay must have for a form [tick].

        Without lips: height and headroom. A lip standing above the shelf asks for the lift
        over it where that is more; a lip hanging from the shelf above comes on top.
        """
        above, below = bay.lips(index)
        room = max(self.wishes.headroom, above + self.wishes.lift if above else 0)
        return form.height + room + below

    def forms_in(self, bay: BayShape) -> tuple[Form, ...]:
        """The forms that a bay is deep and wide enough for, kind by kind."""
        return tuple(
            form
            for kind in self.kinds
            for form in kind.forms
            if form.depth <= bay.deep and form.width <= bay.run
        )


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
    groups, lined, notes = _line_groups(job, bays, share=share and job.look.share_lines)
    held = holding_of(job, lined)
    return LayoutProblem(lined, groups, _kinds(job), _wishes(job), notes, held)


def _bay(job: Job, case: Case, sizes: Box, number: int, bay: int, count: int) -> BayShape:
    # the last bay takes the ticks that do not divide; for the model all bays are alike
    look, width = job.look, min(width for _, width in sizes.bays)
    _, above, below = lip_sizes(job, case)
    front = front_kept(job, case)
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
        sag=(
            sag_load(job, case, sizes.bays[-1][1], sizes.depth, 0),
            sag_load(job, case, sizes.bays[-1][1], sizes.depth, 1),
        ),
        thinner=_thinner(job, case),
    )


def _thinner(job: Job, case: Case) -> tuple[Ticks, Ticks, Ticks]:
    """Below each opening a board is thinner; the top one of a given outside also gains above."""
    least, most = bands(job).get(case.material, (0, 0))
    play = most - least
    return play, play, 2 * play if case.sizes == "outside" else 0


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


def _line_groups(
    job: Job, bays: Sequence[BayShape], *, share: bool
) -> tuple[tuple[LineGroup, ...], tuple[BayShape, ...], tuple[str, ...]]:
    """Group the bays by shelf lines; bays whose steps never meet stay alone, with a note."""
    lined, groups, notes = list(bays), [], []
    for family in _families(job, bays):
        if not share:
            groups += [LineGroup((index,), bays[index].shelves) for index in family]
            continue
        step, first = bays[family[0]].step, _line_height(bays[family[0]])
        common = []
        for index in family:
            shift, rest = divmod(_line_height(bays[index]) - first, step)
            if bays[index].step == step and rest == 0:
                lined[index] = replace(bays[index], line=shift)
                common.append(index)
            else:
                groups.append(LineGroup((index,), bays[index].shelves))
                notes.append(
                    f"shelf lines not shared: the marks of case "
                    f"{job.cases[bays[index].case].name!r} never meet those beside it"
                )
        groups.append(LineGroup(tuple(common), max(bays[index].shelves for index in common)))
    return tuple(groups), tuple(lined), tuple(dict.fromkeys(notes))


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
        step_least=look.step if look.step is not None else look.step_least,
        step_most=look.step if look.step is not None else look.step_most,
        eye_level=look.eye_level,
        rhythm_slack=look.rhythm_slack,
        headroom_slack=look.headroom_slack,
    )


def _kinds(job: Job) -> tuple[Kind, ...]:
    kinds = []
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
                forms=tuple(_forms(index, item, guess(job, item), gap)),
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
