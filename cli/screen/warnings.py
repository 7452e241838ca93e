"""What is wrong or doubtful with an option, a line each, the gravest first.

Grave is what can hurt somebody: a check that is not met, then what stands in a way out, then
tipping. After them what does not last (sag), what is bought in vain, and what only looks wrong.
"""

from __future__ import annotations

from collections.abc import Iterator

from cli.screen.strength_tables import name_of, sag_text
from cli.screen.wording import count, listed, plain_name
from solver.job.job import Job
from solver.plan.plan import Option
from solver.strength.cautions import cautions_of
from solver.units import TICKS_PER_MM, Unit

PLACE = (
    *("not-known", "not-asked", "lead-paint", "asbestos", "louvred", "return_air", "appliance"),
    *("panel", "shut_off", "switch", "entered", "privacy", "passage", "projects", "top-heavy"),
    *("children", "earthquakes", "pinch"),
)
"""Keys of cautions that speak of this place or these things, those that can kill first."""


def warnings(job: Job, option: Option) -> list[str]:
    """Return the warnings of an option, the gravest first; empty where it has no layout."""
    if not option.cases:
        return []
    by_key = {one.key: one.text for one in cautions_of(job, option)}
    place = [plain_name(by_key[key]) for key in PLACE if key in by_key]
    return [*grave(option), *place, *_sag(option, job.unit), *_guessed(option)]


def grave(option: Option) -> list[str]:
    """Return what forbids building it as it is: it binds, or something does not hold it."""
    return [*_binds(option), *_not_enough(option)]


def more_cautions(job: Job, option: Option) -> int:
    """Return how many cautions of the work are not among the warnings [-]."""
    return sum(one.key not in PLACE for one in cautions_of(job, option))


def _binds(option: Option) -> list[str]:
    """Hung cases that do not swing: the notes that name where they bind."""
    stuck = any(case.swing is not None and not case.swing.swings for case in option.cases)
    return [plain_name(note) for note in option.notes if stuck and "does not swing" in note]


def _not_enough(option: Option) -> Iterator[str]:
    """Checks that are not met, one line for all that one remedy mends."""
    for sheet in option.hanging.cases if option.hanging else ():
        mended: dict[str, list[str]] = {}
        for figure in sheet.figures:
            if figure.ok is False:
                mended.setdefault(figure.says, []).append(figure.what)
        for says, what in mended.items():
            also = f" and {count(len(what) - 1, 'more check')}" if len(what) > 1 else ""
            yield f"NOT ENOUGH, {plain_name(sheet.case)}: {what[0]}{also}: {says}."


def _sag(option: Option, unit: Unit) -> Iterator[str]:
    strength = option.strength
    if strength is None or strength.worst is None:
        return
    worst = strength.shelves[strength.worst]
    if not worst.over:
        return
    many = sum(bool(one.over) for one in strength.shelves)
    others = f"; {many - 1} more are over too" if many > 1 else ""
    cure = f"; {worst.mends[0].text} would do" if worst.mends else ""
    least = "over L/144, THE MOST" if "industry" in worst.over else "more than a display allows"
    sag = sag_text(worst.sag_long / TICKS_PER_MM, unit)
    yield f"Sag of {name_of(worst)}: {sag} after years, {least}{cure}{others}."


def _guessed(option: Option) -> Iterator[str]:
    names = list(
        dict.fromkeys(
            plain_name(thing.item)
            for case in option.cases
            for bay in case.bays
            for opening in bay.openings
            for thing in opening.items
            if thing.mass_assumed
        )
    )
    if names:
        shown = listed(names[:3]) if len(names) <= 3 else f"{', '.join(names[:3])} and others"
        yield f"Weights not given, assumed: {shown}."
