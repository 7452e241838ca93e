"""The layout problem as data: frozen whole numbers, lengths in ticks of 1/320 mm.

The layout before and what is held are part of it. Beside it stand the size of a problem, which
decides whether its models are built at all (building alone may take longer than the limit, and a
search heeds it only roughly), and the order in which things are placed by rule.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil
from typing import Literal

from solver.job.inventory import WishedPlace
from solver.job.job import Rhythm
from solver.outcome import Limits
from solver.plan.built import LinesApart
from solver.units import Grams, Ticks

Spot = tuple[int, int]
"""(bay, opening), or (bay, shelf from 1)."""


@dataclass(frozen=True)
class MarkHeld:
    """A shelf kept at a mark; `mark` counts marking steps, as in the bay's shape.

    `bay` is -1 where there is no such bay.
    """

    bay: int
    shelf: int
    mark: int


@dataclass(frozen=True)
class ThingsHeld:
    """At least `least` things of a kind kept in these openings together."""

    kind: int
    openings: tuple[Spot, ...]
    least: int
    place: int | None = None
    """Number of the place in its row that one of them keeps, from 1 at the left [-]."""


@dataclass(frozen=True)
class EmptyHeld:
    """An opening that is kept empty; `bay` is -1 where there is no such opening."""

    bay: int
    opening: int


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


Place = tuple[Form, int]
"""A place, and how many things stand on it."""


@dataclass(frozen=True)
class RowBefore:
    """How an opening's things stood before: places from left to right, their left edges [tick].

    `width` is the clear width of the opening then [tick].
    """

    width: Ticks
    places: tuple[Place, ...]
    edges: tuple[Ticks, ...]


@dataclass(frozen=True)
class Before:
    """The layout that is to change as little as possible.

    Attributes
    ----------
    marks
        ((bay, shelf), mark number); shelves that were not there before are not in it.
    things
        ((kind, bay, opening), how many stood there).
    rows
        ((bay, opening), its row), of those whose things are as they were.
    numbers
        ((kind, bay, opening), numbers of the things that stood there, from the left).
    """

    marks: tuple[tuple[Spot, int], ...]
    things: tuple[tuple[tuple[int, int, int], int], ...]
    rows: tuple[tuple[Spot, RowBefore], ...] = ()
    numbers: tuple[tuple[tuple[int, int, int], tuple[int, ...]], ...] = ()


@dataclass(frozen=True)
class Holding:
    """Everything that is held, one entry a hold, in the order of the job's holds.

    `fixed` keeps all marks of `before`, `stay` all its things, each where it was.
    """

    held: tuple[MarkHeld | ThingsHeld | EmptyHeld, ...] = ()
    before: Before | None = None
    fixed: bool = False
    stay: bool = False

    @property
    def anything(self) -> bool:
        """True where a hold, or a layout before this one, is to be looked at."""
        return bool(self.held) or self.before is not None


@dataclass(frozen=True)
class Kind:
    """One kind of thing."""

    name: str
    count: int
    mass: Grams
    mass_assumed: bool
    group: str | None
    where: WishedPlace | None
    gap: Ticks
    """Least gap between two of the kind [tick]."""
    forms: tuple[Form, ...]
    area: int = 1
    """Visible front of one, upright [mm2], rounded up."""
    keep: int = 1
    """0 must, 1 should, 2 optional [-]."""
    heading: str | None = None
    hero: bool = False
    fragile: bool = False
    order: int | None = None
    together: bool = False
    apart: tuple[int, ...] = ()
    """Kinds that it is not to stand beside, by index; its own: no two beside each other."""


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
    """Most load that the sag limit allows on the bottom board and on a shelf, spread evenly
    between the margins; None: any [g]."""
    margin: Ticks = 0
    """Least gap at each end [tick]."""
    thinner: tuple[Ticks, Ticks, Ticks] = (0, 0, 0)
    """How much higher the lowest opening, those between and the top one become with the
    marks kept where the boards turn out the thinnest that they may be [tick]."""
    wider: Ticks = 0
    """How much wider the bay itself is than `width`: one bay takes what does not divide [tick]."""

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
    eye_level: Ticks
    step: Ticks | None = None
    """The step that the client wants from opening to opening [tick]."""
    tallest: Literal["low", "top", "any"] = "low"
    steepest: float | None = None
    """Most height of the lowest opening over that of the top one [-]."""
    shelf_style: Literal["mirrored", "grouped"] = "mirrored"
    fragile_floor: Ticks = 0
    """Fragile things stand on floors that are at least so far above the room's floor [tick]."""


@dataclass(frozen=True)
class LayoutProblem:
    """One combination of shelf counts and depths, ready for the model."""

    bays: tuple[BayShape, ...]
    groups: tuple[LineGroup, ...]
    kinds: tuple[Kind, ...]
    wishes: Wishes
    lines_apart: tuple[LinesApart, ...] = ()
    """Bays that are to share shelf lines and do not."""
    holding: Holding = field(default_factory=Holding)
    """What is held, and the layout before this one."""
    parted_most: int | None = None
    """Most places parted (:func:`solver.layout.constraints.parted_places`) [-]; None: any."""

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


LARGE = 2_000
"""Forms times openings from which on a problem is stood up by rule first [-]."""
MOST = 60_000
"""Forms times openings from which on no model is built [-]: 32,000 of them take 400 MiB with
their search, and twice as many are what memory may come to."""
WHOLE = 8_000
"""Forms times openings from which on it is made better a few openings at a time, since a model of
every opening in its place finds hardly anything in the time there is [-]."""
EACH_SECOND = 4_000
"""Forms times openings that are built, searched and read back in a second [-]; from models of
400 to 1,000 kinds, with half of what a quiet machine does."""


def places(problem: LayoutProblem, *, merged: bool = False) -> int:
    """Forms times openings: about the variables of a model of all bays [-].

    With `merged` those of one in which the bays of a line group are taken together.
    """
    forms = sum(len(kind.forms) for kind in problem.kinds)
    if merged:
        return forms * sum(group.most + 1 for group in problem.groups)
    return forms * sum(shape.openings for shape in problem.bays)


def large(problem: LayoutProblem) -> bool:
    """Whether a problem is stood up by rule first, lest there be no answer."""
    return places(problem) >= LARGE


def too_large(problem: LayoutProblem, limits: Limits, *, merged: bool = False) -> bool:
    """Whether a model is not worth building in the time that is left."""
    count = places(problem, merged=merged)
    most = MOST if merged else WHOLE
    return count >= LARGE and (count >= most or count > EACH_SECOND * limits.seconds_left)


def tallest_first(form: Form) -> tuple[int, int, int]:
    """Return what forms are sorted by: height, then width, then kind."""
    return -form.height, -form.width, form.kind
