"""What comes after rhythm and headroom, bettered with both held: wishes, low weight, even fill."""

from __future__ import annotations

from fractions import Fraction

from solver.layout.evenness import Evenness, evenness
from solver.layout.polish import Targets, polish
from solver.layout.reorder import reorder
from solver.layout.standing import Marks, Standing
from solver.outcome import Limits


def bettered(
    standing: Standing, marks: Marks, rhythm: Fraction, limits: Limits
) -> tuple[Standing, Marks]:
    """Better what comes after rhythm and headroom, with both held."""
    problem, even = standing.problem, evenness(standing)
    polish_at(standing, rhythm, even, limits)
    new_marks, new_places = reorder(problem, marks, standing.places(), rhythm, limits)
    turned = Standing(problem, new_marks, new_places)
    return (turned, new_marks) if evenness(turned) <= even else (standing, marks)


def polish_at(standing: Standing, rhythm: Fraction, even: Evenness, limits: Limits) -> None:
    """Move places about: to this rhythm and evenness at most, then for the later wishes."""
    fit = standing.problem.wishes.rhythm == "to-fit"
    targets = Targets(
        to_fit=rhythm if fit else None,
        filled=len(standing.spaces) - even.empty,
        spread=None if fit else even.spread,
        missed=0,
        weight=0,
    )
    polish(standing, targets, limits)
