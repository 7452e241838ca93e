"""What --hold, --thickness and things in words are read as, and what is said of a misprint."""

from __future__ import annotations

from typing import Any

import pytest

from cli.files.hold_option import hold_text, kind_and_count, with_holds
from cli.run.start_from_plan import measured_thicknesses
from solver.errors import InputError
from solver.job.case import SHELVES_MOST
from solver.job.job import Job
from solver.units import inches, mm
from tests.builders import make_job

CLOCK = {"name": "mantel clock", "width": "9", "height": "12", "depth": "5", "count": 3}
JUG = {"name": "4 x 4 jug", "width": "4", "height": "9", "depth": "4"}


def job_of(*, bays: int = 1, cases: int = 1, **tables: Any) -> Job:
    names = [{"name": f"case {n}" if n else "alcove", "uprights": bays - 1} for n in range(cases)]
    return make_job(case=names, items=[CLOCK, JUG], **tables)


@pytest.mark.parametrize(
    ("text", "bays", "expected"),
    [
        ("alcove:shelf2=31-1/2", 1, ("alcove", None, 2, inches("31-1/2"))),
        ("shelf2=31-1/2", 1, ("alcove", None, 2, inches("31-1/2"))),
        ("alcove: Shelf 2 = 31 1/2 in", 1, ("alcove", None, 2, inches("31-1/2"))),
        ("alcove/2:shelf3=800.1mm", 2, ("alcove", 2, 3, inches("31-1/2"))),
    ],
)
def test_a_shelf_is_held_at_the_mark_that_is_written(
    text: str, bays: int, expected: tuple[object, ...]
) -> None:
    (hold,) = with_holds(job_of(bays=bays), [text]).holds
    assert (hold.case, hold.bay, hold.shelf, hold.mark) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("mantel clock=opening 3", ("mantel clock", None, None, 3)),
        ("Mantel Clock = Opening3", ("mantel clock", None, None, 3)),
        ("2 x mantel clock=alcove:opening 0", ("mantel clock", 2, "alcove", 0)),
        ("4 x 4 jug=opening 1", ("4 x 4 jug", None, None, 1)),  # its name begins with a number
    ],
)
def test_things_are_held_in_the_opening_that_is_written(
    text: str, expected: tuple[object, ...]
) -> None:
    (hold,) = with_holds(job_of(), [text]).holds
    assert (hold.item, hold.count, hold.case, hold.opening) == expected


def test_the_command_line_outweighs_the_file_about_the_same_shelf_and_comes_last() -> None:
    held = [
        {"case": "alcove", "shelf": 2, "mark": "30"},
        {"item": "mantel clock", "opening": 1},
    ]
    holds = with_holds(job_of(hold=held), ["shelf2=31"]).holds
    assert [hold.item for hold in holds] == ["mantel clock", None]
    assert holds[1].mark == inches(31)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("shelf2", "forms that work"),
        ("shelf2=", "forms that work"),
        ("shelf=31", "forms that work"),
        ("shelf2=high", "is not a length"),
        ("attic:shelf2=31", "'attic' is not in the job; allowed: 'alcove'"),
        ("shelf9=31", "at most 3 shelves"),
        ("alcove/2:shelf1=9", "has bays 1 to 1"),
        ("mantle clock=opening 1", "did you mean 'mantel clock'?"),
        ("mantel clock=opening 9", "the highest there can be is opening 3"),
        ("4 x mantel clock=opening 1", "there are 3 of 'mantel clock'"),
        ("shelf0=31", "shelf 0 is given; allowed: a whole number from 1 to"),
        ("shelf1=0", "mark 0 is given; allowed: a length above 0"),
        ("shelf31=31", f"allowed: a whole number from 1 to {SHELVES_MOST}"),
        ("shelf30=31", "at most 3 shelves"),  # the highest number there can be
        ("alcove/0:shelf1=9", "bay 0 is given; allowed: a whole number from 1"),
        ("mantel clock=opening 31", f"allowed: a whole number from 0 to {SHELVES_MOST}"),
        ("mantel clock=opening 30", "the highest there can be is opening 3"),
        ("0 x mantel clock=opening 1", "count 0 is given; allowed: a whole number from 1"),
        ("shelf1=10.01", "the nearest are 10 in and 10-1/16 in"),
    ],
)
def test_what_cannot_be_held_at_all_is_said_with_what_is_allowed(text: str, said: str) -> None:
    job = job_of(job={"marking_step": "1/16 in"})
    with pytest.raises(InputError, match="--hold") as error:
        with_holds(job, [text])
    assert said in str(error.value)


def test_with_several_cases_or_bays_it_must_be_said_which_is_meant() -> None:
    with pytest.raises(InputError, match="say of which case"):
        with_holds(job_of(cases=2), ["shelf1=10"])
    with pytest.raises(InputError, match="say in which of its bays"):
        with_holds(job_of(bays=2), ["alcove:shelf1=10"])


def test_the_same_shelf_is_held_once() -> None:
    with pytest.raises(InputError, match="held twice"):
        with_holds(job_of(), ["shelf1=10", "alcove:shelf1=11"])


def test_marks_on_pins_are_held_on_holes() -> None:
    pins = {"name": "alcove", "fixing": "pins", "pin_pitch": "32 mm", "first_hole": "96 mm"}
    job = make_job(case=pins, items=[CLOCK])
    (hold,) = with_holds(job, ["shelf1=416 mm"]).holds  # 96 + 10 x 32
    assert hold.mark == mm(416)
    with pytest.raises(InputError, match="pin holes are"):
        with_holds(job, ["shelf1=417 mm"])


def test_a_thickness_without_a_name_is_that_of_the_boards() -> None:
    assert measured_thicknesses(job_of(), ["0.703"]) == {"plywood 3/4": inches("0.703")}
    named = measured_thicknesses(job_of(), ["plywood 1/4=5.5 mm", "plywood 3/4 = 18.1 mm"])
    assert named == {"plywood 1/4": mm("5.5"), "plywood 3/4": mm("18.1")}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["oak=0.7"], "'oak' is no material of the job; allowed: 'plywood 3/4', 'plywood 1/4'"),
        (["0.7", "plywood 3/4=0.71"], "given twice"),
        (["thick"], "is not a length"),
        (["0"], "some thickness"),
    ],
)
def test_a_thickness_that_makes_no_sense_is_refused(words: list[str], said: str) -> None:
    with pytest.raises(InputError) as error:
        measured_thicknesses(job_of(), words)
    assert said in str(error.value)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("mantel clock", ("mantel clock", None)),
        ("2 x Mantel Clock", ("mantel clock", 2)),
        ("2 × mantel clock", ("mantel clock", 2)),
        ("4 x 4 jug", ("4 x 4 jug", None)),
        ("2 x vase 6x12x6", (None, None)),
    ],
)
def test_some_of_a_kind_are_a_number_and_its_name(
    text: str, expected: tuple[str | None, int | None]
) -> None:
    assert kind_and_count(text, {"mantel clock", "4 x 4 jug"}) == expected


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("alcove/1:shelf2=31-1/2", "1/2"),
        ("alcove/1:shelf2=31-3/4", "1/4"),
        ("alcove/2:shelf3=10.003125 mm", "10.003125 mm"),  # as printed, 13/32−, it is not exact
        ("mantel clock=opening 3", "1/16"),
        ("2 x mantel clock=alcove/2:opening 0", "1/16"),
        ("4 x 4 jug=opening 1", "1/16"),
    ],
)
def test_a_hold_is_written_as_it_is_read(text: str, step: str) -> None:
    job = job_of(bays=2, job={"marking_step": step})
    (hold,) = with_holds(job, [text]).holds
    assert hold_text(hold, job.unit) == text


@pytest.mark.parametrize(
    ("text", "bays", "expected"),
    [
        ("alcove:opening 3=empty", 1, ("alcove", None, 3)),
        ("Opening3 = Empty", 1, ("alcove", None, 3)),
        ("alcove/2:opening 0=empty", 2, ("alcove", 2, 0)),
    ],
)
def test_an_opening_is_held_empty(text: str, bays: int, expected: tuple[object, ...]) -> None:
    (hold,) = with_holds(job_of(bays=bays), [text]).holds
    assert (hold.case, hold.bay, hold.opening) == expected
    assert hold.empty is True


@pytest.mark.parametrize(
    "text", ["mantel clock=opening 3 place 2", "mantel clock=opening3, Place 2"]
)
def test_one_of_a_kind_is_held_to_a_place_in_its_row(text: str) -> None:
    (hold,) = with_holds(job_of(), [text]).holds
    assert (hold.item, hold.opening, hold.place, hold.count) == ("mantel clock", 3, 2, 1)


@pytest.mark.parametrize(
    "text",
    [
        "alcove:opening 3=empty",
        "1 x mantel clock=opening 3 place 2",
        "2 x mantel clock=alcove:opening 0 place 1",
    ],
)
def test_what_is_written_of_a_hold_is_read_as_the_same(text: str) -> None:
    (hold,) = with_holds(job_of(), [text]).holds
    assert hold_text(hold, "in") == text
    assert with_holds(job_of(), [hold_text(hold, "in")]).holds == (hold,)


def test_holds_of_places_are_told_in_words() -> None:
    holds = with_holds(job_of(), ["opening 3=empty", "2 x mantel clock=opening 2 place 1"]).holds
    assert [hold.text("in") for hold in holds] == [
        "alcove: opening 3 left empty",
        "2 x mantel clock in opening 2, place 1",
    ]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["alcove:opening 9=empty"], "the highest there can be is opening 3"),
        (["mantel clock=opening 1 place 0"], "place 0 is given; allowed: a whole number from 1"),
        (["alcove:opening 1 place 2=empty"], "is not understood"),
        (
            ["mantel clock=opening 1 place 1", "4 x 4 jug=opening 1 place 1"],
            "mantel clock is held there; give another place",
        ),
    ],
)
def test_a_place_that_cannot_be_is_refused(words: list[str], told: str) -> None:
    with pytest.raises(InputError, match=told):
        with_holds(job_of(), words)


def test_of_several_bays_the_one_with_the_empty_place_is_named() -> None:
    with pytest.raises(InputError, match="say in which of its bays, such as alcove/1"):
        with_holds(job_of(bays=2), ["alcove:opening 1=empty"])


def test_of_several_cases_the_one_with_the_empty_place_is_named() -> None:
    with pytest.raises(InputError, match="say of which case, such as alcove:opening1"):
        with_holds(job_of(cases=2), ["opening 1=empty"])
