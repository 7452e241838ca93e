"""What if there were more things, or fewer: the least that would have to change.

Five answers are tried in turn, each by solving: everything stays and the new things stand
where there is room; things change places; shelves move; a further shelf; a further case. The
first that works is the answer, and it is settled where those before it are proven not to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product

from solver.errors import CannotBeDoneError
from solver.job.case import SHELVES_MOST
from solver.job.inventory import Item
from solver.job.job import Job
from solver.layout.conflicts import left_of_added
from solver.layout.fit import NOTHING, fits_within
from solver.layout.layout_problem import LayoutProblem
from solver.layout.minimal_change import lay_out
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Verdict
from solver.plan.compared import OpeningPlace
from solver.plan.plan import Option, Plan
from solver.plan.what_if_answer import AddedThings, Answer, WhatIf, expected_arrivals, with_things
from solver.planning.held_conflicts import place_text
from solver.planning.plan_job import plan_job
from solver.planning.starting_option import StartingOption, start_from
from solver.replan.comparison import things_of
from solver.replan.plan_again import plan_of_option
from solver.replan.rearranged_option import restated_option
from solver.sizing.combinations import name_of

WORK = 1.0
"""Deterministic work for each look."""
TIERS: tuple[tuple[Answer, bool, bool], ...] = (
    ("as it stands", True, True),
    ("things move", True, False),
    ("shelves move", False, False),
)
"""(answer, marks kept, things kept)."""
FURTHER_MOST = 3
"""Most further shelves in every bay that are tried."""
BAYS_MOST = 4
"""Most bays for which every choice of bays with a further shelf is tried."""


def what_if(
    job: Job,
    last: Plan,
    add: Sequence[Item],
    drop: Mapping[str, int | None],
    asked: Sequence[str],
    limits: Limits | None = None,
    *,
    option: Option | None = None,
) -> WhatIf:
    """Find the least that would have to change for the things to be others.

    Parameters
    ----------
    job
        The job as it is.
    last
        Its last plan.
    add, drop
        As for :func:`solver.plan.what_if_answer.with_things`.
    asked
        The same in words.
    limits
        Limits of the searches.
    option
        The option of the last plan; left out, its first one that has a layout.
    """
    answer = _least_change(job, last, add, drop, asked, limits or Limits(), option)
    came = sum(expected_arrivals(job, add).values())
    room = f" Room was kept for {came} of what is added." if came else ""
    return answer.model_copy(update={"text": f"{answer.text}{room}"})


def _least_change(
    job: Job,
    last: Plan,
    add: Sequence[Item],
    drop: Mapping[str, int | None],
    asked: Sequence[str],
    limits: Limits,
    option: Option | None,
) -> WhatIf:
    changed = with_things(job, add, drop)
    start = start_from(changed, last, option)
    settled = True
    for answer, fixed, stay in TIERS:
        holding = replace(start.problem.holding, fixed=fixed, stay=stay)
        tried = replace(start, problem=replace(start.problem, holding=holding))
        verdict = _fits(tried.problem, limits)
        plan = _planned(tried, limits) if verdict is Verdict.YES else None
        if plan is not None:
            fewer = _fewer(start, limits) if drop and not add else None
            return _answer(changed, start, asked, answer, plan, settled=settled, fewer=fewer)
        settled = settled and verdict is Verdict.NO
    return _more_shelves(changed, start, asked, limits, settled=settled)


def _fits(problem: LayoutProblem, limits: Limits) -> Verdict:
    return fits_within(problem, NOTHING, replace(limits, work=WORK))


def _planned(start: StartingOption, limits: Limits) -> Plan | None:
    """Plan it so; None where the limit came before a layout of everything."""
    answer = lay_out(start.problem, limits)
    if not answer.marks_known or any(answer.left.values()):
        return None
    return plan_of_option(start, restated_option(start, answer, limits))


def _fewer(start: StartingOption, limits: Limits) -> str | None:
    """Name the counts with a shelf less in every bay, where they are enough for what is left."""
    counts = {
        name: tuple(max(0, n - 1) for n in of_case)
        for name, of_case in start.old.shelf_counts.items()
    }
    if counts == start.old.shelf_counts or start.job.holds:
        return None
    verdict = _fits(build(start.settled, counts, start.depths), limits)
    return name_of(start.settled, counts) if verdict is Verdict.YES else None


def _answer(
    job: Job,
    start: StartingOption,
    asked: Sequence[str],
    answer: Answer,
    plan: Plan,
    *,
    settled: bool,
    fewer: str | None = None,
) -> WhatIf:
    stands = tuple(_stands(start.old, plan.options[0]))
    return WhatIf(
        asked=tuple(asked),
        answer=answer,
        settled=settled,
        text=answer_text(job, answer, stands, plan, settled=settled, fewer=fewer),
        stands=stands,
        plan=plan,
    )


def _stands(old: Option, new: Option) -> Iterator[AddedThings]:
    """Where there are more of a kind that has become more."""
    before, after = things_of(old), things_of(new)
    total_before = _totals(before)
    total_after = _totals(after)
    for (name, spot), count in (after - before).items():
        if total_after[name] > total_before.get(name, 0):
            where = OpeningPlace(case=spot[0], bay=spot[1], opening=spot[2])
            yield AddedThings(item=name, count=count, where=where)


def _totals(things: Mapping[tuple[str, tuple[str, int, int]], int]) -> dict[str, int]:
    totals: dict[str, int] = {}
    for (name, _), count in things.items():
        totals[name] = totals.get(name, 0) + count
    return totals


def _more_shelves(
    job: Job, start: StartingOption, asked: Sequence[str], limits: Limits, *, settled: bool
) -> WhatIf:
    """A further shelf, in one bay or more, or several; the fewest that do. Else a further case."""
    for counts in _with_more(start.old.shelf_counts):
        problem = build(start.settled, counts, start.depths)
        verdict = _fits(problem, limits)
        if verdict is not Verdict.YES:
            settled = settled and verdict is Verdict.NO
            continue
        plan = _with_counts(job, counts, limits)
        if plan is not None:
            return _answer(job, start, asked, "further shelf", plan, settled=settled)
    return _more_cases(job, start, asked, limits, settled=settled)


def _with_more(counts: Mapping[str, tuple[int, ...]]) -> Iterator[dict[str, tuple[int, ...]]]:
    """Counts with a shelf more in some bays, the fewest first."""
    bays = [(name, b) for name, of_case in counts.items() for b in range(len(of_case))]
    if len(bays) > BAYS_MOST:  # one further shelf in every bay, or none
        choices: list[tuple[int, ...]] = [(1,) * len(bays)]
    else:
        choices = sorted(product((0, 1), repeat=len(bays)), key=lambda more: (sum(more), more))[1:]
    choices += [(further,) * len(bays) for further in range(2, FURTHER_MOST + 1)]
    for more in choices:
        added = dict(zip(bays, more, strict=True))
        new = {
            name: tuple(n + added[name, b] for b, n in enumerate(of_case))
            for name, of_case in counts.items()
        }
        if all(n <= SHELVES_MOST for of_case in new.values() for n in of_case):
            yield new


def _with_counts(job: Job, counts: Mapping[str, tuple[int, ...]], limits: Limits) -> Plan | None:
    """Plan the job for these shelf counts; None where not everything fits after all."""
    cases = tuple(
        case.model_copy(update={"shelves": tuple(sorted(set(counts[case.name])))})
        for case in job.cases
    )
    try:
        plan = plan_job(job.model_copy(update={"cases": cases, "holds": ()}), limits)
    except CannotBeDoneError:
        return None
    return plan if plan.options[0].fits_all else None


def _more_cases(
    job: Job, start: StartingOption, asked: Sequence[str], limits: Limits, *, settled: bool
) -> WhatIf:
    """Nothing in these cases does: what of the added things would be left out of them."""
    was = {item.name: item.count for item in start.last.job.items}
    added = {k: item.count - was.get(item.name, 0) for k, item in enumerate(job.items)}
    found = left_of_added(start.problem, {k: n for k, n in added.items() if n > 0}, limits)
    left = {job.items[k].name: n for k, n in sorted((found or {}).items())}
    return WhatIf(
        asked=tuple(asked),
        answer="further case",
        settled=settled,
        text=answer_text(job, "further case", (), None, settled=settled, left=left),
        stands=(),
        left_out=left,
    )


def answer_text(
    job: Job,
    answer: Answer,
    stands: Sequence[AddedThings],
    plan: Plan | None,
    *,
    settled: bool,
    left: Mapping[str, int] | None = None,
    fewer: str | None = None,
) -> str:
    """Say what would have to change, and where the added things would stand.

    `fewer` names shelf counts that would be enough for what is left.
    """
    sure = "" if settled else " Whether less would do was not settled by the limit."
    if answer == "further case":
        named = ", ".join(f"{count} x {name}" for name, count in (left or {}).items())
        rest = f" Of what is added {named} would find no place in these." if named else ""
        return f"They need a further case: no further shelves in these do.{rest}{sure}"
    start = {
        "as it stands": "Yes, without moving anything" if stands else "Nothing else has to move",
        "things move": f"Yes, if {_moved(plan)}; no shelf moves",
        "shelves move": f"Yes, if {_shelves(plan)}",
        "further shelf": f"They need a further shelf ({plan.options[0].name if plan else ''})",
    }[answer]
    spared = f" {fewer} would do as well." if fewer else ""
    return f"{start}.{_where(job, stands)}{sure}{spared}"


def _moved(plan: Plan | None) -> str:
    compared = plan.comparison if plan else None
    number = sum(one.count for one in compared.things if one.from_ and one.to) if compared else 0
    return "1 thing changes its place" if number == 1 else f"{number} things change places"


def _shelves(plan: Plan | None) -> str:
    compared = plan.comparison if plan else None
    number = len(compared.marks) if compared else 0
    shelves = "1 shelf moves" if number == 1 else f"{number} shelves move"
    return f"{shelves} and {_moved(plan)}"


def _where(job: Job, stands: Sequence[AddedThings]) -> str:
    if not stands:
        return ""
    named = ", ".join(
        f"{one.count} x {one.item} in opening {place_text(job, one.where)}" for one in stands
    )
    return f" {named[0].upper()}{named[1:]}."
