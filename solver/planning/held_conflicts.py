"""Explaining a held decision that cannot be kept: what it collides with, and what works."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from solver.carcass.settled_job import depths_of, most_of, settle, settled_job
from solver.job.job import Job
from solver.layout.conflicts import (
    Held,
    conflict,
    fewest_held,
    fits,
    nearest_marks,
    openings_instead,
)
from solver.layout.layout_problem import EmptyHeld, LayoutProblem, MarkHeld, ThingsHeld
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Verdict
from solver.plan.compared import Collision, OpeningPlace
from solver.plan.plan import Option
from solver.units import Ticks, with_unit


@dataclass(frozen=True)
class Alternative:
    """Where it could be held instead: as fields of a collision, and in words."""

    where: Mapping[str, Any]
    text: str
    proven: bool


def collision(job: Job, problem: LayoutProblem, limits: Limits) -> Collision | None:
    """Explain why the job's holds do not go; None where they do, or are not to blame.

    Parameters
    ----------
    job
        The job with its holds.
    problem
        The layout problem built from it.
    limits
        Limits of the searches.

    Returns
    -------
    Collision or None
        For the last of the holds that do not go together.
    """
    held = problem.holding.held
    if not held or fits(problem, (), limits) is not Verdict.YES:
        return None
    if fits(problem, held, limits) is not Verdict.NO:
        return None
    together = fewest_held(problem, held, limits)
    wish, others = together[-1], together[:-1]
    found = conflict(problem, wish, others, limits)
    hold = job.holds[held.index(wish)]
    words = tuple(_claim(job, problem, wish, one) for one in found.claims)
    rest = [one for one in held if one is not wish]
    if isinstance(wish, MarkHeld):
        instead = _other_marks(job, problem, wish, rest, limits)
    else:
        instead = _other_openings(job, problem, wish, rest, limits)
    return Collision(
        hold=hold.text(job.unit),
        collides=words,
        least=found.least,
        **instead.where,
        proven=instead.proven,
        text=f"{hold.text(job.unit)} cannot be held: {_collides(job, words)}. {instead.text}",
    )


def with_collision(job: Job, option: Option, limits: Limits) -> Option:
    """Say of an option that does not work whether what is held is to blame, and how."""
    if not job.holds or option.fits_all:
        return option
    if option.cases:
        settled, depths = settled_job(job, option), depths_of(option)
    else:
        sizes = {case.name: most_of(job, case) for case in job.cases}
        settled = settle(job, option.shelf_counts, sizes)
        depths = {name: size.depth for name, size in sizes.items()}
    found = collision(settled, build(settled, option.shelf_counts, depths), limits)
    if found is None:
        return option
    why = f"{found.text} {option.why or ''}".strip()
    return option.model_copy(update={"collision": found, "why": why})


def _claim(job: Job, problem: LayoutProblem, wish: Held, claim: Held | int) -> str:
    """What is in the way, in words."""
    if isinstance(claim, int):
        item = job.items[claim]
        many = f" ({item.count})" if item.count > 1 else ""
        return f"{item.name}{many}, {_high(job, problem, claim)}"
    hold = job.holds[problem.holding.held.index(claim)]
    if isinstance(claim, EmptyHeld):
        return hold.text(job.unit)
    if isinstance(claim, ThingsHeld):
        return f"{hold.text(job.unit)}, {_high(job, problem, claim.kind)}"
    beside = (
        isinstance(wish, MarkHeld) and claim.bay == wish.bay and abs(claim.shelf - wish.shelf) == 1
    )
    return f"{hold.text(job.unit)}{', the shelf beside it' if beside else ''}"


def _high(job: Job, problem: LayoutProblem, kind: int) -> str:
    """How high a kind is at least, and the headroom it asks for."""
    height = with_unit(min(form.height for form in problem.kinds[kind].forms), job.unit)
    return f"{height} high and {with_unit(job.look.headroom, job.unit)} headroom"


def _collides(job: Job, words: Sequence[str]) -> str:
    if words:
        return "it collides with " + "; ".join(words)
    least = with_unit(job.look.clear_least, job.unit)
    return f"it leaves no opening of the least clear height, {least}"


def _other_marks(
    job: Job, problem: LayoutProblem, wish: MarkHeld, rest: Sequence[Held], limits: Limits
) -> Alternative:
    shape = problem.bays[wish.bay]
    below, above, proven = nearest_marks(problem, wish, rest, limits)
    marks = [None if m is None else shape.offset + shape.step * m for m in (below, above)]
    text = _works(job, marks[0], marks[1], proven=proven)
    return Alternative({"below": marks[0], "above": marks[1]}, text, proven)


def _works(job: Job, below: Ticks | None, above: Ticks | None, *, proven: bool) -> str:
    sides = [
        f"{with_unit(mark, job.unit)} {word}"
        for mark, word in ((below, "below"), (above, "above"))
        if mark is not None
    ]
    if not sides:
        return (
            "No other mark of this shelf works either." if proven else "None that works was found."
        )
    only = f" (nothing {'below' if below is None else 'above'} works)" if len(sides) == 1 else ""
    sure = "" if proven else ", as far as was found"
    return f"Nearest that works: {' or '.join(sides)}{only if proven else ''}{sure}."


def _other_openings(
    job: Job,
    problem: LayoutProblem,
    wish: ThingsHeld | EmptyHeld,
    rest: Sequence[Held],
    limits: Limits,
) -> Alternative:
    openings, settled = openings_instead(problem, wish, rest, limits)
    spots = tuple(
        OpeningPlace(
            case=job.cases[problem.bays[bay].case].name,
            bay=problem.bays[bay].number + 1,
            opening=opening,
        )
        for bay, opening in openings
    )
    text = _openings_text(job, spots, empty=isinstance(wish, EmptyHeld))
    return Alternative({"openings": spots}, text, settled)


def _openings_text(job: Job, spots: Sequence[OpeningPlace], *, empty: bool) -> str:
    if not spots:
        can = "can be left empty" if empty else "takes all of them"
        return f"No opening {can} with what else is held."
    named = ", ".join(place_text(job, spot) for spot in spots)
    return f"Openings that {'can be left empty' if empty else 'would take them'}: {named}."


def place_text(job: Job, spot: OpeningPlace) -> str:
    """An opening in words: "3", "hall/2: 3" where there are several bays or cases."""
    if len(job.cases) == 1 and job.cases[0].bay_count == 1:
        return f"{spot.opening}"
    bay = f"/{spot.bay}" if job.case(spot.case).bay_count > 1 else ""
    return f"{spot.case}{bay}: {spot.opening}"
