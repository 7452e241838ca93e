"""A thickness that is not measured yet: read, planned over, and measured."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from solver.carcass.thickness_band import as_measured, bands
from solver.checking.check import check
from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import remeasured_plan
from solver.units import caliper, mm
from tests.builders import make_job

WIDTH, HEIGHT = 750, 900
SHEET = {"name": "ply 18, 2440 x 1220", "material": "ply", "length": 2440, "width": 1220}
# Six side by side in each of the three openings: 6 x 100 + 5 x 10 + 2 x 10 = 670.
JUG = {"name": "jug", "width": 100, "height": 250, "depth": 100, "count": 18, "weight": "1 kg"}


def band_job(*, sizes: str = "outside", **tables: Any) -> Job:
    """One case with two shelves of boards between 17 and 19 mm."""
    sheet = {**SHEET, "thickness": {"least": 17, "most": 19}, "price": "60.00"}
    case = {
        "width": WIDTH,
        "height": HEIGHT,
        "depth": 150,
        "shelves": 2,
        "back": "none",
        "sizes": sizes,
    }
    look = {"headroom": 10, "gap": 10, "end_margin": 10, **tables.pop("look", {})}
    return make_job(unit="mm", case=case, items=[JUG], sheet=[sheet], look=look, **tables)


@pytest.fixture(scope="module")
def planned() -> Plan:
    return plan_job(band_job())


def test_a_band_is_planned_for_its_most() -> None:
    job = band_job()
    assert bands(job) == {"ply": (mm(17), mm(19))}
    assert job.thickness("ply") == mm(19)
    assert Job.model_validate_json(job.model_dump_json(by_alias=True)) == job


def test_a_measured_job_has_no_band_and_hashes_like_one_that_never_had() -> None:
    plain = make_job(
        unit="mm",
        case={
            "width": WIDTH,
            "height": HEIGHT,
            "depth": 150,
            "shelves": 2,
            "back": "none",
            "sizes": "outside",
        },
        items=[JUG],
        sheet=[{**SHEET, "thickness": 18, "price": "60.00"}],
        look={"headroom": 10, "gap": 10, "end_margin": 10},
    )
    assert band_job().measured({"ply": mm(18)}).hash == plain.hash


@pytest.mark.parametrize(
    "band", [{"least": 19, "most": 17}, {"least": 18, "most": 18}, {"most": 19}]
)
def test_a_band_needs_two_ends_in_order(band: dict[str, int]) -> None:
    with pytest.raises(ValidationError):
        make_job(unit="mm", items=[JUG], sheet=[{**SHEET, "thickness": band}])


def test_sheets_of_one_material_have_one_band() -> None:
    other = {**SHEET, "name": "another", "thickness": 19}
    with pytest.raises(ValidationError, match="must have one"):
        make_job(
            unit="mm",
            case={"back": "none"},
            items=[JUG],
            sheet=[{**SHEET, "thickness": {"least": 17, "most": 19}}, other],
        )


def test_the_plan_states_both_ends_and_the_parts_that_depend_on_the_thickness(
    planned: Plan,
) -> None:
    (option,) = planned.options
    band = option.band
    assert band is not None
    thin, thick = band.ends
    assert (thin.thickness, thick.thickness) == ({"ply": mm(17)}, {"ply": mm(19)})
    assert thin.headroom_least is not None
    assert thick.headroom_least is not None
    # With the marks kept the lower openings gain one board, the top one two.
    assert mm(2) <= thin.headroom_least - thick.headroom_least <= mm(4)
    sizes = {part.part: (part.length_least, part.length_most) for part in band.parts}
    across = mm(WIDTH - 2 * 19), mm(WIDTH - 2 * 17)
    assert sizes == {f"case/{name}": across for name in ("top", "bottom", "shelf-1", "shelf-2")}
    assert check(planned) == ()


def test_with_inside_sizes_it_is_the_outside_parts_that_depend_on_it() -> None:
    (option,) = plan_job(band_job(sizes="inside")).options
    assert option.band is not None
    sizes = {part.part: (part.length_least, part.length_most) for part in option.band.parts}
    high = mm(HEIGHT + 2 * 17), mm(HEIGHT + 2 * 19)
    assert sizes == {"case/side-left": high, "case/side-right": high}


@pytest.mark.parametrize("thick", ["17", "17.9", "18.55", "19"])
def test_any_thickness_of_the_band_leaves_every_mark_where_it_is(planned: Plan, thick: str) -> None:
    new = remeasured_plan(band_job(), planned, {"ply": mm(thick)})
    assert check(new) == ()
    assert new.comparison is not None
    assert new.comparison.marks == ()
    assert new.comparison.things == ()
    before, after = (
        [shelf.underside for shelf in plan.options[0].cases[0].bays[0].shelves]
        for plan in (planned, new)
    )
    assert before == after
    lengths = {part.id: part.length for part in new.options[0].parts}
    assert lengths["case/shelf-1"] == mm(WIDTH) - 2 * mm(thick)
    assert new.options[0].band is None


def test_boards_out_of_the_band_are_refused_with_what_then_collides(planned: Plan) -> None:
    job = band_job()
    with pytest.raises(CannotBeDoneError, match=r"19\.5 mm is out of the band") as near:
        remeasured_plan(job, planned, {"ply": mm("19.5")})
    assert "Everything would still fit" in str(near.value)
    # Three openings of 250 and 10 high need 780 of 900 less four boards: 30 mm each at most.
    with pytest.raises(CannotBeDoneError) as far:
        remeasured_plan(job, planned, {"ply": mm(40)})
    assert "lacks" in str(far.value)
    assert "for jug and its headroom" in str(far.value)


def test_without_a_band_a_measure_moves_only_what_it_must() -> None:
    # Boards of 30 mm leave 780 clear, just what the jugs need; of 20 mm, 820.
    job = band_job(job={"marking_step": 1}).measured({"ply": mm(20)})
    plan = plan_job(job)
    thicker = remeasured_plan(job, plan, {"ply": mm(30)})
    assert thicker.options[0].fits_all
    assert check(thicker) == ()
    heights = [o.height for o in thicker.options[0].cases[0].bays[0].openings]
    assert heights == [mm(260)] * 3


def test_planning_again_goes_on_from_the_measured_sheet(planned: Plan) -> None:
    job = band_job()
    new = remeasured_plan(job, planned, {"ply": mm(18)})
    assert as_measured(job, new).thickness("ply") == mm(18)
    assert as_measured(job, planned) == job


@pytest.mark.parametrize(
    ("ticks", "text"), [(mm("17.86"), "17.86 mm"), (mm(18), "18 mm"), (mm("18.5"), "18.5 mm")]
)
def test_calipers_show_hundredths_of_a_millimetre(ticks: int, text: str) -> None:
    assert caliper(ticks, "mm") == text


def test_calipers_show_thousandths_of_an_inch() -> None:
    assert caliper(round(0.703 * 8128), "in") == "0.703 in"
