"""What keeps things out, in one sentence with its numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from solver.changes.change_words import listed
from solver.job.job import Job
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.plan.plan import Change
from solver.plan.slack_and_advice import Binding, BindingLimit
from solver.planning.shortfall import run_given, run_needed
from solver.strength.shelf_beams import board_of
from solver.units import Grams, Ticks, format_mass, with_unit

NAMES: dict[BindingLimit, str] = {
    "holds": "what is held",
    "groups": "groups that are to stand together",
    "sag": "the sag limit",
    "load": "the shelf load",
    "depth": "the depth",
    "most clear height": "the most clear height",
    "height": "the height",
    "width": "the room along the shelves",
    "least clear height": "the least clear height",
    "shelf lines": "shelf lines in common",
    "lip": "the lip",
    "headroom": "the headroom",
    "gap": "the gap between things",
    "end margin": "the end margin",
    "spare": "the room kept spare",
    "front margin": "the front margin",
    "marks": "the marks",
}
"""Limits as a sentence names them."""


@dataclass(frozen=True)
class Short:
    """What does not fit: the job as asked, its problem, and the changes that let everything fit."""

    job: Job
    problem: LayoutProblem
    changes: tuple[Change, ...]

    def length(self, ticks: Ticks) -> str:
        """Return a length with its unit."""
        return with_unit(ticks, self.job.unit)

    def mass(self, grams: Grams) -> str:
        """Return a mass with its unit."""
        return format_mass(grams, self.job.unit)

    @property
    def forms(self) -> list[Form]:
        """All ways in which things may stand, that of least height first for each kind."""
        return [min(kind.forms, key=lambda form: form.height) for kind in self.problem.kinds]

    def name(self, form: Form) -> str:
        """Return the name of the kind of a form."""
        return self.problem.kinds[form.kind].name

    @property
    def total(self) -> Grams:
        """Mass of all things [g]."""
        return sum(kind.mass * kind.count for kind in self.problem.kinds)

    def most(self, what: str) -> Ticks | None:
        """Least amount of a change of one size or look alone that does, if any [tick]."""
        found = [one.by for one in self.changes if one.what == what and one.by is not None]
        return min(found, default=None)


def binding_text(short: Short, binds: Sequence[Binding]) -> str:
    """Say in a sentence what binds, with its numbers; empty where nothing is known."""
    if not binds:
        return "Several limits bind at once"
    first = binds[0]
    if len(first.limits) == 1:
        return f"{_SAY[first.limits[0]](short)}: {_what_binds(first.limits[0])}"
    named = listed([NAMES[limit] for limit in first.limits])
    facts = "; ".join(_SAY[limit](short) for limit in first.limits)
    sure = "neither alone" if len(first.limits) == 2 else "not two of them alone"
    sure = sure if first.proven else "as far as was found"
    return f"{facts}: {named} bind together, {sure}"


def _what_binds(limit: BindingLimit) -> str:
    verb = "bind" if limit in ("groups", "shelf lines", "marks") else "binds"
    if limit in ("sag", "load"):
        return f"{NAMES[limit]} {verb}, not room"
    return f"{NAMES[limit]} {verb}"


def _sag(short: Short) -> str:
    limits = [
        (bay, sag)
        for bay in short.problem.bays
        for index in range(bay.openings)
        if (sag := bay.sag[min(index, 1)]) is not None
    ]
    bay, least = min(limits, key=lambda one: one[1])
    case = short.job.cases[bay.case]
    board = board_of(short.job, case.material).name
    span = f"over {short.length(bay.width)} of {board}"
    return _bears(short, max(0, least), span)


def _load(short: Short) -> str:
    least = min(bay.load for bay in short.problem.bays)
    return _bears(short, least, "by the shelf load")


def _bears(short: Short, least: Grams, how: str) -> str:
    heaviest = max(short.problem.kinds, key=lambda kind: kind.mass)
    each = f"a shelf holds {short.mass(least)} {how}"
    if heaviest.mass > least:
        return f"{each}, one {heaviest.name} weighs {short.mass(heaviest.mass)}"
    return f"{each}, all things weigh {short.mass(short.total)}"


def _depth(short: Short) -> str:
    deepest = max(
        (min(kind.forms, key=lambda form: form.depth) for kind in short.problem.kinds),
        key=lambda form: form.depth,
    )
    room = max(bay.deep for bay in short.problem.bays)
    return (
        f"{short.name(deepest)} is {short.length(deepest.depth)} deep, the shelves have "
        f"{short.length(room)} for things"
    )


def _height(short: Short) -> str:
    bay, form, needs, can = _tightest(short)
    if needs > can:
        return (
            f"{short.name(form)} needs {short.length(needs)}, the highest opening can be "
            f"{short.length(can)}"
        )
    more = short.most("height")
    has = f"{_openings(bay)} have {short.length(_clear(bay))} of clear height in all"
    if more is None:
        return f"{has}, not enough for the heights that these things need"
    return f"{has}, these things need {short.length(_clear(bay) + more)}"


def _openings(bay: BayShape) -> str:
    return f"{bay.openings} opening{'' if bay.openings == 1 else 's'}"


def _clear(bay: BayShape) -> Ticks:
    return bay.inside - bay.shelves * bay.thickness


def _tightest(short: Short) -> tuple[BayShape, Form, Ticks, Ticks]:
    """The bay, the thing, what it needs and what it can have at most, where most is lacking."""
    found = [(form, *_roomiest(short, form)) for form in short.forms]
    form, bay, can, needs = min(found, key=lambda one: one[2] - one[3])
    return bay, form, needs, can


def _roomiest(short: Short, form: Form) -> tuple[BayShape, Ticks, Ticks]:
    """The bay in which a form is nearest to fitting, its highest opening, and what is needed."""
    least = short.problem.wishes.clear_least
    found = [
        (bay, _highest(bay, index, least), short.problem.needed(form, bay, index))
        for bay in short.problem.bays
        for index in range(bay.openings)
    ]
    return max(found, key=lambda one: one[1] - one[2])


def _highest(bay: BayShape, index: int, least: Ticks) -> Ticks:
    """Clear height of an opening where all others have the least, by marks on their steps [tick].

    Below 0 where there is no room for the others.
    """
    low, high = bay.floor, bay.floor + bay.inside
    each = -(-(least + bay.thickness) // bay.step) * bay.step
    if index:
        first = max(0, -((bay.offset - bay.floor - least) // bay.step)) * bay.step + bay.offset
        low = first + (index - 1) * each + bay.thickness
    if index < bay.shelves:
        last = (high - least - bay.thickness - bay.offset) // bay.step * bay.step + bay.offset
        high = last - (bay.shelves - 1 - index) * each
    return high - low


def _most_clear(short: Short) -> str:
    most = short.problem.wishes.clear_most or 0
    _, form, needs, _ = _tightest(short)
    if needs > most:
        return (
            f"{short.name(form)} needs {short.length(needs)}, no opening may be over "
            f"{short.length(most)}"
        )
    bay = max(short.problem.bays, key=_clear)
    return (
        f"{_openings(bay)} of at most {short.length(most)} come to less than "
        f"the {short.length(_clear(bay))} of clear height"
    )


def _width(short: Short) -> str:
    widest = max(
        (min(kind.forms, key=lambda form: form.width) for kind in short.problem.kinds),
        key=lambda form: form.width,
    )
    room = max(bay.run for bay in short.problem.bays)
    if widest.width > room:
        return (
            f"{short.name(widest)} is {short.length(widest.width)} wide, a shelf has "
            f"{short.length(room)}"
        )
    needs, given = run_needed(short.problem), run_given(short.problem)
    boards = sum(bay.openings for bay in short.problem.bays)
    if needs > given:
        return (
            f"side by side the things take {short.length(needs)} of shelf, {_boards(boards)} "
            f"{short.length(given)}"
        )
    more = short.most("width")
    lack = "too little room" if more is None else f"{short.length(more)} too little room"
    return f"shelves high and strong enough have {lack} along them"


def _boards(count: int) -> str:
    return "1 board gives" if count == 1 else f"{count} boards give"


def _least_clear(short: Short) -> str:
    bay = min(short.problem.bays, key=lambda one: _clear(one) - one.openings)
    least = short.problem.wishes.clear_least
    return (
        f"{_openings(bay)} of at least {short.length(least)} are to share "
        f"{short.length(_clear(bay))} of clear height"
    )


def _groups(short: Short) -> str:
    groups = dict.fromkeys(kind.group for kind in short.problem.kinds if kind.group is not None)
    return f"{listed([repr(one) for one in groups])} in openings of one bay that follow each other"


def _marks(short: Short) -> str:
    step = max(bay.step for bay in short.problem.bays)
    pins = any(case.fixing == "pins" for case in short.job.cases)
    return f"shelves go {'on pins ' if pins else ''}only every {short.length(step)}"


def _look(what: str) -> Callable[[Short], str]:
    def say(short: Short) -> str:
        wishes = short.problem.wishes
        length = {"headroom": max(wishes.headroom, wishes.lift), "gap": wishes.gap}.get(what)
        if length is None:
            length = short.job.look.end_margin
        where = {
            "headroom": "over each thing",
            "gap": "between things",
            "end margin": "at each end of a shelf",
        }
        return f"{short.length(length)} is kept free {where[what]}"

    return say


def _plain(text: str) -> Callable[[Short], str]:
    return lambda _: text


_SAY: dict[BindingLimit, Callable[[Short], str]] = {
    "holds": _plain("everything fits without what is held"),
    "groups": _groups,
    "sag": _sag,
    "load": _load,
    "depth": _depth,
    "most clear height": _most_clear,
    "height": _height,
    "width": _width,
    "least clear height": _least_clear,
    "shelf lines": _plain("bays have their shelves at the same heights"),
    "lip": _plain("lips take height from every opening"),
    "headroom": _look("headroom"),
    "gap": _look("gap"),
    "end margin": _look("end margin"),
    "spare": _plain("a share of each shelf is kept free for things to come"),
    "front margin": _plain("room is kept free in front of things"),
    "marks": _marks,
}
"""What is so, for each limit."""
