"""One option of a plan: everything decided for one combination of shelf counts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from solver.changes.situation import Situation
from solver.changes.smallest_changes import smallest_changes
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Progress, Status
from solver.plan.plan import Change, LeftOut, Option
from solver.plan.stocked import MatchedSet
from solver.planning.assemble import LaidOut, stocked_option, with_layout
from solver.planning.matched_shelves import with_sets
from solver.planning.option_stages import stages_of
from solver.planning.shortfall import leaving_out, left_out, run_given, run_needed
from solver.planning.steady_elsewhere import steady_count
from solver.sizing.choose_sizes import ChosenSizes
from solver.sizing.combinations import Counts, name_of
from solver.sizing.option_sizes import Sizing
from solver.sizing.purchase import Buyer, sheet_parts
from solver.units import with_unit


@dataclass(frozen=True)
class _Solved:
    """Sizes, stock and layout of one combination."""

    sized: ChosenSizes
    problem: LayoutProblem
    answer: LayoutAnswer
    share: bool
    sets: tuple[MatchedSet, ...] = ()

    @property
    def missing(self) -> int:
        """Area left out [mm2]; more than any where there is no layout."""
        return int(self.answer.stages["fit"].value or 0) if self.answer.marks_known else 1 << 60


LEAVING_SHARE = 0.4
"""Share of an option's time for a layout that is known to leave things out [-]."""


def plan_option(
    job: Job,
    counts: Counts,
    buyer: Buyer,
    limits: Limits,
    say: Progress,
    sizing: Sizing | None = None,
) -> Option:
    """Decide everything for one combination of shelf counts.

    Shelf lines are shared where the job asks for it; only where that leaves something
    out that would fit otherwise are they not, and the option says so. `say` is told in a line
    what is known so far. `sizing` has the sizes chosen before, if any.
    """
    sizing = sizing or Sizing(job, buyer, limits)
    try:
        solved = _solve(job, counts, sizing, limits, say, share=True)
        if job.look.share_lines and solved.missing and _several(solved.problem):
            alone = _solve(job, counts, sizing, limits, say, share=False)
            if alone.missing < solved.missing:
                solved = alone
        sized, sets = with_sets(buyer, solved.sized, counts, limits)
        solved = replace(solved, sized=sized, sets=sets)
    except CannotBeDoneError as error:
        return Option.without_layout(name_of(job, counts), counts, Status.INFEASIBLE, str(error))
    return _option(job, counts, solved, limits)


def _several(problem: LayoutProblem) -> bool:
    return any(len(group.bays) > 1 for group in problem.groups)


def _solve(
    job: Job,
    counts: Counts,
    sizing: Sizing,
    limits: Limits,
    say: Progress,
    *,
    share: bool,
) -> _Solved:
    sized = sizing.of(counts, share=share)
    price, bound = sized.stock.price, sized.bound
    say(f"{name_of(job, counts)}: {job.head.currency} {price} (not below {bound}), placing shelves")
    problem = build(sized.job, counts, sized.depths, share=share)
    if any(sized.left or ()):  # what would let everything fit is asked as well
        limits = limits.until(LEAVING_SHARE)
    return _Solved(sized, problem, solve_layout(problem, limits), share)


def _option(job: Job, counts: Counts, solved: _Solved, limits: Limits) -> Option:
    problem, answer, sized = solved.problem, solved.answer, solved.sized
    if not answer.marks_known:
        return _no_layout(job, counts, solved, limits)
    left = left_out(problem, answer)
    changes = _changes(job, counts, solved, limits) if left else ()
    steady = None if left else steady_count(sized.job, counts, sized.depths, answer, limits)
    option = with_layout(
        stocked_option(
            job,
            counts,
            sheet_parts(sized.job, counts, sized.depths),
            sized.stock,
            bound=sized.bound,
            sheet_bound=sized.sheet_bound,
            sets=solved.sets,
        ),
        LaidOut(job, sized.job, sized.depths, problem, answer, steady),
        partial(stages_of, sized, answer),
        left=left,
        stopped=limits.stopper.stopped,
    )
    if not left:
        return option
    return option.model_copy(update={"why": _why(job, problem, left, changes), "changes": changes})


def _changes(job: Job, counts: Counts, solved: _Solved, limits: Limits) -> tuple[Change, ...]:
    left = leaving_out(solved.problem, solved.answer)
    if solved.sized.axes and sum(solved.sized.left_bound) < solved.missing:
        # fewest at these sizes, but at others perhaps fewer still
        left = tuple(one.model_copy(update={"proven": False}) for one in left)
    asked = Situation(solved.sized.job, counts, solved.share)
    return (*smallest_changes(job, asked, limits), *left)


def _no_layout(job: Job, counts: Counts, solved: _Solved, limits: Limits) -> Option:
    """No shelf positions at all: too little height, or the limit came first."""
    if solved.answer.status is not Status.INFEASIBLE:
        return unsettled_option(job, counts)
    changes = smallest_changes(job, Situation(solved.sized.job, counts, solved.share), limits)
    least = with_unit(job.look.clear_least, job.unit)
    why = f"the shelves leave no opening of the least clear height, {least}"
    if job.look.clear_most is not None:
        why = (
            f"no shelf positions keep every opening between {least} and "
            f"{with_unit(job.look.clear_most, job.unit)} clear"
        )
    why = _with_changes(why, changes)
    name = name_of(job, counts)
    return Option.without_layout(name, counts, Status.INFEASIBLE, why, changes=changes)


def unsettled_option(job: Job, counts: Counts) -> Option:
    """Return an option that the limit left without a layout."""
    why = "nothing was found by the limit; give more time with --time-limit"
    return Option.without_layout(name_of(job, counts), counts, Status.UNKNOWN, why)


def _why(
    job: Job, problem: LayoutProblem, left: tuple[LeftOut, ...], changes: tuple[Change, ...]
) -> str:
    things = sum(one.count for one in left)
    named = "; ".join(_left_text(job, one) for one in left)
    finds = "1 thing finds no place" if things == 1 else f"{things} things find no place"
    needs, given = run_needed(problem), run_given(problem)
    boards = sum(shape.openings for shape in problem.bays)
    short = (
        f" (side by side they need {with_unit(needs, job.unit)} of shelf, {boards} boards give "
        f"{with_unit(given, job.unit)})"
        if needs > given
        else ""
    )
    return _with_changes(f"{finds}{short}: {named}", changes)


def _left_text(job: Job, one: LeftOut) -> str:
    short, text = one.short_by, f"{one.count} x {one.item}"
    if short.depth is not None:
        return f"{text} ({with_unit(short.depth, job.unit)} deeper than the case)"
    if short.height is not None:
        return f"{text} ({with_unit(short.height, job.unit)} higher than the openings left for it)"
    if short.width is not None:
        return f"{text} (the openings high enough lack {with_unit(short.width, job.unit)} of width)"
    return f"{text} (no shelf has the load or the neighbouring openings left for it)"


def _with_changes(why: str, changes: tuple[Change, ...]) -> str:
    if not changes:
        return f"{why}. No change of headroom, gaps or sizes was found that would do."
    named = "The change named" if len(changes) == 1 else "Any one of the changes named"
    return f"{why}. {named} would do."
