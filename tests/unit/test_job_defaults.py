"""Everything but items and one case size has a default, in both units, and what is said wins."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from solver.intake.load import load
from solver.job.assumed import default_sheets
from solver.job.defaults import DEFAULTS, table_defaults
from solver.job.job import Job
from solver.units import Unit, inches, mm, parse_length, parse_mass
from tests.builders import make_job

UNITS: list[Unit] = ["in", "mm"]
SIZES = {"in": ("30", "60"), "mm": ("750", "1500")}


def bare(unit: Unit, **tables: Any) -> Job:
    """Make a job that says nothing but one case size and one thing."""
    width, height = SIZES[unit]
    case = {"width": width, "height": height, **tables.pop("case", {})}
    thing = {"name": "jug", "width": "100 mm", "height": "100 mm", "depth": "100 mm"}
    data = {"job": {"unit": unit}, "case": [case], "item": [thing], **tables}
    return load(data, unit)


@pytest.mark.parametrize("unit", UNITS)
def test_things_and_one_case_size_are_enough(unit: Unit) -> None:
    job = bare(unit)
    (case,) = job.cases
    assert case.name == "case"
    assert case.shelf_counts == (2, 3, 4, 5, 6)
    assert case.depth is None
    assert [sheet.material for sheet in job.sheets] == [case.material, case.back]


@pytest.mark.parametrize("unit", UNITS)
def test_every_default_of_the_table_is_what_a_bare_job_gets(unit: Unit) -> None:
    place = {"name": "door", "widths": ["800 mm"], "heights": ["2 m"]}
    trim: dict[str, Any] = {"case": {"trim": {}, "light": {}}, "finish": {}}
    job = bare(unit, doorway=[place], **trim)
    tables = {"job": job.head, "case": job.cases[0], "look": job.look, "shop": job.shop}
    tables["site"] = job.ground
    assert job.cases[0].trim is not None
    tables["doorway"], tables["case.trim"] = job.doorways[0], job.cases[0].trim
    assert job.cases[0].light is not None
    tables["case.light"] = job.cases[0].light
    tables["finish"], tables["price"] = job.finished, job.terms
    for default in DEFAULTS:
        got, wanted = getattr(tables[default.table], default.key), default.value(unit)
        if isinstance(wanted, dict):
            assert got.model_dump() == wanted
        elif default.key == "stages" and default.table == "price":
            assert [one.model_dump() for one in got] == list(wanted)
        elif default.key == "abuse_load":
            assert got == parse_mass(wanted, unit)
        elif isinstance(got, int) and isinstance(wanted, str):
            assert got == parse_length(wanted, unit), default.key
        elif isinstance(got, tuple) and isinstance(got[0], int):
            assert got == tuple(parse_length(one, unit) for one in wanted), default.key
        else:
            assert got == wanted, default.key


def test_inch_defaults_are_trade_sizes_and_metric_ones_are_not_converted() -> None:
    assert bare("in").shop.kerf == inches("1/8")
    assert bare("mm").shop.kerf == mm(3)
    assert bare("in").cases[0].pin_pitch == bare("mm").cases[0].pin_pitch == mm(32)


def test_every_default_has_a_meaning_and_a_source() -> None:
    assert all(default.meaning and default.source for default in DEFAULTS)
    keys = [(default.table, default.key) for default in DEFAULTS]
    assert len(keys) == len(set(keys))


def test_what_the_job_says_wins_over_the_default() -> None:
    job = bare("in", look={"headroom": "2"}, shop={"stages": 2}, case={"shelves": 3})
    assert job.look.headroom == inches(2)
    assert job.look.gap == parse_length(table_defaults("look", "in")["gap"], "in")
    assert job.shop.stages == "2"
    assert job.cases[0].shelf_counts == (3,)


def test_the_back_is_taken_from_a_thin_sheet_and_the_boards_from_a_thick_one() -> None:
    thin, thick = default_sheets("in")[1], default_sheets("in")[0]
    job = bare("in", sheet=[thin, thick])
    assert job.cases[0].material == thick["material"]
    assert job.cases[0].back == thin["material"]


def test_a_back_sheet_is_added_only_where_a_case_needs_one() -> None:
    thick = default_sheets("in")[0]
    assert len(bare("in", sheet=[thick]).sheets) == 2
    assert len(bare("in", sheet=[thick], case={"back": "none"}).sheets) == 1


@pytest.mark.parametrize(
    ("case", "said"),
    [
        ({"depth": "1/4"}, "less than 20 mm is left inside"),
        ({"depth": {"least": "1/2", "most": "9"}}, "less than 20 mm is left inside"),
        ({"width": "2"}, "bays of less than 20 mm"),
        ({"height": "2"}, "the boards leave less than 20 mm"),
        ({"uprights": 19, "width": "20"}, "bays of less than 20 mm"),
        ({"material": "gold"}, "is not in the job; allowed: 'plywood 1/4', 'plywood 3/4'"),
        ({"beside": "case"}, "is not in the job; allowed: none is listed"),
        ({"lip": {"moulding": "bead", "above": "1/2"}}, "allowed: none is listed"),
    ],
)
def test_a_case_that_cannot_be_built_is_refused(case: dict[str, Any], said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        bare("in", case=case)


def test_an_inside_depth_needs_no_room_for_the_back() -> None:
    assert bare("in", case={"depth": "1", "sizes": "inside"}).cases[0].depth == inches(1)


def test_the_hash_of_a_job_changes_with_what_is_said_and_not_with_how() -> None:
    assert bare("in").hash == bare("in", look={"headroom": "1"}).hash
    assert bare("in").hash == bare("in", look={"headroom": 1.0}).hash
    assert bare("in").hash != bare("in", look={"headroom": "2"}).hash


PINS = {"fixing": "pins"}


@pytest.mark.parametrize(
    ("cases", "look", "rhythm"),
    [
        ([{}], {}, "steady"),
        ([PINS], {}, "even"),  # the client will move them
        ([PINS, PINS], {}, "even"),
        ([PINS, {}], {}, "steady"),
        ([PINS], {"rhythm": "steady"}, "steady"),
    ],
)
def test_the_rhythm_is_even_where_every_case_stands_on_pins(
    cases: list[dict[str, Any]], look: dict[str, Any], rhythm: str
) -> None:
    named = [{**case, "name": f"case {at}"} for at, case in enumerate(cases)]
    assert make_job(case=named, look=look).look.rhythm == rhythm


def test_the_tallest_opening_is_wished_low_and_rows_like_mirror_images() -> None:
    look = make_job().look
    assert (look.tallest, look.steepest, look.shelf_style) == ("low", None, "mirrored")
