"""Light and glass in a case: strips, driver and wire; glass shelves by the maker's load table."""

from __future__ import annotations

from collections.abc import Iterator

from solver.job.case_fittings import Glass, Light
from solver.plan.trimming import CaseGlass, CaseLight, GlassShelf, LightStrip
from solver.trim.trim_pieces import TrimmedCase
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks

DRIVERS = (15.0, 30.0, 60.0, 100.0, 150.0, 200.0)
"""Sizes in which drivers are sold: common practice, no source [W]."""
LOADED = 0.8
"""Share of its rating to which a driver is loaded at most: common practice, no source [-]."""
WARM = {"in": 5.0, "mm": 16.0}
"""Power from which a strip goes on a metal channel: common practice [W a foot, or a metre]."""
PER_LENGTH: dict[str, Ticks] = {"in": 12 * TICKS_PER_INCH, "mm": 1000 * TICKS_PER_MM}
"""Length over which the power of a strip is given, a foot or a metre [tick]."""


def light_of(trimmed: TrimmedCase) -> CaseLight | None:
    """Return the light of a case; None where none is asked for."""
    light = trimmed.case.light
    if light is None:
        return None
    runs = tuple(_runs(trimmed, light))
    total = sum(run.length for run in runs)
    watts = round(total / PER_LENGTH[trimmed.job.unit] * light.watts, 1)
    needed = round(watts / LOADED, 1)
    usual = next((size for size in DRIVERS if size >= needed), DRIVERS[-1])
    driver = light.driver or usual
    return CaseLight(
        runs=runs,
        watts=watts,
        driver_needed=needed,
        driver=driver,
        enough=driver >= needed,
        notes=tuple(_light_notes(trimmed, light)),
    )


def _runs(trimmed: TrimmedCase, light: Light) -> Iterator[LightStrip]:
    bays = trimmed.planned.bays
    for bay in bays:
        name = f"bay {bay.number}, " if len(bays) > 1 else ""
        wide, high = bay.inside.width - light.short, bay.inside.height - light.short
        if light.where == "sides":
            for side in ("left", "right"):
                yield LightStrip(where=f"{name}{side} side, behind its front edge", length=high)
            continue
        if light.where == "shelves":
            for shelf in bay.shelves:
                yield LightStrip(
                    where=f"{name}under shelf {shelf.index}, at its front", length=wide
                )
        yield LightStrip(where=f"{name}under the top, at its front", length=wide)


def _light_notes(trimmed: TrimmedCase, light: Light) -> Iterator[str]:
    hung = trimmed.case.kind == "hung"
    if hung:
        yield (
            "wire: across at the hinge edge, close to the pin line and midway between two hinges, "
            "in a soft loop that bends and never pulls; try it ten times before it is closed up"
        )
        yield "driver: outside the case, on the wall side of the hinges, where it can be reached"
    else:
        yield "wire: down a back corner, in a groove or behind a strip that comes off"
        yield "driver: on the top or behind a panel that comes off; never walled in"
    if light.watts >= WARM[trimmed.job.unit]:
        yield "heat: strips of this power go on a metal channel, with air behind it"
    else:
        yield "heat: air round the driver; nothing that fades or melts close to the strips"
    yield (
        "low voltage only, from a limited-power driver with its mark; whatever is on mains is a "
        "licensed electrician's, and the local code comes first"
    )


SAFETY_GLASS = ("tempered", "laminated")


def glass_of(trimmed: TrimmedCase) -> CaseGlass | None:
    """Return the glass of a case; None where none is asked for."""
    glass = trimmed.case.glass
    if glass is None:
        return None
    shelves = tuple(_shelves(trimmed, glass)) if glass.shelves else ()
    unsafe = glass.front and trimmed.job.ground.glass not in SAFETY_GLASS
    return CaseGlass(
        shelves=shelves,
        notes=tuple(_glass_notes(trimmed, glass)),
        good=all(shelf.passed for shelf in shelves) and not unsafe,
    )


def _shelves(trimmed: TrimmedCase, glass: Glass) -> Iterator[GlassShelf]:
    """Each shelf, with what stands on it, against the next longer span of the table."""
    rows = sorted(glass.table, key=lambda row: row.span)
    bays = trimmed.planned.bays
    for bay in bays:
        name = f"bay {bay.number}, " if len(bays) > 1 else ""
        span = bay.inside.width
        row = next((row for row in rows if row.span >= span), None)
        for shelf in bay.shelves:
            yield GlassShelf(
                where=f"{name}shelf {shelf.index}",
                span=span,
                load=bay.openings[shelf.index].load,
                allowed=row.load if row else None,
            )


def _glass_notes(trimmed: TrimmedCase, glass: Glass) -> Iterator[str]:
    kind = trimmed.job.ground.glass
    if glass.shelves:
        if not glass.table:
            yield (
                "no glass shelf is passed without the maker's load table for its thickness, depth "
                "and supports: [case.glass] table"
            )
        yield (
            "shelves: tempered, edges seamed, on the supports that the maker's table is for; cut "
            "list and price still have boards in their place"
        )
    if glass.front:
        what = (
            "a glazed case that closes a doorway works as a door: safety glazing, tempered or "
            "laminated, with its permanent mark (16 CFR 1201, ANSI Z97.1, as quoted)"
            if trimmed.case.kind == "hung"
            else "a glazed front or door: tempered or laminated"
        )
        has = (
            ""
            if kind in SAFETY_GLASS
            else f'; [site] glass is "{kind}": NOT GOOD, name the safe glass'
        )
        yield f"{what}{has}"
    yield "local code comes first, and may ask for more"
