"""One wish at a time: what a layout by hand comes to, and what its neighbour does."""

from __future__ import annotations

import pytest

from solver.layout import wishes
from solver.layout.constraints import tall_enough, width_at_each_level
from solver.layout.goal import Goal
from solver.layout.layout_problem import EmptyHeld
from solver.layout.stages import WISHES, trivial_floor
from solver.layout.variables import LayoutVariables
from tests.layout_models import all_placed, least, marks, mm, model, only, problem, row, thing

TWO = {"shelves": 2}
LEVELS = (tall_enough, width_at_each_level, wishes.levels_are_used)


@pytest.mark.parametrize(("keep", "expected"), [(0, 0), (1, 2 * 10_000), (2, 0)])
def test_what_is_left_out_counts_by_its_front_and_how_dear_it_is(keep: int, expected: int) -> None:
    # two of three jugs of 100 x 100 mm
    def two_left(v: LayoutVariables) -> None:
        v.model.add(v.left[0] == 2)

    asked = problem(thing(count=3))
    assert least(asked, lambda v: wishes.left_out(v, keep), two_left) == expected
    assert least(asked, wishes.all_left_out, two_left) == 2 * 10_000


@pytest.mark.parametrize(("counts", "expected"), [((3, 0, 0), 2), ((2, 1, 0), 1), ((1, 1, 1), 0)])
def test_openings_in_which_nothing_stands(counts: tuple[int, ...], expected: int) -> None:
    asked = problem(thing(count=3), case=TWO)
    assert least(asked, wishes.empty, row(*counts)) == expected


@pytest.mark.parametrize(("counts", "expected"), [((3, 0, 0), 1), ((1, 2, 0), 0), ((2, 0, 1), 1)])
def test_an_opening_kept_empty_is_none(counts: tuple[int, ...], expected: int) -> None:
    # the top one is; by rank it may be any of them
    asked = problem(thing(count=3), case=TWO, held=[EmptyHeld(0, 2)])
    assert least(asked, wishes.empty, row(*counts)) == expected
    ranked = max(0, counts.count(0) - 1)
    assert least(asked, wishes.empty, row(*counts), ranked=True) == ranked


@pytest.mark.parametrize(
    ("jugs", "cups", "expected"),
    [((3, 0), (3, 0), 1), ((3, 0), (2, 1), 0), ((2, 1), (2, 1), 1), ((2, 0), (2, 0), 0)],
)
def test_of_odd_kinds_one_stands_in_the_middle(
    jugs: tuple[int, ...], cups: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(count=3), thing("cup", count=3))
    assert least(asked, wishes.mirrored, row(*jugs), row(*cups, kind=1)) == expected


@pytest.mark.parametrize(("stack", "expected"), [(1, 0), (2, 1)])
def test_a_stack_is_one_place(stack: int, expected: int) -> None:
    # two cups beside each other are a pair, on each other they are one beside the jug
    asked = problem(thing("cup", count=2, stack=2), thing("jug"))
    form = asked.kinds[0].forms[1]

    def stacked(v: LayoutVariables) -> None:
        v.model.add(v.places(0, 0)[form] == stack - 1)

    assert form.things == 2
    assert least(asked, wishes.mirrored, row(2, 0), row(1, 0, kind=1), stacked) == expected


def test_more_odd_kinds_than_openings_miss_whatever_stands_where() -> None:
    asked = problem(*(thing(f"thing {n}") for n in range(4)))

    def floor_of(names: int) -> int:
        v = model(problem(*(thing(f"thing {n}") for n in range(names))), (), all_placed)
        v.all_placed = True
        return trivial_floor(v, "mirrored")

    assert floor_of(3) == 3 - 2
    assert floor_of(2) == 0
    assert least(asked, wishes.mirrored, *(row(n % 2, 1 - n % 2, kind=n) for n in range(4))) == 2


@pytest.mark.parametrize(
    ("jugs", "cups", "expected"),
    [
        ((3, 0, 0), (0, 2, 0), 0),
        ((2, 1, 0), (0, 2, 0), 1),
        ((1, 1, 1), (0, 2, 0), 2),
        ((2, 1, 0), (1, 0, 1), 2),
    ],
)
def test_openings_beyond_one_of_a_kind(
    jugs: tuple[int, ...], cups: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(count=3), thing("cup", count=2), case=TWO)
    assert least(asked, wishes.together, row(*jugs), row(*cups, kind=1)) == expected


@pytest.mark.parametrize("key", ["heading", "group"])
@pytest.mark.parametrize(("cup", "expected"), [((1, 0, 0), 0), ((0, 1, 0), 1), ((0, 0, 1), 1 + 1)])
def test_openings_beyond_one_of_a_heading_and_those_skipped(
    key: str, cup: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(**{key: "blue"}), thing("cup", **{key: "blue"}), case=TWO)
    assert least(asked, wishes.headings, row(1, 0, 0), row(*cup, kind=1)) == expected


@pytest.mark.parametrize(
    ("count", "counts", "expected"),
    [(3, (2, 1), 1), (3, (3, 0), 0), (2, (1, 1), 0), (4, (2, 2), 0), (3, (1, 0), 0)],
)
def test_one_thing_alone_while_others_of_its_kind_stand_elsewhere(
    count: int, counts: tuple[int, ...], expected: int
) -> None:
    def all_counted(v: LayoutVariables) -> None:
        v.model.add(v.left[0] == count - sum(counts))

    assert least(problem(thing(count=count)), wishes.alone, row(*counts), all_counted) == expected


@pytest.mark.parametrize(
    ("counts", "expected"),
    [((1, 0), 960 * 500), ((0, 1), 960 * 500 - 100 * 100), ((0, 4), 960 * 480)],
)
def test_the_largest_empty_front(counts: tuple[int, ...], expected: int) -> None:
    # openings of 480 and 500 mm, 960 wide
    assert least(problem(thing(count=4)), wishes.void, marks(500), row(*counts)) == expected


@pytest.mark.parametrize(
    ("jugs", "cups", "expected"),
    [((2, 0), (0, 1), 1), ((2, 0), (1, 0), 0), ((3, 0), (1, 0), 1), ((1, 1), (0, 1), 0)],
)
def test_things_of_a_kind_apart_have_something_between_them(
    jugs: tuple[int, ...], cups: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(count=3, apart=["jug"]), thing("cup"))
    assert least(asked, wishes.apart, row(*jugs), row(*cups, kind=1)) == expected


@pytest.mark.parametrize(
    ("cup", "urn", "expected"), [((1, 0), (0, 1), 1), ((1, 0), (1, 0), 0), ((0, 1), (0, 1), 0)]
)
def test_two_kinds_apart_have_another_between_them(
    cup: tuple[int, ...], urn: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(apart=["cup"]), thing("cup"), thing("urn"))
    extra = (row(1, 0), row(*cup, kind=1), row(*urn, kind=2))
    assert least(asked, wishes.apart, *extra) == expected


@pytest.mark.parametrize(
    ("height", "jugs", "expected"),
    [("250", (1, 1), 1 + 1), ("250", (2, 0), 0), ("250", (2, 1), 1), ("490", (1, 1), 0)],
)
def test_a_single_thing_in_an_opening_more_than_half_empty(
    height: str, jugs: tuple[int, ...], expected: int
) -> None:
    # openings of 490 x 960 mm: a jug 480 wide fills half of one where it is 490 high
    asked = problem(thing(width="480", height=height, count=3), gap="0")
    assert least(asked, wishes.lone, marks(510), row(*jugs)) == expected


@pytest.mark.parametrize(("counts", "expected"), [((4, 0), 400), ((3, 1), 300), ((2, 2), 200)])
def test_the_fullest_row(counts: tuple[int, ...], expected: int) -> None:
    assert least(problem(thing(count=4)), wishes.roomy, row(*counts)) == mm(expected)


@pytest.mark.parametrize(
    ("jugs", "expected"), [((2, 0), 2 * 100 * 200), ((1, 1), 100 * 200), ((0, 2), 0)]
)
def test_low_things_beside_tall_ones(jugs: tuple[int, ...], expected: int) -> None:
    asked = problem(thing(count=2), thing("urn", height="300"))
    found = least(asked, wishes.beside, row(*jugs), row(1, 0, kind=1), rules=LEVELS)
    assert found == expected


@pytest.mark.parametrize(
    ("jugs", "urn", "expected"),
    [
        ((1, 1), (0, 0), (500 - 100) - (480 - 100)),
        ((1, 1), (0, 1), (480 - 100) - (500 - 300)),
        ((2, 0), (1, 0), 0),  # an opening with nothing in it has no room over anything
    ],
)
def test_the_range_of_the_room_over_the_tallest(
    jugs: tuple[int, ...], urn: tuple[int, ...], expected: int
) -> None:
    asked = problem(thing(count=2), thing("urn", height="300"))
    extra = (marks(500), row(*jugs), row(*urn, kind=1))
    assert least(asked, wishes.air, *extra, rules=LEVELS) == mm(expected)


FLOORS = {(0, 0): mm(20), (0, 1): mm(520)}


@pytest.mark.parametrize(
    ("counts", "middles"), [((0, 1), [520 + 50]), ((1, 0), [20 + 50]), ((1, 1), [70, 570])]
)
def test_small_things_away_from_the_eye_line(counts: tuple[int, ...], middles: list[int]) -> None:
    # 8 in are 203.2 mm: a jug is 103.2 smaller; the eye is at 1000 mm
    asked = problem(thing(count=2), eye_level="1000")
    expected = sum(1032 * abs(middle - 1000) // 10 for middle in middles)
    found = least(asked, lambda v: wishes.sight(v, FLOORS), marks(500), row(*counts))
    assert abs(found - expected) <= 1  # rounded one by one here, together there


def test_things_of_eight_inches_are_not_small() -> None:
    asked = problem(thing(height="203.2"), eye_level="1000")
    assert least(asked, lambda v: wishes.sight(v, FLOORS), marks(500), row(0, 1)) == 0


@pytest.mark.parametrize(("eye", "expected"), [(569, 2 * 1000), (570, 0)])
def test_mass_above_the_eye_line(eye: int, expected: int) -> None:
    # the middles are at 520 + 50
    asked = problem(thing(count=3), eye_level=str(eye))
    assert least(asked, lambda v: wishes.heavy(v, FLOORS), marks(500), row(1, 2)) == expected


def _of_stacks(v: LayoutVariables) -> Goal:
    return wishes.heavy(v, FLOORS)


def test_each_thing_of_a_stack_has_its_own_middle() -> None:
    # 570 and 670: one of two is above 600
    asked = problem(thing(count=2, stack=2), eye_level="600")
    assert least(asked, _of_stacks, marks(500), row(0, 2), only(1, stack=2)) == 1000
    assert least(asked, _of_stacks, marks(500), row(0, 2), only(1)) == 0


def test_each_wish_of_the_engine_has_a_test_here_or_beside() -> None:
    """A new wish is to come with a two-sided test; its name is then put here."""
    assert set(WISHES) == {
        "apart", "asked", "empty", "mirrored", "headings", "together", "alone", "rises", "void",
        "roomy", "beside", "air", "symmetric", "to-fit",
    }  # fmt: skip
