"""The shop's drawings: marking out with fasteners and hinges, and the trim."""

from __future__ import annotations

import pytest

from cli.drawings.drawing_kinds import Subject, scenes
from cli.drawings.front_elevation import joint_elevation, neighbours
from cli.drawings.keys import key_marks
from cli.drawings.marking_drawing import back_marking, marking
from cli.drawings.marks import HingeMark, MarkedFace, MetBoard, marked_faces
from cli.drawings.scene import Scene
from cli.drawings.shapes import Arc, Path, Running
from cli.drawings.trim_elevation import trim_elevation, trim_rows
from solver.carcass.boards_of_case import lip_sizes
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.strength.hang_sheet import hanging_of
from solver.trim.trim_sets import trim_sets
from solver.units import inches, mm, to_mm
from tests.mutations_swing import hung
from tests.sample_plans import good_plan
from tests.trims import EVERY, trim_job


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


@pytest.fixture(scope="module")
def cased() -> Plan:
    kind, trim = EVERY["hung, plain"]
    return plan_job(trim_job(kind, trim), Limits(seconds=20), near=False)


def paths(scene: Scene, layer: str) -> list[Path]:
    return [one for one in scene.shapes if isinstance(one, Path) and one.layer == layer]


def values(scene: Scene, axis: str) -> set[int]:
    runs = [one for one in scene.shapes if isinstance(one, Running) and one.axis == axis]
    return {mark.value for run in runs for mark in run.marks}


def test_both_sides_of_every_board_are_marked_and_told(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    for face in marked_faces(plan, plan.options[0], case):
        scene = marking(case.name, face, plan.unit, 10)
        lines = {points[0][1] for points in (one.points for one in paths(scene, "mark"))}
        for board in face.boards:
            assert {to_mm(board.underside), to_mm(board.top)} <= lines
            assert {board.underside, board.top} <= values(scene, "y")


def test_marks_are_those_of_the_plan(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    faces = {face.name: face for face in marked_faces(plan, plan.options[0], case)}

    for name, bay in (("left side", case.bays[0]), ("right side", case.bays[-1])):
        shelves = [board for board in faces[name].boards if board.part == "shelf"]
        assert [(one.underside, one.top) for one in shelves] == [
            (shelf.underside, shelf.top) for shelf in bay.shelves
        ]
        lip = lip_sizes(plan.job, plan.job.case(case.name))[0]
        assert all(one.front == lip for one in shelves)


def test_fasteners_are_dots_at_their_distance_from_the_front() -> None:
    board = MetBoard("top", "top", inches(10), inches("10-3/4"), True, (inches(1), inches(4)))
    for front_left, wished in ((True, [1, 4]), (False, [6 - 1, 6 - 4])):
        face = MarkedFace("side", "foot", inches("10-3/4"), inches(6), front_left, (board,))
        dots = [one for one in marking("x", face, "in", 4).shapes if isinstance(one, Arc)]
        assert [one.centre[0] for one in dots] == [pytest.approx(25.4 * at) for at in wished]
        assert all(one.centre[1] == pytest.approx(25.4 * 10.375) for one in dots)


def test_hinge_mortises_are_at_the_edge_that_the_pin_is_on() -> None:
    hinge = HingeMark(1, inches(2), inches("6-1/2"), old=False)
    for in_front, left in ((True, 0.0), (False, 5 * 25.4)):
        face = MarkedFace("side", "foot", inches(20), inches(6), True, (), (hinge,), in_front)
        (mortise,) = paths(marking("x", face, "in", 4), "hidden")
        assert min(x for x, _ in mortise.points) == pytest.approx(left)
        assert {y for _, y in mortise.points} == {2 * 25.4, 6.5 * 25.4}


def test_hinges_of_the_hanging_sheet_are_marked_on_the_hinge_side_only(plan: Plan) -> None:
    hanging = hung(plan)
    option = hanging.options[0]
    case = option.cases[0]
    sheet = hanging_of(hanging.job, option).of(case.name)

    faces = {face.name: face for face in marked_faces(hanging, option, case)}

    assert faces["right side"].hinges == ()
    tops = [case.outside.height - one.from_top for one in sheet.hinges]
    assert sheet.hinge is not None
    assert sorted(one.high for one in faces["left side"].hinges) == sorted(tops)
    assert all(one.high - one.low == sheet.hinge.leaf for one in faces["left side"].hinges)
    assert faces["left side"].hinges_in_front  # it swings out: the pin is at the front


def test_every_piece_of_casing_is_drawn_at_its_place_and_listed(cased: Plan) -> None:
    plan, option = cased, cased.options[0]
    (trim,) = trim_sets(plan.job, option)

    scene = trim_elevation(plan.job, option, option.cases[0], trim, 12)

    assert scene is not None
    placed = [piece for piece in trim.pieces if piece.x is not None]
    drawn = paths(scene, "trim")
    assert len(drawn) == len(placed) > 2
    for piece, one in zip(placed, drawn, strict=True):
        xs, ys = zip(*one.points, strict=True)
        assert piece.x is not None
        assert piece.y is not None
        long = max(max(xs) - min(xs), max(ys) - min(ys))
        assert (min(xs), min(ys)) == (to_mm(piece.x), pytest.approx(to_mm(piece.y)))
        assert long == pytest.approx(to_mm(max(piece.length, piece.width)))
    assert len(trim_rows(trim, plan.unit)) == len(trim.pieces)


def test_mitred_pieces_meet_at_their_corners(cased: Plan) -> None:
    plan = cased
    (trim,) = trim_sets(plan.job, plan.options[0])
    scene = trim_elevation(plan.job, plan.options[0], plan.options[0].cases[0], trim, 12)
    assert scene is not None

    left, right, head = (set(one.points) for one in paths(scene, "trim"))

    for leg, sign in ((left, 1), (right, -1)):
        outer, inner = sorted(leg, key=lambda at: -at[1])[:2]
        # 45 degrees: as far across as down
        assert sign * (inner[0] - outer[0]) == pytest.approx(outer[1] - inner[1])
    assert len(head) == 4


def test_trim_without_a_place_has_no_elevation(plan: Plan) -> None:
    assert scenes(Subject(plan, plan.options[0], "a4", {}), ("trim",)) == []


def test_the_back_is_marked_from_behind_on_the_middle_of_each_board(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    inset = plan.job.case(case.name).back_inset

    scene = back_marking(plan, plan.options[0], case, 10)

    (outline, *_) = paths(scene, "outline")
    wide, high = case.outside.width - inset, case.outside.height - inset
    assert outline.points[2] == (to_mm(wide), to_mm(high))
    ups, across = values(scene, "y"), values(scene, "x")
    for bay in case.bays:
        for shelf in bay.shelves:
            assert (shelf.underside + shelf.top) // 2 - inset // 2 in ups
    first = case.bays[0].x // 2  # the middle of the left side, from behind on the right
    assert wide - (first - inset // 2) in across
    for path in paths(scene, "fixing"):
        assert all(0 <= x <= to_mm(wide) and 0 <= y <= to_mm(high) for x, y in path.points)


def test_neighbours_are_drawn_side_by_side_on_one_floor(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    other = case.model_copy(update={"name": "other", "above_floor": mm(50)})
    ordered = plan.job.case(case.name)
    cases = (ordered, ordered.model_copy(update={"name": "other", "beside": case.name}))
    job = plan.job.model_copy(update={"cases": cases})

    (group,) = neighbours(job, [case, other])
    scene = joint_elevation(group, plan.unit, 20, key_marks(job), {})

    rights = [max(x for x, _ in one.points) for one in paths(scene, "outline")]
    assert max(rights) == pytest.approx(2 * to_mm(case.outside.width))
    tops = {case.above_floor + case.outside.height, mm(50) + case.outside.height}
    assert tops <= values(scene, "y")
    assert neighbours(plan.job, [case]) == []


def test_marks_on_an_upright_are_from_its_own_lower_end(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    dado = plan.job.case(case.name).dado_depth
    faces = {face.name: face for face in marked_faces(plan, plan.options[0], case)}

    for name, bay in zip(("left", "right"), case.bays, strict=True):
        face = faces[f"upright 1, {name} face"]
        foot = bay.openings[0].floor - dado
        assert face.height == bay.inside.height + 2 * dado
        assert [(one.underside + foot, one.top + foot) for one in face.boards] == [
            (shelf.underside, shelf.top) for shelf in bay.shelves
        ]
