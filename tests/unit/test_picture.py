"""Pictures in text: every thing is seen, and nothing is wider than there is room."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cli.screen.case_pictures import OTHER, picture_keys, pictures
from cli.screen.text_blocks import Grid, blocks
from solver.plan.built import Placement
from solver.plan.plan import Plan
from solver.units import mm
from tests.builders import make_job
from tests.sample_display import sample_plan
from tests.sample_plans import good_plan


def thing(
    x: int, width: int, height: int, *, row: int = 1, y: int = 0, on: int | None = None, no: int = 1
) -> Placement:
    """A thing, sizes in mm."""
    return Placement(
        item="jug",
        number=no,
        x=mm(x),
        y=mm(y),
        z=0,
        row=row,
        on=on,
        lying=False,
        width=mm(width),
        height=mm(height),
        depth=mm(10),
        headroom=0,
        mass=1,
    )


def grid(rows: int, columns: int) -> Grid:
    """A row stands for 20 mm, a column for 10 mm."""
    return Grid(rows, columns, mm(20), mm(10))


def drawn(things: list[Placement], cells: Grid) -> list[str]:
    """Rows from the top, each thing as its index."""
    found = blocks(things, cells)
    return [
        "".join(str(found.get((row, column), " ")) for column in range(cells.columns))
        for row in reversed(range(cells.rows))
    ]


def test_things_are_drawn_to_scale() -> None:
    things = [thing(10, 30, 60), thing(60, 20, 20)]

    assert drawn(things, grid(4, 9)) == ["         ", " 000     ", " 000     ", " 000  11 "]


def test_a_thing_smaller_than_a_cell_takes_one() -> None:
    assert drawn([thing(3, 2, 3)], grid(2, 3)) == ["   ", "0  "]


def test_things_that_rounding_lays_together_are_moved_apart() -> None:
    things = [thing(0, 2, 20), thing(3, 2, 20), thing(6, 2, 20)]

    assert drawn(things, grid(1, 3)) == ["012"]


def test_a_thing_behind_on_a_riser_looks_over_the_one_in_front() -> None:
    things = [thing(0, 30, 40), thing(0, 30, 40, row=2, y=20, no=2)]

    assert drawn(things, grid(4, 3)) == ["   ", "111", "000", "000"]


def test_a_thing_hidden_behind_another_still_gets_a_cell() -> None:
    things = [thing(0, 30, 40), thing(0, 30, 20, row=2, y=10, no=2)]

    assert "1" in "".join(drawn(things, grid(2, 3)))


def test_a_stack_stands_in_the_columns_of_its_lowest_thing() -> None:
    things = [thing(12, 26, 20), thing(12, 26, 20, y=20, on=1, no=2)]

    assert drawn(things, grid(3, 5)) == ["     ", " 111 ", " 000 "]


@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 100)), min_size=1, max_size=12),
    st.integers(1, 6),
    st.integers(12, 60),
)
def test_every_thing_gets_a_cell(sizes: list[tuple[int, int]], rows: int, columns: int) -> None:
    x, things = 0, []
    for number, (width, height) in enumerate(sizes, start=1):
        things.append(thing(x, width, height, no=number))
        x += width + 1

    cells = blocks(things, grid(rows, columns))

    assert set(cells.values()) == set(range(len(things)))
    assert all(0 <= row < rows and 0 <= column < columns for row, column in cells)


@pytest.mark.parametrize("width", [60, 80, 120, 200])
@pytest.mark.parametrize("plan", [sample_plan(), good_plan()], ids=["alcove", "two bays"])
def test_no_line_is_wider_than_the_room(plan: Plan, width: int) -> None:
    lines = pictures(plan, width)

    assert lines
    assert max(map(len, lines)) <= width


@pytest.mark.parametrize("plan", [sample_plan(), good_plan()], ids=["alcove", "two bays"])
def test_each_thing_has_its_letter_in_the_picture_of_its_option(plan: Plan) -> None:
    keys = picture_keys(plan)
    for option in plan.options[:2]:
        picture = "\n".join(pictures(plan.model_copy(update={"options": (option,)}), 100))
        drawing = picture.split("┌", 1)[1].split("┘", 1)[0]
        standing = [
            thing.item
            for case in option.cases
            for bay in case.bays
            for opening in bay.openings
            for thing in opening.items
        ]
        letters = [sign for sign in drawing if sign in keys.values()]
        in_word = {sign for sign in "toeplinth" if sign in keys.values()}

        assert standing
        for name in set(standing):
            if keys[name] not in in_word:
                assert letters.count(keys[name]) == standing.count(name), name


def test_two_options_stand_side_by_side_on_80_columns() -> None:
    top = next(line for line in pictures(sample_plan(), 80) if "┌" in line)

    assert top.count("┌") == 2


def test_without_line_signs_the_picture_is_plain_ascii() -> None:
    lines = pictures(good_plan(), 80, plain=True)

    assert "\n".join(lines).isascii()


def test_a_plan_without_a_layout_has_no_picture() -> None:
    plan = sample_plan()
    failed = plan.model_copy(update={"options": plan.options[2:]})

    assert pictures(failed, 80) == []


def test_kinds_beyond_the_letters_share_a_sign() -> None:
    items = [{"name": f"jug {n}", "width": 4, "height": 4, "depth": 4} for n in range(70)]
    plan = sample_plan().model_copy(update={"job": make_job(items=items)})

    keys = picture_keys(plan)

    assert len(keys) == 70
    assert list(keys.values()).count(OTHER) == 70 - (26 + 26 + 10)


def test_things_of_a_case_above_the_floor_hang_as_high() -> None:
    plan = sample_plan()
    option = plan.options[0]
    hung = option.cases[0].model_copy(update={"name": "hung", "above_floor": mm(600)})
    both = option.model_copy(update={"cases": (option.cases[0], hung)})

    lines = pictures(plan.model_copy(update={"options": (both,)}), 120)
    floor = max(i for i, line in enumerate(lines) if "└" in line)

    assert lines[floor].count("└") == 1
