"""Steps on site that several kinds of case have."""

from __future__ import annotations

from solver.steps.about import About
from solver.steps.draft import Draft
from solver.steps.edges import grouped
from solver.work import After, Caution


def carry_draft(about: About, said: dict[str, Caution], after: tuple[After, ...]) -> Draft:
    """Carry the case in."""
    return Draft(
        about.key("carry"),
        "Carry it in",
        "site",
        about.name,
        (f"{about.outside}, {about.mass(about.sheet.empty)} empty; loose shelves go by themselves",)
        if about.loose
        else (f"{about.outside}, {about.mass(about.sheet.empty)} empty",),
        ("straps", "blankets"),
        said_of(said, "lifting"),
        takes=(("carrying in", 0),),
        after=(about.after("protect"), *after),
    )


def wall_trim(about: About, after: str, when: str) -> Draft:
    """Put on the trim that stays on the wall."""
    pieces = about.trimmed(travels=False)
    return Draft(
        about.key("wall trim"),
        "Trim that stays on the wall",
        "site",
        about.name,
        (f"{when}: {grouped(about, pieces)}",),
        ("mitre saw", "brad gun", "filler"),
        takes=(("trim on the wall", 0),),
        after=(about.after(after), *((about.after("flutes"),) if about.fluted else ())),
        shared=True,
    )


def said_of(said: dict[str, Caution], *keys: str) -> tuple[Caution, ...]:
    """Return the cautions of these keys that the job calls for."""
    return tuple(said[key] for key in keys if key in said)
