"""What an option looks like, in figures: cells of the tables that set options side by side."""

from __future__ import annotations

from cli.screen.wording import NONE
from solver.plan.plan import Option
from solver.planning.look_figures import room_over
from solver.planning.spacing_words import from_to, rounded
from solver.units import Unit


def parted_text(option: Option) -> str:
    """Return how many places are parted."""
    return NONE if option.scores is None else str(option.scores.places_parted)


def steps_text(option: Option, unit: Unit) -> str:
    """Return the mean step from an opening to the next, and how far the steps differ."""
    scores = option.scores
    if scores is None or scores.steps_mean is None:
        return NONE
    mean = rounded(scores.steps_mean, unit)
    mean = "none" if mean == rounded(0, unit) else mean
    return f"{mean}, within {rounded(scores.steps_range, unit)}" if scores.steps_range else mean


def outline_text(option: Option) -> str:
    """Return how much of the rows has no mirror image."""
    return NONE if option.scores is None else f"{option.scores.outline_missed:g} %"


def air_text(option: Option, unit: Unit) -> str:
    """Return the least and the most room over the tallest things."""
    rooms = [
        room_over(opening) for case in option.cases for bay in case.bays for opening in bay.openings
    ]
    known = [room for room in rooms if room is not None]
    return from_to(min(known), max(known), unit) if known else NONE
