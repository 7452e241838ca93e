"""One option of a plan: everything decided for one combination of shelf counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from solver.changes.binding import binding
from solver.changes.situation import Situation
from solver.changes.smallest_changes import smallest_changes
from solver.changes.trials import Fitter
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer, solve_layout
from solver.layout.layout_problem import LayoutProblem
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Progress, Status
from solver.plan.plan import Change, LeftOut, Option
from solver.plan.slack_and_advice import Binding
from solver.plan.stocked import MatchedSet
from solver.planning.assemble import LaidOut, stocked_option, with_layout
from solver.planning.binding_words import Short, binding_text
from solver.planning.matched_shelves import with_sets
from solver.planning.option_stages import stages_of
from solver.planning.shortfall import leaving_out, left_out
from solver.planning.steady_elsewhere import steady_count
from solver.sizing.choose_sizes import ChosenSizes
from solver.sizing.combinations import Counts, name_of
from solver.sizing.option_sizes import Sizing
from solver.sizing.purchase import Buyer, sheet_parts


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
    binds = binding(problem, Fitter(limits)) if any(answer.left.values()) else ()
    left = left_out(problem, answer, binds)
    changes = _changes(job, counts, solved, limits, binds) if left else ()
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
    short = Short(job, problem, changes)
    why = _with_changes(f"{_finds_no_place(left)}. {_sentence(short, binds)}", changes)
    return option.model_copy(update={"why": why, "binds": binds, "changes": changes})


def _changes(
    job: Job, counts: Counts, solved: _Solved, limits: Limits, binds: Sequence[Binding]
) -> tuple[Change, ...]:
    left = leaving_out(solved.problem, solved.answer)
    if solved.sized.axes and sum(solved.sized.left_bound) < solved.missing:
        # fewest at these sizes, but at others perhaps fewer still
        left = tuple(one.model_copy(update={"proven": False}) for one in left)
    asked = Situation(solved.sized.job, counts, solved.share)
    return (*smallest_changes(job, asked, limits, binds), *left)


def _no_layout(job: Job, counts: Counts, solved: _Solved, limits: Limits) -> Option:
    """No shelf positions at all: too little height, or the limit came first."""
    if solved.answer.status is not Status.INFEASIBLE:
        return unsettled_option(job, counts)
    binds = binding(solved.problem, Fitter(limits))
    asked = Situation(solved.sized.job, counts, solved.share)
    changes = smallest_changes(job, asked, limits, binds)
    short = Short(job, solved.problem, changes)
    why = _with_changes(f"no shelf positions do. {_sentence(short, binds)}", changes)
    option = Option.without_layout(
        name_of(job, counts), counts, Status.INFEASIBLE, why, changes=changes
    )
    return option.model_copy(update={"binds": binds})


def unsettled_option(job: Job, counts: Counts) -> Option:
    """Return an option that the limit left without a layout."""
    why = "nothing was found by the limit; give more time with --time-limit"
    return Option.without_layout(name_of(job, counts), counts, Status.UNKNOWN, why)


def _finds_no_place(left: Sequence[LeftOut]) -> str:
    things = sum(one.count for one in left)
    named = ", ".join(f"{one.count} x {one.item}" for one in left)
    finds = "1 thing finds no place" if things == 1 else f"{things} things find no place"
    return f"{finds}: {named}"


def _sentence(short: Short, binds: Sequence[Binding]) -> str:
    text = binding_text(short, binds)
    return text[0].upper() + text[1:]


def _with_changes(why: str, changes: tuple[Change, ...]) -> str:
    if not changes:
        return f"{why}. No change of headroom, gaps or sizes was found that would do."
    named = "The change named" if len(changes) == 1 else "Any one of the changes named"
    return f"{why}. {named} would do."
