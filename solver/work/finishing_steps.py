"""Steps at the edges of a case: bands, lips, flutes, trim that travels.

Coats, before assembly and after it, and what waits for them to dry.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from solver.costing.finish_materials import area_of
from solver.costing.hardware_needs import area_text as area_in
from solver.costing.works import coats
from solver.plan.trimming import TrimPiece
from solver.plan.work import After
from solver.work import step_facts
from solver.work.step_draft import WET, Draft
from solver.work.step_facts import About, box_done, last_glue


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
    found += [about.after("lips", step_facts.CLAMP, "glue sets")] if about.lips else []
    found += (
        [about.after("trim", step_facts.CLAMP, "glue sets")] if about.trimmed(travels=True) else []
    )
    found += [about.after("hinges")] if about.hinges else []
    return tuple(found)


def area_text(about: About) -> str:
    """Write the area that is sanded and finished."""
    return area_in(area_of(about.fastened).square_metres, about.unit)


def coat_drafts(about: About, *, before: bool) -> Iterator[Draft]:
    """Yield the coats that go on before assembly, or those after it."""
    early, late = coats(about)
    numbers = range(1, early + 1) if before else range(early + 1, early + late + 1)
    for number in numbers:
        yield _coat(about, number, early)


def _coat(about: About, number: int, early: int) -> Draft:
    painted = about.job.finished.kind == "paint"
    primer = painted and number <= early
    kind = "primer" if primer else "paint" if painted else "clear finish"
    of = sum(coats(about)) - (early if painted else 0)
    which = number - (early if painted and not primer else 0)
    what = f"Coat {which} of {early if primer else of}: {kind}"
    what += ", before assembly" if number <= early else ""
    dadoes = f", {about.word('dado')}s" if about.housed else ""
    masked = f"ends{dadoes} and glue lines masked; " if number <= early else ""
    masked = "hinge leaves masked; " if about.hinges and number > early else masked
    does = [f"{masked}{area_text(about)}"]
    does += ["rubbed down and dusted first"] if number > 1 else []
    coat = "priming" if primer else "top coat"
    return Draft(
        about.key(f"coat {number}"),
        what,
        "shop",
        about.name,
        tuple(does),
        ("roller", "brush", *(("fine abrasive",) if number > 1 else ())),
        (WET,) if not painted else (),
        takes=((coat, 1), *((("rubbing down", 1),) if number > 1 else ())),
        after=_before(about, number, early),
        shared=True,
    )


def _before(about: About, number: int, early: int) -> tuple[After, ...]:
    if number == early + 1 and number > 1:
        return fixed_to_case(about)
    if number == 1:
        return (about.after("dry fit"),) if early else fixed_to_case(about)
    return (about.after(f"coat {number - 1}", step_facts.COAT_DRY, "the coat before dries"),)


def light_draft(about: About) -> Draft:
    """Put in the light, after the last coat."""
    light = about.trim.light
    assert light is not None
    return Draft(
        about.key("light"),
        "Light strips and their wire",
        "shop",
        about.name,
        (
            *(f"{run.where}: {about.say(run.length)}" for run in light.runs),
            f"{light.watts:g} W in all, driver of {light.driver:g} W",
            *light.notes,
        ),
        ("drill", "cutter", "meter"),
        takes=(("light strip", 0),),
        after=_last_coat(about),
    )


def _last_coat(about: About) -> tuple[After, ...]:
    if not coats(about)[1]:
        return fixed_to_case(about)
    return (about.after(f"coat {sum(coats(about))}", step_facts.HARD, "finish hardens"),)


def before_glue(about: About) -> After:
    """Say what must be over before the first glue-up."""
    early, _ = coats(about)
    if not early:
        return about.after("dry fit")
    return about.after(f"coat {early}", step_facts.COAT_DRY, "the coat before dries")


def shop_done(about: About) -> tuple[After, ...]:
    """Return what must be over before the case leaves the shop."""
    flutes = (about.after("flutes"),) if about.fluted else ()
    light = (about.after("light"),) if about.trim.light else ()
    cure = about.after(last_glue(about), step_facts.GLUE_CURE, "glue cures before it is loaded")
    return (*_last_coat(about), *flutes, *light, cure)
