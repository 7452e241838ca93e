"""Coats, before assembly and after it, and what waits for them to dry."""

from __future__ import annotations

from collections.abc import Iterator

from solver.costing.finish_materials import area_of
from solver.costing.hardware_kinds import area_text as area_in
from solver.costing.making_works import coats
from solver.plan.work import After
from solver.work import waits
from solver.work.edge_steps import fixed_to_case
from solver.work.step_cautions import WET
from solver.work.step_draft import Draft
from solver.work.step_facts import About
from solver.work.waits import last_glue


def area_text(about: About) -> str:
    """Write the area that is sanded and finished."""
    return area_in(area_of(about.held).square_metres, about.unit)


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
    return (about.after(f"coat {number - 1}", waits.COAT_DRY, "the coat before dries"),)


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
    return (about.after(f"coat {sum(coats(about))}", waits.HARD, "finish hardens"),)


def before_glue(about: About) -> After:
    """Say what must be over before the first glue-up."""
    early, _ = coats(about)
    if not early:
        return about.after("dry fit")
    return about.after(f"coat {early}", waits.COAT_DRY, "the coat before dries")


def shop_done(about: About) -> tuple[After, ...]:
    """Return what must be over before the case leaves the shop."""
    flutes = (about.after("flutes"),) if about.fluted else ()
    light = (about.after("light"),) if about.trim.light else ()
    cure = about.after(last_glue(about), waits.GLUE_CURE, "glue cures before it is loaded")
    return (*_last_coat(about), *flutes, *light, cure)
