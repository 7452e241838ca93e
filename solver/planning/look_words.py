"""What was reached of each wish of the look, a plain sentence each, in the trade's words.

A sentence tells what the finished option looks like, not what was searched: it is made from the
cases alone, so that drawings, papers and screens say the same.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from solver.job.job import Job
from solver.plan.built import CasePlan, SharedLines
from solver.plan.plan import Option, Stage
from solver.planning import arrangement_words, spacing_words
from solver.planning.look_figures import Heights
from solver.planning.seen import Seen
from solver.planning.spacing_words import ALIKE, by_group

NO_FALL = "no steady fall fits these things"


def sentences(
    job: Job,
    cases: Sequence[CasePlan],
    lines: Sequence[SharedLines],
    stages: Sequence[Stage],
    steady_count: int | None = None,
) -> dict[str, str]:
    """Return a sentence for each stage that there is something to say of, by its name.

    Parameters
    ----------
    cases, lines
        The finished cases, and which bays share shelf lines.
    stages
        Those of the option; which one tells the rhythm depends on them.
    steady_count
        A shelf count for which a steady fall is proven to exist, where this one has none [-].
    """
    seen = Seen.of(job, cases, lines, stages)
    said = {**arrangement_words.SAID, **SPACING}
    texts = {stage.name: said[stage.name](seen) for stage in stages if stage.name in said}
    if "even" in texts and job.look.rhythm == "steady":
        texts["even"] = _without_fall(texts["even"], steady_count)
    return {name: text for name, text in texts.items() if text}


def _without_fall(text: str, steady_count: int | None) -> str:
    """Say that openings do not fall steadily, and which shelf count would let them."""
    if text == ALIKE:
        return text
    one = steady_count == 1
    other = f"; {steady_count} {'shelf has' if one else 'shelves have'} one" if steady_count else ""
    return f"{text}; {NO_FALL}{other}"


def _fall(seen: Seen) -> str:
    return by_group(seen.groups, seen.names, lambda h, s: spacing_words.fall(h, s, seen.unit))


def _even(seen: Seen) -> str:
    return by_group(seen.groups, seen.names, lambda h, s: spacing_words.evenness(h, s, seen.unit))


def _symmetric(seen: Seen) -> str:
    unit = seen.unit
    return by_group(
        seen.groups, seen.names, lambda h, s: spacing_words.mirrored_openings(h, s, unit)
    )


def _rises(seen: Seen) -> str:
    top = seen.job.look.tallest == "top"

    def words(heights: Heights, step: int) -> str:
        return spacing_words.rises(heights, step, seen.unit, top=top)

    return by_group(seen.groups, seen.names, words)


SPACING: Mapping[str, Callable[[Seen], str]] = {
    "steady": _fall,
    "graduated": _fall,
    "even": _even,
    "symmetric": _symmetric,
    "to-fit": arrangement_words.air,
    "rises": _rises,
}
"""What is said of the stages that tell how the openings follow on each other."""


def parted(job: Job, cases: Sequence[CasePlan]) -> tuple[str, ...]:
    """Return what could not be kept together: "cup (shelves 1 and 2)", headings before kinds."""
    return arrangement_words.parted_lines(Seen.of(job, cases, ()))


RHYTHMS = ("steady", "graduated", "symmetric", "to-fit", "even")
"""Stages that tell the rhythm, the first that a plan has of them."""
ALWAYS = ("headings", "together")
FLAWS = ("asked", "empty", "alone", "mirrored", "rises")
"""Stages that are told only where something is missed."""


def with_sentences(
    job: Job,
    cases: Sequence[CasePlan],
    lines: Sequence[SharedLines],
    stages: Sequence[Stage],
    steady_count: int | None = None,
) -> tuple[Stage, ...]:
    """Return the stages, each with its sentence."""
    said = sentences(job, cases, lines, stages, steady_count)
    return tuple(
        stage.model_copy(update={"sentence": said.get(stage.name, stage.sentence)})
        for stage in stages
    )


def look_points(option: Option) -> tuple[str, ...]:
    """Return what sets an option's look apart, point by point: rhythm, together, what is missed.

    Sentences that are too long to be set beside others give way to a count.
    """
    of_name = {stage.name: stage for stage in option.stages if stage.sentence}
    rhythm = next((name for name in RHYTHMS if name in of_name), None)
    missed = [name for name in FLAWS if name in of_name and of_name[name].value]
    told = (*((rhythm,) if rhythm else ()), *ALWAYS, *missed)
    return tuple(_point(of_name[name]) for name in told if name in of_name)


POINT_MOST = 60
"""Most characters of a sentence that is told as it is, where a count says the same [-]."""
COUNTED = {
    "headings": ("one heading parted once", "headings parted in {:g} places"),
    "together": ("one kind parted once", "kinds parted in {:g} places"),
    "asked": ("one thing not as asked for", "{:g} things not as asked for"),
    "empty": ("one shelf empty", "{:g} shelves empty"),
    "alone": ("one thing apart from its kind", "{:g} things apart from their kind"),
    "mirrored": ("one odd kind too many for the mirror", "{:g} odd kinds too many for the mirror"),
}
"""What is said of one, and of several, in place of a long sentence."""


def _point(stage: Stage) -> str:
    sentence = stage.sentence or ""
    if len(sentence) <= POINT_MOST or stage.name not in COUNTED:
        return sentence
    count, (one, many) = float(stage.value or 0), COUNTED[stage.name]
    return one if count == 1 else many.format(count)


def points(option: Option) -> str:
    """Tell an option point by point, after its name: "4 shelves: all openings alike, ..."."""
    out = [stage.sentence or "" for stage in option.stages if stage.name == "fit"]
    told = ", ".join([*look_points(option), *(out if option.left_out else [])])
    return f"{option.name}: {told}" if told else option.name
