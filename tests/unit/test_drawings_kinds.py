"""The drawings by their geometry: what is drawn is what the plan says, where it says."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import pytest

from cli.drawings.cutting_diagram import sheet_scene
from cli.drawings.drawing_kinds import KINDS, Subject, listing, scenes, slug
from cli.drawings.front_elevation import elevation
from cli.drawings.hatching import hatched
from cli.drawings.keys import key_marks
from cli.drawings.pages import to_fit
from cli.drawings.running import OccupiedAreas, running, small_figures
from cli.drawings.scene import Scene
from cli.drawings.shapes import FIGURES, SMALL, Dimension, Path, Running, Shape, Text, rectangle
from cli.drawings.swing_plan import clipped, latch_detail, swing_plan, swing_words
from cli.drawings.vertical_section import section
from solver.doorway.swing_answer import swing_of_case
from solver.plan.built import CasePlan, Size
from solver.plan.plan import Plan
from solver.plan.swinging import PairSwing
from solver.units import format_length, inches, mm, to_mm
from tests.doorways import placed_job
from tests.mutations_swing import hung
from tests.sample_plans import good_plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


@pytest.fixture(scope="module")
def case(plan: Plan) -> CasePlan:
    return plan.options[0].cases[0]


def of_layer(scene: Scene, layer: str) -> list[Path]:
    return [one for one in scene.shapes if isinstance(one, Path) and one.layer == layer]


def dimensions(scene: Scene) -> list[Dimension]:
    return [one for one in scene.shapes if isinstance(one, Dimension)]


def test_running_dimensions_end_at_the_height_and_name_every_mark(
    plan: Plan, case: CasePlan
) -> None:
    scene = elevation(case, plan.unit, 10, key_marks(plan.job))
    runs = [one for one in scene.shapes if isinstance(one, Running)]

    marks = {shelf.underside for bay in case.bays for shelf in bay.shelves}
    assert marks <= {mark.value for run in runs for mark in run.marks}
    assert all(run.marks[-1].value == case.outside.height for run in runs)
    assert all(run.marks[0].value == 0 for run in runs)
    for run in runs:
        steps = [b.value - a.value for a, b in pairwise(run.marks)]
        assert sum(steps) == case.outside.height
        assert all(mark.text == format_length(mark.value, plan.unit) for mark in run.marks)


def test_every_dimension_measures_what_it_says(plan: Plan, case: CasePlan) -> None:
    drawn = [
        elevation(case, plan.unit, 10, key_marks(plan.job)),
        section(plan.job, case, case.bays[0], 10),
    ]
    found = [one for scene in drawn for one in dimensions(scene)]

    assert len(found) > 5
    for one in found:
        along = 0 if one.axis == "x" else 1
        assert abs(one.end[along] - one.start[along]) == pytest.approx(to_mm(one.value), abs=1e-9)
        assert one.text == format_length(one.value, plan.unit)


def test_lettering_of_running_dimensions_does_not_overlap(plan: Plan, case: CasePlan) -> None:
    for scale in (5, 10, 50):
        scene = section(plan.job, case, case.bays[0], scale)
        (run,) = (one for one in scene.shapes if isinstance(one, Running))
        places = [mark.text_at for mark in run.marks]
        gaps = [b - a for a, b in pairwise(places)]
        assert min(gaps) >= FIGURES * scale


def test_every_thing_is_drawn_once_and_lies_in_its_bay(plan: Plan, case: CasePlan) -> None:
    scene = elevation(case, plan.unit, 10, key_marks(plan.job))
    things = of_layer(scene, "item")

    assert len(things) == sum(len(o.items) for bay in case.bays for o in bay.openings)
    inside = [(to_mm(bay.x), to_mm(bay.x + bay.inside.width)) for bay in case.bays]
    for thing in things:
        xs = [x for x, _ in thing.points]
        assert any(low <= min(xs) and max(xs) <= high for low, high in inside)


def test_a_sheet_shows_every_part_and_every_cut_once(plan: Plan) -> None:
    option = plan.options[0]
    parts = {part.id: part for part in option.parts}
    for number, sheet in enumerate(option.sheets, start=1):
        scene = sheet_scene(sheet, number, parts, plan.unit, 20)
        words = [one.text for one in scene.shapes if isinstance(one, Text)]
        assert len(of_layer(scene, "part")) == len(sheet.pieces)
        assert len(of_layer(scene, "cut")) == len(sheet.cuts)
        assert {str(cut.number) for cut in sheet.cuts} <= set(words)
        for piece in sheet.pieces:
            at = str(list(parts).index(piece.part) + 1)
            assert any(word == at or word.startswith(f"{at} ") for word in words)


@pytest.mark.parametrize("way", ["in", "out"])
@pytest.mark.parametrize("side", ["left", "right"])
def test_the_swing_is_drawn_as_near_as_the_plan_says(case: CasePlan, way: str, side: str) -> None:
    sizes = {"width": "26", "height": "78", "depth": "9"}
    job = placed_job(sizes, jamb_depth="4-9/16", swing=way, hinge_side=side)
    hung = case.model_copy(
        update={
            "name": job.cases[0].name,
            "outside": Size(width=inches(26), height=inches(78), depth=inches("9-1/4")),
        }
    )
    found = swing_of_case(job, job.cases[0], hung.outside.depth)

    detail = latch_detail(job, hung, found, 1)
    above = swing_plan(job, hung, found, 10)

    (shown,) = of_layer(detail, "mark")
    (ax, ay), (bx, by) = shown.points
    assert hypot(ax - bx, ay - by) == pytest.approx(to_mm(found.tightest), abs=0.01)
    at_rest, opened = of_layer(above, "outline"), of_layer(above, "swing")
    assert of_layer(above, "hidden")
    middle = sum(x for x, _ in at_rest[0].points) / 4
    assert (middle > 0) is (side == "left")  # the pin is the origin
    up = sum(y for one in opened for _, y in one.points)
    assert (up > 0) is (way == "in")  # the room is at the foot


def test_a_hung_plan_has_a_drawing_of_its_swing(plan: Plan) -> None:
    hanging = hung(plan)

    found = scenes(Subject(hanging, hanging.options[0], "a4", {}), ("swing",))

    assert [scene.name for scene in found] == ["hall-swing", "hall-swing-detail"]
    assert scenes(Subject(plan, plan.options[0], "a4", {}), ("swing",)) == []


def test_every_kind_has_names_of_its_own(plan: Plan) -> None:
    found = scenes(Subject(plan, plan.options[0], "a4", {}), tuple(KINDS))

    assert len({scene.name for scene in found}) == len(found) > 3
    assert slug('../<b>"x"') == "b-x"
    assert slug("ящик") == "case"


def test_a_hatch_stays_in_its_rectangle() -> None:
    for pattern in range(1, 8):
        hatch = hatched((0, 100), (0, 60), pattern, 10)
        assert hatch is not None
        for stroke in hatch.strokes:
            for x, y in stroke:
                assert -1e-9 <= x <= 100 + 1e-9
                assert -1e-9 <= y <= 60 + 1e-9
    assert hatched((0, 100), (0, 60), 0, 10) is None


def test_an_outline_is_cut_off_at_a_window() -> None:
    square: list[tuple[float, float]] = [(0, 0), (10, 0), (10, 10), (0, 10)]

    assert sorted(clipped(square, (5, 5, 20, 20))) == [(5, 5), (5, 10), (10, 5), (10, 10)]
    assert clipped(square, (11, 0, 20, 20)) == []
    assert clipped(square, (-5, -5, 20, 20)) == square


def test_the_first_free_place_is_taken() -> None:
    taken = OccupiedAreas()

    assert taken.best([(0, 0), (10, 0)], (1, 1)) == (0, 0)
    assert taken.best([(0, 0), (10, 0)], (1, 1)) == (10, 0)
    assert taken.best([(0, 0), (10, 0)], (1, 1)) == (0, 0)  # none is free: the first all the same


def test_a_list_is_read_down_its_columns() -> None:
    scene = listing(["aaaa", "bbbb", "cccc"], 30, 1)

    places: list[Shape] = list(scene.shapes)
    (ax, ay), (bx, by), (cx, cy) = (one.at for one in places if isinstance(one, Text))
    assert (ax, ay) == (0, 0)
    assert bx == ax
    assert by < ay
    assert cx > ax
    assert cy == ay


def test_bays_that_differ_have_dimensions_of_their_own(plan: Plan, case: CasePlan) -> None:
    first, second = case.bays
    lower, upper = second.openings[:2]
    up = mm(10)
    shelf = second.shelves[0]
    changed = second.model_copy(
        update={
            "shelves": (
                shelf.model_copy(update={"underside": shelf.underside + up, "top": shelf.top + up}),
                *second.shelves[1:],
            ),
            "openings": (
                lower.model_copy(update={"height": lower.height + up}),
                upper.model_copy(update={"floor": upper.floor + up, "height": upper.height - up}),
                *second.openings[2:],
            ),
        }
    )
    scene = elevation(case.model_copy(update={"bays": (first, changed)}), plan.unit, 10)

    runs = {one.heading: one for one in scene.shapes if isinstance(one, Running)}
    assert set(runs) == {"bay 1", "bay 2"}
    assert {mark.value for mark in runs["bay 2"].marks} >= {shelf.underside + up}
    assert abs(runs["bay 1"].across - runs["bay 2"].across) > 10 * 10  # a line of its own
    heights = [one.value for one in dimensions(scene) if one.axis == "y"]
    opened = [o.height for bay in (first, changed) for o in bay.openings]
    assert sorted(heights) == sorted([*opened, case.outside.height])


def test_the_words_of_the_swing_name_what_is_beside_it(plan: Plan) -> None:
    alone = hung(plan).options[0].cases[0].swing
    assert alone is not None
    pair = PairSwing(gap=mm(20), gap_together=mm(12), opens_together=True)

    words = " ".join(swing_words(alone, "mm"))
    paired = " ".join(swing_words(alone.model_copy(update={"pair": pair}), "mm"))

    assert "at the latch jamb" in words
    assert f"Tightest, {alone.tightest_at:g}° open" in words
    assert "at the other case" in paired
    assert "Both opened at once need 12 mm between them." in paired


WIDTH = mm(1000)


def wide_drawing(scale: int) -> Scene:
    """A width of 1 m with a running dimension beside it, in figures of three digits."""
    figures = running((0.0, 0.0), "y", -8.0 * scale, [0, mm(100), mm(104)], "mm", scale)
    line = rectangle((0.0, to_mm(WIDTH)), (0.0, 100.0), "outline")
    return Scene("wide", "Wide", scale, (line, figures))


def heights(scene: Scene) -> set[float]:
    return {shape.height for shape in scene.shapes if isinstance(shape, Running)}


def test_figures_are_of_the_usual_height_and_small_where_they_would_cost_a_scale() -> None:
    usual = wide_drawing(10).paper_size
    small = small_figures(wide_drawing(10)).paper_size
    assert small[0] < usual[0]

    roomy = to_fit(wide_drawing, [usual], "mm")
    tight = to_fit(wide_drawing, [small], "mm")
    tighter = to_fit(wide_drawing, [(small[0] - 0.1, small[1])], "mm")

    assert (roomy.scale, heights(roomy)) == (10, {FIGURES})
    assert (tight.scale, heights(tight)) == (10, {SMALL})
    assert (tighter.scale, heights(tighter)) == (20, {FIGURES})
    assert pytest.approx(2**0.5, rel=0.02) == FIGURES / SMALL  # the row of ISO 3098-1


def test_small_figures_stand_as_near_as_they_may() -> None:
    """Two values 4 mm apart at 1 : 10 are moved apart to 1.5 times the height of the figures."""
    for height, scene in ((FIGURES, wide_drawing(10)), (SMALL, small_figures(wide_drawing(10)))):
        (shape,) = [one for one in scene.shapes if isinstance(one, Running)]
        low, high = (mark.text_at for mark in shape.marks[1:])
        assert high - low == pytest.approx(1.5 * height * 10)
