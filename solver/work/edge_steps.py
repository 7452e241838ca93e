"""Steps at the edges of a case: bands, lips, flutes, trim that travels."""

from __future__ import annotations

from collections.abc import Iterable

from solver.plan.trimming import TrimPiece
from solver.plan.work import After
from solver.work import waits
from solver.work.step_draft import Draft
from solver.work.step_facts import About
from solver.work.waits import box_done


def bands(about: About) -> Draft:
    """Band the front edges, before anything is sanded."""
    return Draft(
        about.key("bands"),
        "Band the front edges",
        "shop",
        about.name,
        (
            f"{len(about.bands)} edges: {grouped(about, about.bands)}",
            "tape cut over-long, pressed on, ends and edges trimmed flush when cold",
        ),
        ("iron", "block", "edge trimmer"),
        takes=(("banding", 0),),
        after=(about.after("joints"), After(step="sticks")),
        shared=True,
    )


def lips(about: About) -> Draft:
    """Put the lips on the shelves."""
    lip = about.case.lip
    assert lip is not None
    name, above = about.word("lip"), about.say(lip.above)
    return Draft(
        about.key("lips"),
        f"{name.capitalize()}s on the shelves",
        "shop",
        about.name,
        (f"{len(about.lips)} {name}s of {lip.moulding}, {above} above the shelf, glued",),
        ("glue", "clamps or tape", "plane or block"),
        takes=(("lip", 0),),
        shared=True,
        after=(box_done(about), After(step="sticks")),
    )


def flutes(about: About) -> Draft:
    """Rout the flutes."""
    layout = about.trim.flutes
    assert layout is not None
    fences = ", ".join(about.say(one) for one in layout.settings)
    return Draft(
        about.key("flutes"),
        "Flutes in the legs",
        "shop",
        about.name,
        (
            f"{layout.count} flutes of {about.say(layout.flute)}, {about.say(layout.space)} apart, "
            f"flats of {about.say(layout.margin)}, on {len(about.fluted)} legs",
            f"fence to the middle of the flute: {fences}; board turned end for end for the mirror",
            f"stopped {about.say(layout.stop)} from each end",
        ),
        ("router with core-box bit", "fence", "stops"),
        takes=(("flute", 0),),
        after=(After(step="sticks"),),
    )


def travelling(about: About) -> Draft:
    """Fix the trim that travels with the case."""
    pieces = about.trimmed(travels=True)
    after = [box_done(about)]
    after += [After(step="sticks")] if any(one.got == "moulding" for one in pieces) else []
    after += [about.after("flutes")] if about.fluted else []
    return Draft(
        about.key("trim"),
        "Trim that travels, onto the case",
        "shop",
        about.name,
        (grouped(about, pieces),),
        ("mitre saw", "glue", "brad gun"),
        takes=(("trim that travels", 0),),
        after=tuple(after),
        shared=True,
    )


def grouped(about: About, pieces: Iterable[TrimPiece]) -> str:
    """Name pieces with their lengths, alike ones together."""
    counts: dict[tuple[str, int], int] = {}
    for piece in pieces:
        kind = piece.name, piece.length
        counts[kind] = counts.get(kind, 0) + 1
    return "; ".join(
        f"{count} {about.word(name)}{'s' if count > 1 else ''} {about.say(length)}"
        for (name, length), count in counts.items()
    )


def fixed_to_case(about: About) -> tuple[After, ...]:
    """Return what must be on the case before its last coats."""
    found = [box_done(about)]
    found += [about.after("lips", waits.CLAMP, "glue sets")] if about.lips else []
    found += [about.after("trim", waits.CLAMP, "glue sets")] if about.trimmed(travels=True) else []
    found += [about.after("hinges")] if about.hinges else []
    return tuple(found)
