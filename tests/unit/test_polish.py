"""Moving places about keeps every rule, never makes a layout worse, and meets small wishes."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

import pytest
from ortools.sat.python import cp_model

from solver.layout import objective
from solver.layout.arrangement import Places, Standing
from solver.layout.constraints import RULES
from solver.layout.late_acceptance import Targets, polish, score
from solver.layout.layout_problem import Form, LayoutProblem
from solver.layout.problem_from_job import build
from solver.layout.stage_search import Search
from solver.layout.variables import LayoutVariables
from solver.outcome import Limits
from solver.units import TICKS_PER_MM
from tests.builders import make_job

# Boards of 20 mm without a back: 1000 x 1040 outside leaves 960 x 1000 mm inside. The bottom
# board ends at 20 mm, so with one shelf at mark m the openings are m - 20 and 1000 - m high.
SHEET = {"name": "s", "material": "ply", "length": "2440", "width": "1220", "thickness": "20"}
CASE = {"width": "1000", "height": "1040", "depth": "300", "shelves": 1, "back": "none"}
PLAIN = {"headroom": "0", "gap": "10", "end_margin": "0", "clear_least": "100"}


def thing(name: str = "jug", height: int = 100, **more: Any) -> dict[str, Any]:
    sizes = {"width": "100", "height": str(height), "depth": "100", "weight": "1 kg"}
    return {"name": name, **sizes, **more}


def problem(
    *items: dict[str, Any], case: dict[str, Any] | None = None, **look: Any
) -> LayoutProblem:
    """A case of 960 x 1000 mm inside, one shelf and one bay unless the case says otherwise."""
    job = make_job(
        unit="mm",
        case={**CASE, **(case or {})},
        items=list(items),
        look={**PLAIN, **look},
        sheet=[SHEET],
        job={"marking_step": "1"},
    )
    one = job.cases[0]
    counts = {one.name: list(one.shelf_counts) * one.bay_count}
    return build(job, counts, {one.name: 300 * TICKS_PER_MM})


def standing(asked: LayoutProblem, marks: list[int], *openings: list[int]) -> Standing:
    """The first bay with these marks; each opening has one place of the first form per kind."""
    places = {
        (0, k): tuple((asked.kinds[kind].forms[0], 1) for kind in kinds)
        for k, kinds in enumerate(openings)
    }
    return Standing(asked, {(0, k): mark for k, mark in enumerate(marks, start=1)}, places)


def kinds_in(layout: Standing) -> list[list[int]]:
    """Kinds that stand in each opening, lowest first."""
    return [sorted(form.kind for form, _ in places) for places in layout.places().values()]


# --- Small wishes, by hand; mark m leaves m - 20 and 1000 - m mm ------------------------------


def test_two_things_change_places_for_even_headroom() -> None:
    # 440 - 440 = 0 and 540 - 340 = 200; the other way round both have 100
    layout = standing(problem(thing("low", 340), thing("high", 440)), [460], [1], [0])
    assert layout.spread == 200 * TICKS_PER_MM
    polish(layout, Targets(filled=2, spread=0), Limits())
    assert kinds_in(layout) == [[0], [1]]
    assert layout.spread == 0


def test_an_opening_is_not_emptied_for_even_headroom() -> None:
    # Nothing evens 400 - 100 and 580 - 200 but putting both into one opening.
    asked = problem(thing("cup", 100), thing("jug", 200))
    layout = standing(asked, [420], [0], [1])
    polish(layout, Targets(filled=2, spread=0), Limits())
    assert layout.filled == 2
    layout = standing(asked, [420], [0], [1])
    polish(layout, Targets(filled=1, spread=0), Limits())
    assert (layout.filled, layout.spread) == (1, 0)


def test_a_thing_goes_to_the_place_wished_for_it() -> None:
    asked = problem(thing(where="low"), thing("cup", where="top"), thing("urn", where=1))
    layout = standing(asked, [500], [1, 2], [0])
    assert layout.missed == 3
    polish(layout, Targets(missed=0), Limits())
    assert layout.missed == 0
    assert kinds_in(layout) == [[0], [1, 2]]


def test_a_thing_wished_at_eye_level_goes_to_the_last_opening_that_starts_below_it() -> None:
    # Floors at 20, 320 and 620 mm
    asked = problem(thing(where="eye"), case={"shelves": 2}, eye_level="619")
    layout = standing(asked, [300, 600], [0], [], [])
    polish(layout, Targets(missed=0), Limits())
    assert kinds_in(layout) == [[], [0], []]


def test_heavy_things_go_low() -> None:
    # 9 kg on the floor at 20 mm and 1 kg on the one at 520
    asked = problem(thing("anvil", weight="9 kg"), thing("basket", weight="1 kg"))
    layout = standing(asked, [500], [1], [0])
    polish(layout, Targets(filled=2, weight=0), Limits())
    assert layout.weight == 9000 * 20 + 1000 * 520


def test_an_even_fill_from_one_full_opening_and_one_bare() -> None:
    layout = standing(problem(thing(count=8)), [500], [0] * 8, [])
    polish(layout, Targets(), Limits())
    assert kinds_in(layout) == [[0] * 4, [0] * 4]
    assert (layout.uneven_fill, layout.fill_spread) == (0, 1)  # 5/12, rounded up and down


def test_a_thing_lies_down_where_the_opening_is_too_low_for_it() -> None:
    asked = problem(thing("rod", 300, may_lie=True, count=2))
    layout = standing(asked, [220], [], [0, 0])
    polish(layout, Targets(filled=2), Limits())
    (lying, _), *others = layout.places()[0, 0]
    assert not others
    assert lying.lying
    assert lying.height == 100 * TICKS_PER_MM


def test_a_group_is_not_parted_for_an_even_fill() -> None:
    asked = problem(thing(count=2, group="set"), case={"shelves": 2})
    layout = standing(asked, [300, 600], [0, 0], [], [])
    polish(layout, Targets(missed=0), Limits())
    assert [len(kinds) for kinds in kinds_in(layout)] in ([1, 1, 0], [0, 1, 1])


@pytest.mark.parametrize(("load", "below"), [("30 kg", 3), ("29 kg", 2)])
def test_a_shelf_takes_what_it_may_carry_and_no_more(load: str, below: int) -> None:
    asked = problem(thing(count=3, weight="10 kg"), shelf_load=load)
    layout = standing(asked, [500], [0], [0, 0])
    polish(layout, Targets(weight=0), Limits())
    assert len(kinds_in(layout)[0]) == below


def test_nothing_moves_once_it_was_asked_to_stop() -> None:
    limits = Limits()
    limits.stopper.stop()
    layout = standing(problem(thing(count=8)), [500], [0] * 8, [])
    polish(layout, Targets(), limits)
    assert kinds_in(layout) == [[0] * 8, []]


def test_a_case_without_things_is_left_as_it_is() -> None:
    layout = standing(problem(thing()), [500], [], [])
    polish(layout, Targets(spread=0, missed=0, weight=0), Limits())
    assert kinds_in(layout) == [[], []]


# --- Any layout ------------------------------------------------------------------------------


def crowded() -> tuple[LayoutProblem, Standing]:
    """Two bays of three openings each; kinds with their own gap, a group, piles and rods."""
    asked = problem(
        thing("book", 220, width="30", count=12, gap="0"),
        thing("jug", 150, count=6, group="set", weight="3 kg"),
        thing("cup", 80, width="60", count=8, stack=2, where="top"),
        thing("rod", 280, width="40", count=4, may_lie=True, where=1),
        thing("vase", 260, width="130", count=2, gap="40"),
        case={"width": "1400", "uprights": 1, "shelves": 2},
        shelf_load="25 kg",
        headroom="20",
    )
    places: dict[tuple[int, int], list[tuple[Form, int]]] = {}
    for opening, kind, count in [
        ((0, 0), 1, 4), ((0, 1), 1, 2), ((0, 2), 0, 6), ((1, 0), 0, 6), ((1, 1), 2, 8),
        ((1, 0), 4, 2), ((1, 2), 3, 4),
    ]:  # fmt: skip
        places.setdefault(opening, []).extend([(asked.kinds[kind].forms[0], 1)] * count)
    marks = {(bay, shelf): 340 * shelf for bay in (0, 1) for shelf in (1, 2)}
    return asked, Standing(asked, marks, {o: tuple(stood) for o, stood in places.items()})


def model(asked: LayoutProblem) -> LayoutVariables:
    """All rules, the marks of `crowded` held."""
    held = {(c, shelf): 340 * shelf for c in (0, 1) for shelf in (1, 2)}
    v = LayoutVariables(cp_model.CpModel(), asked, merge=False, marks=held)
    for rule in RULES:
        rule(v)
    return v


def hold(v: LayoutVariables, places: Places) -> None:
    """Hold what stands in each opening; a place that the model does not know makes an error."""
    for (c, k), stood in places.items():
        count = Counter(form for form, _ in stood)
        assert set(count) <= set(v.places(c, k))
        for form, x in v.places(c, k).items():
            v.model.add(x == count[form])


ASKED = [
    Targets(),
    Targets(filled=6, spread=0),
    Targets(missed=0),
    Targets(filled=6, spread=200 * TICKS_PER_MM, missed=0),
    Targets(spread=200 * TICKS_PER_MM, weight=0),
]


@pytest.mark.parametrize("targets", ASKED)
def test_every_rule_of_the_model_holds_and_its_figures_are_the_models(targets: Targets) -> None:
    asked, layout = crowded()
    polish(layout, targets, Limits())
    v = model(asked)
    hold(v, layout.places())
    floors = {(s.bay, s.opening): s.floor for s in layout.spaces}
    search = Search(v, Limits())
    for goal, value in (
        (objective.left_out(v), 0),
        (objective.headroom_spread(v), layout.spread),
        (objective.wishes_missed(v, {}), layout.missed),
        (objective.mass_times_height(v, floors), layout.weight),
        (objective.fill_spread(v), layout.fill_spread),
    ):
        found = search.minimise(goal)
        assert found.proven
        assert found.raw == value


@pytest.mark.parametrize("targets", ASKED)
def test_the_layout_is_no_worse_than_before_and_holds_the_same_things(targets: Targets) -> None:
    _, layout = crowded()
    before, things = score(layout, targets), things_of(layout)
    polish(layout, targets, Limits())
    assert score(layout, targets) < before
    assert things_of(layout) == things


def things_of(layout: Standing) -> Counter[int]:
    count: Counter[int] = Counter()
    for form in layout.forms:
        count[form.kind] += form.things
    return count


def test_figures_kept_while_moving_are_those_counted_afresh() -> None:
    asked, layout = crowded()
    draw = Random(1)
    for _ in range(300):
        place, space = draw.randrange(len(layout.at)), draw.randrange(len(layout.spaces))
        ways = layout.ways(place, space)
        if ways:
            layout.move(place, space, draw.choice(ways))
    marks = {(bay, shelf): 340 * shelf for bay in (0, 1) for shelf in (1, 2)}
    fresh = Standing(asked, marks, layout.places())
    for name in ("taken", "front", "mass", "room", "missed", "weight", "uneven_fill", "spread"):
        assert getattr(layout, name) == getattr(fresh, name)


def test_the_same_seed_gives_the_same_layout() -> None:
    results = []
    for _ in range(2):
        _, layout = crowded()
        polish(layout, Targets(filled=6, spread=0, missed=0), Limits())
        results.append(layout.places())
    assert results[0] == results[1]
