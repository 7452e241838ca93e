"""Master problem: the best marks that might do; the placement subproblem then tries things on them.

A rhythm is a question of marks alone, and what fits on marks depends only on how high a thing each
opening admits. So the *bare* case, in which nothing stands, is solved with the counting cuts
(:mod:`solver.layout.counting_cuts`) in place of the things: a small model, whose best rhythm is a
bound. If things can stand on its marks, that rhythm is the best there is. If not, no marks whose
openings admit no more can do either, in whatever order; this is added as a no-good cut, and the
bare case solved again. Both steps are exact. Where a limit comes first, the bound stays.

Which of the shared shelf lines a bay with fewer shelves uses is enumerated: with the lines
decided, every mark is a plain difference of lines and bounds of the rhythm are tight; with that
choice inside the model they are next to nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, islice, product

from solver.cp_sat import cp_model
from solver.layout import objective
from solver.layout.constraints import (
    lines_rise,
    marks_from_the_first_hole,
    middle_openings_fall,
    not_too_high_if_thin,
    openings_within_limits,
    tall_enough,
)
from solver.layout.counting_cuts import Reaches, leave_out_at_most
from solver.layout.layout_problem import LayoutProblem, LineGroup
from solver.layout.objective import Objective
from solver.layout.opening_patterns import one_pattern_each
from solver.layout.placement_subproblem import stood_on
from solver.layout.stage_search import Found, Search, marks_by_bay
from solver.layout.variables import LayoutVariables, Linear
from solver.outcome import Limits, Status, Verdict
from solver.units import Ticks

BARE_RULES = (
    openings_within_limits,
    not_too_high_if_thin,
    marks_from_the_first_hole,
    lines_rise,
    tall_enough,
)
BARE_WORK = 0.25
"""Share of the work of a stage that the bare case may take for one way of using the lines [-]."""
ANY_WORK = 0.0625
"""The same where any marks will do, and need not be the roomiest [-]."""
ASKED_MOST = 12
"""How often it is asked whether things can stand on marks [-]."""


def marks_model(
    problem: LayoutProblem,
    left: int,
    takes: Takes,
    *,
    merge: bool,
    orderless: bool,
    listed: bool = False,
) -> LayoutVariables:
    """Build the model of the bare case, `left` things at most being left out.

    With `listed` all that may stand together is listed where there are few things: quicker to
    prove that they do not fit, slower to find the best rhythm where they do.
    """
    v = LayoutVariables(cp_model.CpModel(), problem, merge=merge, bare=True, takes=takes)
    for rule in BARE_RULES:
        rule(v)
    leave_out_at_most(v, left)
    if listed:
        one_pattern_each(v)
    if orderless:
        middle_openings_fall(v)
    return v


@dataclass
class LineChoice:
    """The bare case with the lines used in one way: its best marks so far, and its bound."""

    search: Search
    goal: Objective
    found: Found | None = None
    """None where it was not looked at yet."""

    @property
    def bound(self) -> Fraction:
        """No marks of this way have a lower rhythm [tick]; endless where none are left."""
        if self.found is None:
            return Fraction(0)
        return Fraction(1 << 60) if self.out else self.found.bound

    @property
    def out(self) -> bool:
        """Whether no marks of this way are left."""
        return self.found is not None and self.found.status is Status.INFEASIBLE

    def solve(self, work: float) -> Found:
        """Look for the best marks that are left."""
        self.found = self.search.minimise(self.goal, work=work)
        return self.found


@dataclass(frozen=True)
class MasterAnswer:
    """What was found.

    Attributes
    ----------
    status
        OPTIMAL: proven best. INFEASIBLE: on no marks can things stand. UNKNOWN: not settled.
    bound
        No marks on which things can stand have a lower rhythm [tick].
    goal
        The rhythm found, where there is one.
    stood
        The search that has marks and places, where there is one.
    """

    status: Status
    bound: Fraction
    rhythm: Found | None = None
    stood: Search | None = None


class MasterProblem:
    """Searches the marks on which all things but `left` can stand, best rhythm first."""

    def __init__(
        self,
        problem: LayoutProblem,
        limits: Limits,
        left: int,
        goal_of: Callable[[LayoutVariables], Objective],
        *,
        orderless: bool,
        listed: bool = False,
    ) -> None:
        self.problem, self.limits, self.left = problem, limits, left
        self.ways: list[LineChoice] = []
        for takes in ways_to_take(problem, orderless=orderless):
            v = marks_model(problem, left, takes, merge=True, orderless=orderless, listed=listed)
            self.ways.append(LineChoice(Search(v, limits), goal_of(v)))

    def best(self) -> MasterAnswer:
        """Return the best marks on which things can stand, or what is known of them."""
        work = self.limits.work * BARE_WORK
        for way in self.ways:
            way.solve(work)
        return self._first(lambda: min(self.ways, key=lambda one: one.bound), ASKED_MOST, work)

    def any(self, most: int = ASKED_MOST) -> MasterAnswer:
        """Return any marks on which things can stand: one way of using lines after another.

        Asked `most` times at most; asked again it goes on from there.
        """
        ways, work = self.ways, self.limits.work * ANY_WORK
        return self._first(lambda: next((w for w in ways if not w.out), ways[-1]), most, work)

    def _first(self, chosen: Callable[[], LineChoice], most: int, work: float) -> MasterAnswer:
        """Ask about the best marks of the way chosen, which are cut off where nothing can stand."""
        asked = 0
        while asked < most and not self.limits.over:
            way = chosen()
            if way.out:
                return MasterAnswer(Status.INFEASIBLE, Fraction(0))
            found = way.found or way.solve(work)
            if found.status is Status.INFEASIBLE:
                continue
            if found.raw is None:
                break
            stood = stood_on(self.problem, marks_by_bay(way.search), self.left, self.limits)
            if stood.verdict is Verdict.YES:
                status = Status.OPTIMAL if found.proven else Status.UNKNOWN
                return MasterAnswer(status, way.bound, found, stood.search)
            if stood.verdict is not Verdict.NO or not stood.plain:
                break
            asked += 1
            admitted = list(_admitted(way.search))
            for one in self.ways:
                if not one.out:
                    no_good_cut(one.search.v, admitted, one.search.v.reaches)
            way.solve(work)
        return MasterAnswer(Status.UNKNOWN, min(one.bound for one in self.ways))


@dataclass(frozen=True)
class Admitted:
    """An opening of a class, and the height of the highest thing that it admits [tick]."""

    c: int
    opening: int
    height: Ticks


def _admitted(search: Search) -> Iterator[Admitted]:
    v, heights = search.v, heights_of(search.v.problem)
    for c, k in v.openings():
        steps = search.value(v.steps(c, k))
        may = (h for h in reversed(heights) if v.steps_under(c, k, h) <= steps)
        yield Admitted(c, k, next(may, 0))


def heights_of(problem: LayoutProblem) -> list[Ticks]:
    """Every height that some thing may stand at, ascending [tick]."""
    return sorted({form.height for kind in problem.kinds for form in kind.forms})


def no_good_cut(v: LayoutVariables, admitted: list[Admitted], reaches: Reaches) -> None:
    """Cut: the openings admit something more than these, in whatever order.

    Openings of one width, depth and load may change places. Sorted by what they admit, one
    of them must come higher than before: more of them admit things over some height.
    """
    v.model.add_bool_or([_counts(v, *one, 1) for one in _over(v, admitted, reaches)])


def other_than(v: LayoutVariables, admitted: list[Admitted], reaches: Reaches) -> None:
    """Cut: the openings reach something else than just these heights, in whatever order."""
    over = list(_over(v, admitted, reaches))
    v.model.add_bool_or([_counts(v, *one, way) for one in over for way in (1, -1)])


def _over(
    v: LayoutVariables, admitted: list[Admitted], reaches: Reaches
) -> Iterator[tuple[Linear, int]]:
    """How many openings of a sort admit things over some height, now and in `admitted`."""
    alike: dict[tuple[object, ...], list[Admitted]] = defaultdict(list)
    for one in admitted:
        shape, sag = v.shape(one.c), v.shape(one.c).sag[min(one.opening, 1)]
        key = (shape.width, shape.margin, shape.run, shape.deep, shape.load_at(one.opening), sag)
        alike[key].append(one)
    heights = heights_of(v.problem)
    for members in alike.values():
        for height in sorted({0, *(one.height for one in members)}):
            over = next((h for h in heights if h > height), None)
            if over is None:
                continue
            before = sum(v.classes[one.c].times for one in members if one.height > height)
            times = ((v.classes[one.c].times, reaches(one.c, one.opening, over)) for one in members)
            yield sum(t * reached for t, reached in times), before


def _counts(v: LayoutVariables, now: Linear, before: int, way: int) -> cp_model.IntVar:
    """A boolean that says that a count is over (way 1) or under (way -1) what it was."""
    some = v.model.new_bool_var("")
    v.model.add(way * (now - before) >= 1).only_enforce_if(some)
    return some


def unreached(v: LayoutVariables) -> Objective:
    """How many heights the openings do not reach, so that the roomiest marks come first."""
    reached = [
        v.classes[c].times * one for (c, _), all_ in v.levels.items() for one in all_.reached
    ]
    most = sum(v.classes[c].times * len(levels.reached) for (c, _), levels in v.levels.items())
    return Objective(most - sum(reached), Fraction(1))


def best_rhythm(
    problem: LayoutProblem, limits: Limits, left: int, *, orderless: bool
) -> MasterAnswer:
    """Return the best rhythm of the layouts that leave out at most `left` things."""
    return MasterProblem(problem, limits, left, objective.rhythm, orderless=orderless).best()


Takes = Mapping[int, tuple[int, ...]]
"""The lines, from 1, that a bay uses, for bays with fewer shelves than their group has lines."""

WAYS_MOST = 60
"""Ways of using lines that are looked at one by one [-]."""


def ways_to_take(problem: LayoutProblem, *, orderless: bool) -> list[Takes]:
    """Return every way of using the lines, or none of them where there are too many.

    With `orderless`, ways that differ in the order of openings only are told once: where
    nothing depends on which opening is where, blocks of openings between lines that all
    bays use may change places, but for the lowest and the top one, which differ.
    """
    seen: dict[tuple[object, ...], Takes] = {}
    ways = product(*(list(_of_group(problem, group)) for group in problem.groups))
    for number, way in enumerate(ways):
        if number >= WAYS_MOST**2:
            return [{}]
        takes = {bay: lines for part in way for bay, lines in part.items()}
        key = tuple(_blocks(problem, group, takes) for group in problem.groups)
        seen.setdefault(key if orderless else (number,), takes)
    return list(seen.values()) if len(seen) <= WAYS_MOST else [{}]


def _of_group(problem: LayoutProblem, group: LineGroup) -> Iterator[Takes]:
    fewer = [bay for bay in group.bays if problem.bays[bay].shelves < group.most]
    choices = [combinations(range(1, group.most + 1), problem.bays[bay].shelves) for bay in fewer]
    yield from (
        dict(zip(fewer, lines, strict=True)) for lines in islice(product(*choices), WAYS_MOST**2)
    )


Block = tuple[tuple[int, ...], ...]
"""What lies between two lines that all bays use: for each line there, the bays that use it."""


def _blocks(problem: LayoutProblem, group: LineGroup, takes: Takes) -> tuple[Block, ...]:
    """The blocks of openings of a group, those that may change places in one order."""
    everyone = tuple(group.bays)
    blocks: list[list[tuple[int, ...]]] = [[]]
    for line in range(1, group.most + 1):
        users = tuple(bay for bay in everyone if line in takes.get(bay, range(1, line + 1)))
        if users == everyone:
            blocks.append([])
        else:
            blocks[-1].append(users)
    done = [tuple(block) for block in blocks]
    middle = sorted(min(block, block[::-1]) for block in done[1:-1])
    return (done[0], *middle, *done[-1:]) if len(done) > 1 else (done[0],)
