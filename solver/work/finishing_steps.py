"""Steps in the shop at the edges of a case (bands, lips, flutes, travelling trim), coats and light.

Also what each coat waits for, and what must be dry before glue and before the case is moved.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from solver.costing.finish_materials import area_of
from solver.costing.hardware_catalogue import area_text as area_in
from solver.costing.labour_tasks import coats
from solver.plan.trimming import TrimPiece
from solver.plan.work import Predecessor
from solver.work import step_facts
from solver.work.step_draft import OILY_RAGS, Draft
from solver.work.step_facts import CaseFacts, box_done, last_glue


def bands(facts: CaseFacts) -> Draft:
    """Band the front edges, before anything is sanded."""
    return Draft(
        facts.key("bands"),
        "Band the front edges",
        "shop",
        facts.name,
        (
            f"{len(facts.bands)} edges: {grouped(facts, facts.bands)}",
            "tape cut over-long, pressed on, ends and edges trimmed flush when cold",
        ),
        ("iron", "block", "edge trimmer"),
        takes=(("banding", 0),),
        after=(facts.after("joints"), Predecessor(step="sticks")),
        shared=True,
    )


def lips(facts: CaseFacts) -> Draft:
    """Put the lips on the shelves."""
    lip = facts.case.lip
    assert lip is not None
    name, above = facts.word("lip"), facts.say(lip.above)
    return Draft(
        facts.key("lips"),
        f"{name.capitalize()}s on the shelves",
        "shop",
        facts.name,
        (f"{len(facts.lips)} {name}s of {lip.moulding}, {above} above the shelf, glued",),
        ("glue", "clamps or tape", "plane or block"),
        takes=(("lip", 0),),
        shared=True,
        after=(box_done(facts), Predecessor(step="sticks")),
    )


def flutes(facts: CaseFacts) -> Draft:
    """Rout the flutes."""
    layout = facts.trim.flutes
    assert layout is not None
    fences = ", ".join(facts.say(one) for one in layout.settings)
    return Draft(
        facts.key("flutes"),
        "Flutes in the legs",
        "shop",
        facts.name,
        (
            f"{layout.count} flutes of {facts.say(layout.flute)}, {facts.say(layout.space)} apart, "
            f"flats of {facts.say(layout.margin)}, on {len(facts.fluted)} legs",
            f"fence to the middle of the flute: {fences}; board turned end for end for the mirror",
            f"stopped {facts.say(layout.stop)} from each end",
        ),
        ("router with core-box bit", "fence", "stops"),
        takes=(("flute", 0),),
        after=(Predecessor(step="sticks"),),
    )


def travelling(facts: CaseFacts) -> Draft:
    """Fix the trim that travels with the case."""
    pieces = facts.trimmed(travels=True)
    after = [box_done(facts)]
    after += [Predecessor(step="sticks")] if any(one.got == "moulding" for one in pieces) else []
    after += [facts.after("flutes")] if facts.fluted else []
    return Draft(
        facts.key("trim"),
        "Trim that travels, onto the case",
        "shop",
        facts.name,
        (grouped(facts, pieces),),
        ("mitre saw", "glue", "brad gun"),
        takes=(("trim that travels", 0),),
        after=tuple(after),
        shared=True,
    )


def grouped(facts: CaseFacts, pieces: Iterable[TrimPiece]) -> str:
    """Name pieces with their lengths, alike ones together."""
    counts: dict[tuple[str, int], int] = {}
    for piece in pieces:
        kind = piece.name, piece.length
        counts[kind] = counts.get(kind, 0) + 1
    return "; ".join(
        f"{count} {facts.word(name)}{'s' if count > 1 else ''} {facts.say(length)}"
        for (name, length), count in counts.items()
    )


def fixed_to_case(facts: CaseFacts) -> tuple[Predecessor, ...]:
    """Return what must be on the case before its last coats."""
    waits = [box_done(facts)]
    waits += [facts.after("lips", step_facts.CLAMP_TIME, "glue sets")] if facts.lips else []
    waits += (
        [facts.after("trim", step_facts.CLAMP_TIME, "glue sets")]
        if facts.trimmed(travels=True)
        else []
    )
    waits += [facts.after("hinges")] if facts.hinges else []
    return tuple(waits)


def area_text(facts: CaseFacts) -> str:
    """Write the area that is sanded and finished."""
    return area_in(area_of(facts.fastened).square_metres, facts.unit)


def coat_drafts(facts: CaseFacts, *, before: bool) -> Iterator[Draft]:
    """Yield the coats that go on before assembly, or those after it."""
    early, late = coats(facts)
    numbers = range(1, early + 1) if before else range(early + 1, early + late + 1)
    for number in numbers:
        yield _coat(facts, number, early)


def _coat(facts: CaseFacts, number: int, early: int) -> Draft:
    painted = facts.job.finished.kind == "paint"
    primer = painted and number <= early
    kind = "primer" if primer else "paint" if painted else "clear finish"
    of = sum(coats(facts)) - (early if painted else 0)
    which = number - (early if painted and not primer else 0)
    what = f"Coat {which} of {early if primer else of}: {kind}"
    what += ", before assembly" if number <= early else ""
    dadoes = f", {facts.word('dado')}s" if facts.housed else ""
    masked = f"ends{dadoes} and glue lines masked; " if number <= early else ""
    masked = "hinge leaves masked; " if facts.hinges and number > early else masked
    does = [f"{masked}{area_text(facts)}"]
    does += ["rubbed down and dusted first"] if number > 1 else []
    coat = "priming" if primer else "top coat"
    return Draft(
        facts.key(f"coat {number}"),
        what,
        "shop",
        facts.name,
        tuple(does),
        ("roller", "brush", *(("fine abrasive",) if number > 1 else ())),
        (OILY_RAGS,) if not painted else (),
        takes=((coat, 1), *((("rubbing down", 1),) if number > 1 else ())),
        after=_coat_waits_for(facts, number, early),
        shared=True,
    )


def _coat_waits_for(facts: CaseFacts, number: int, early: int) -> tuple[Predecessor, ...]:
    if number == early + 1 and number > 1:
        return fixed_to_case(facts)
    if number == 1:
        return (facts.after("dry fit"),) if early else fixed_to_case(facts)
    return (facts.after(f"coat {number - 1}", step_facts.RECOAT_TIME, "the coat before dries"),)


def light_draft(facts: CaseFacts) -> Draft:
    """Put in the light, after the last coat."""
    light = facts.trim.light
    assert light is not None
    return Draft(
        facts.key("light"),
        "Light strips and their wire",
        "shop",
        facts.name,
        (
            *(f"{run.where}: {facts.say(run.length)}" for run in light.runs),
            f"{light.watts:g} W in all, driver of {light.driver:g} W",
            *light.notes,
        ),
        ("drill", "cutter", "meter"),
        takes=(("light strip", 0),),
        after=_last_coat(facts),
    )


def _last_coat(facts: CaseFacts) -> tuple[Predecessor, ...]:
    if not coats(facts)[1]:
        return fixed_to_case(facts)
    return (facts.after(f"coat {sum(coats(facts))}", step_facts.HARD_DRY, "finish hardens"),)


def before_glue(facts: CaseFacts) -> Predecessor:
    """Say what must be over before the first glue-up."""
    early, _ = coats(facts)
    if not early:
        return facts.after("dry fit")
    return facts.after(f"coat {early}", step_facts.RECOAT_TIME, "the coat before dries")


def shop_done(facts: CaseFacts) -> tuple[Predecessor, ...]:
    """Return what must be over before the case leaves the shop."""
    flutes = (facts.after("flutes"),) if facts.fluted else ()
    light = (facts.after("light"),) if facts.trim.light else ()
    cure = facts.after(last_glue(facts), step_facts.GLUE_CURE, "glue cures before it is loaded")
    return (*_last_coat(facts), *flutes, *light, cure)
