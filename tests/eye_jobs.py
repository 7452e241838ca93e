"""Tiny jobs by number, for trying everything: every feature of the wishes now and then."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from pydantic import ValidationError

from solver.carcass.outline import depth_wanted
from solver.job.job import Job
from solver.layout.layout_problem import EmptyHeld, Holding, LayoutProblem, MarkHeld, ThingsHeld
from solver.layout.problem_from_job import build
from tests.builders import make_job

Data = dict[str, Any]
MOST_THINGS = 7
PLY = {"name": "ply", "material": "ply", "length": "96 in", "width": "48 in"}


def problem_of(seed: int) -> LayoutProblem:
    """The tiny problem of that number."""
    draw = random.Random(seed)
    while True:
        cases = _cases(draw)
        try:
            job = make_job(
                case=cases,
                items=_items(draw),
                look=_look(draw),
                job={"marking_step": draw.choice(["1/2 in", "1 in", "1 in", "1-1/2 in", "2 in"])},
                sheet=[{**PLY, "thickness": draw.choice(["3/4 in", "23/32 in", "18 mm"])}],
                moulding=[
                    {
                        "name": "bead",
                        "width": "1-1/2 in",
                        "thickness": "3/4 in",
                        "lengths": [{"length": "96 in", "price": "9.60"}],
                    }
                ],
                site={
                    "sag": draw.choice(["none", "none", "industry"]),
                    "children": draw.random() < 0.2,
                },
            )
        except ValidationError:
            continue
        return _held(draw, problem(job, draw))


def problem(job: Job, draw: random.Random) -> LayoutProblem:
    """The problem of a job: now and then one bay has a shelf fewer."""
    counts = {}
    for case in job.cases:
        counts[case.name] = list(case.shelf_counts[:1]) * case.bay_count
        if case.bay_count > 1 and counts[case.name][1] > 0 and draw.random() < 0.5:
            counts[case.name][draw.randrange(2)] -= 1
    depths = {case.name: depth_wanted(job, case) for case in job.cases}
    return build(job, counts, {name: int(str(depth)) for name, depth in depths.items()})


def _maybe(draw: random.Random, share: float, data: Data) -> Data:
    return data if draw.random() < share else {}


def _quarters(draw: random.Random, least: int, most: int) -> str:
    return f"{draw.randint(4 * least, 4 * most)}/4 in"


def _cases(draw: random.Random) -> list[Data]:
    """One case of one bay mostly, of two bays, or two cases beside each other."""
    kind = draw.choice(["one", "one", "one", "bays", "beside"])
    shelves = draw.choice([1, 2, 2, 3]) if kind == "one" else draw.choice([1, 1, 2])
    plain = {
        "name": "a",
        "width": _quarters(draw, 14, 34) if kind != "bays" else _quarters(draw, 24, 44),
        "height": _quarters(draw, 10 + 5 * shelves, 16 + 6 * shelves),
        "depth": _quarters(draw, 6, 10),
        "shelves": shelves,
        "material": "ply",
        "back": "none",
        "uprights": 1 if kind == "bays" else 0,
        **_maybe(draw, 0.5, {"above_floor": draw.choice(["30 in", "45 in", "10 in"])}),
        **_maybe(draw, 0.2, {"raised_bottom": draw.choice(["2 in", "2-1/2 in"])}),
        **_maybe(
            draw, 0.2, {"lip": {"moulding": "bead", "above": draw.choice(["0 in", "1/2 in"])}}
        ),
        **_maybe(draw, 0.2, {"fixing": "pins", "pin_pitch": "32 mm", "first_hole": "96 mm"}),
    }
    if kind != "beside":
        return [plain]
    fewer = {"shelves": draw.choice([shelves, 1]), "name": "b", "beside": "a"}
    width = {"width": _quarters(draw, 10, 20)}
    return [plain, {**plain, **width, **fewer}]


def _items(draw: random.Random) -> list[Data]:
    """Two to four kinds, at most seven things in all."""
    left, items = MOST_THINGS, []
    for number in range(draw.choice([2, 3, 3, 4])):
        count = draw.randint(1, max(1, min(4, left - 1)))
        left -= count
        items.append(
            {
                "name": f"thing {number + 1}",
                "width": _quarters(draw, 2, 10),
                "height": _quarters(draw, 2, 11),
                "depth": _quarters(draw, 2, 6),
                "count": count,
                "weight": draw.choice(["200 g", "1 kg", "4 kg"]),
                **_wishes_of_thing(draw, count),
            }
        )
        if left <= 0:
            break
    return items


def _wishes_of_thing(draw: random.Random, count: int) -> Data:
    return {
        **_maybe(draw, 0.15, {"gap": draw.choice(["0 in", "1 in"])}),
        **_maybe(draw, 0.15, {"may_lie": True}),
        **_maybe(draw, 0.15 if count > 1 else 0, {"stack": 2}),
        **_maybe(draw, 0.1 if count > 1 else 0, {"rows": 2}),
        **_maybe(draw, 0.1, {"group": draw.choice(["one", "two"])}),
        **_maybe(draw, 0.3, {"heading": draw.choice(["red", "blue"])}),
        **_maybe(draw, 0.15, {"where": draw.choice(["low", "eye", "top", 0, 1, 5])}),
        **_maybe(draw, 0.1, {"together": True}),
        **_maybe(draw, 0.1, {"hero": True}),
        **_maybe(draw, 0.1, {"fragile": True}),
        **_maybe(draw, 0.4, {"keep": draw.choice(["must", "optional"])}),
    }


def _look(draw: random.Random) -> Data:
    rhythm = draw.choice(["steady"] * 5 + ["even", "even", "graduated", "symmetric", "to-fit"])
    look = {
        "rhythm": rhythm,
        "tallest": draw.choice(["low", "low", "low", "top", "any"]),
        "headroom": draw.choice(["0 in", "1/2 in", "1 in"]),
        "gap": draw.choice(["0 in", "1/2 in"]),
        "end_margin": draw.choice(["0 in", "1/2 in"]),
        "clear_least": draw.choice(["2 in", "3 in", "4 in"]),
        **_maybe(draw, 0.2, {"clear_most": draw.choice(["12 in", "400 mm"])}),
        **_maybe(draw, 0.1, {"steepest": draw.choice([1.5, 2.0, 3.0])}),
        **_maybe(draw, 0.2, {"spare": draw.choice([0.1, 0.33])}),
        **_maybe(draw, 0.15, {"shelf_load": draw.choice(["5 kg", "9 kg"])}),
        **_maybe(draw, 0.3, {"eye_level": draw.choice(["20 in", "40 in", "60 in"])}),
    }
    if rhythm in ("steady", "graduated"):
        look |= _maybe(draw, 0.15, {"step": draw.choice(["1 in", "2 in"])})
    return look


def _held(draw: random.Random, problem: LayoutProblem) -> LayoutProblem:
    """Now and then a shelf, things or an empty opening are held."""
    held: list[MarkHeld | ThingsHeld | EmptyHeld] = []
    b = draw.randrange(len(problem.bays))
    bay = problem.bays[b]
    opening = draw.randrange(bay.openings)
    if bay.shelves and draw.random() < 0.1:
        shelf = draw.randint(1, bay.shelves)
        mark = (bay.floor + bay.inside * shelf // bay.openings - bay.offset) // bay.step
        held.append(MarkHeld(b, shelf, max(0, mark)))
    if draw.random() < 0.1:
        held.append(ThingsHeld(draw.randrange(len(problem.kinds)), ((b, opening),), 1))
    if bay.shelves and draw.random() < 0.05:
        held.append(EmptyHeld(b, draw.randrange(bay.openings)))
    return replace(problem, holding=Holding(tuple(held))) if held else problem
