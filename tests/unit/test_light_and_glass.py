"""Light and glass: lengths, driver, wire and heat; glass by the maker's table alone."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from pydantic import ValidationError

from solver.checking.check import check
from solver.costing.hardware import hardware_list
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.plan.trimming import CaseGlass, CaseLight, TrimSet
from solver.planning.plan_job import plan_job
from solver.trim.trim_sets import trim_sets
from solver.units import inches
from tests.edits import put
from tests.trims import trim_job


@cache
def option(kind: str) -> Option:
    """Planned once: neither light nor glass changes the plan."""
    return plan_job(trim_job(kind, {"set": "none"}), Limits(seconds=20)).options[0]


def made(kind: str, **case: Any) -> TrimSet:
    site = case.pop("site", {})
    (found,) = trim_sets(trim_job(kind, {"set": "none"}, case=case, site=site), option(kind))
    return found


def lit(kind: str, **light: Any) -> CaseLight:
    found = made(kind, light=light).light
    assert found is not None
    return found


def glazed(kind: str, site: dict[str, Any] | None = None, **glass: Any) -> CaseGlass:
    found = made(kind, glass=glass, site=site or {}).glass
    assert found is not None
    return found


def test_strips_under_two_shelves_and_the_top_and_the_driver_for_them() -> None:
    """Three of 30 - 2 x 23/32 - 1 in = 27-9/16; x 3 W a foot = 20.7 W; / 0.8 = 25.8: 30 W."""
    found = lit("standing", watts=3)
    length = inches(30) - 2 * inches("23/32") - inches(1)
    assert [run.length for run in found.runs] == [length] * 3
    watts = 3 * length / inches(12) * 3
    assert found.watts == round(watts, 1)
    assert found.driver_needed == pytest.approx(watts / 0.8, abs=0.1)
    assert (found.driver, found.enough) == (30, True)


def test_a_driver_that_is_too_small_is_not_enough() -> None:
    assert not lit("standing", watts=3, driver=25).enough
    assert lit("standing", watts=3, driver=26).enough


def test_the_wire_of_a_hung_case_crosses_at_its_hinges() -> None:
    hung, standing = " ".join(lit("hung").notes), " ".join(lit("standing").notes)
    assert "across at the hinge edge" in hung
    assert "hinge" not in standing
    assert "never walled in" in standing
    assert "licensed electrician" in hung


@pytest.mark.parametrize(("watts", "channel"), [(4.9, False), (5, True)])
def test_strong_strips_go_on_a_channel(watts: float, channel: bool) -> None:
    notes = " ".join(lit("standing", watts=watts, where="top").notes)
    assert ("metal channel" in notes) == channel


TABLE = [{"span": "24", "load": "60 lb"}, {"span": "30", "load": "20 lb"}]


def test_glass_shelves_are_held_to_the_next_longer_span_of_the_table() -> None:
    """28-9/16 in is over 24, so the 30 in line counts: 20 lb, and 1 lb stands there."""
    found = glazed("standing", shelves=True, table=TABLE)
    assert all(shelf.allowed == round(20 * 453.59237) and shelf.passed for shelf in found.shelves)
    assert found.good


def test_no_glass_shelf_is_passed_without_a_table_or_beyond_it() -> None:
    without = glazed("standing", shelves=True)
    assert not without.good
    assert "without the maker's load table" in " ".join(without.notes)
    short = glazed("standing", shelves=True, table=TABLE[:1])
    assert not any(shelf.passed for shelf in short.shelves)


@pytest.mark.parametrize(
    ("glass", "good"), [("ordinary", False), ("tempered", True), ("laminated", True)]
)
def test_a_glazed_case_in_a_doorway_is_a_door(glass: str, good: bool) -> None:
    found = glazed("hung", {"glass": glass}, front=True)
    assert found.good == good
    words = " ".join(found.notes)
    assert "works as a door" in words
    assert "local code" in words


def test_a_table_that_bears_more_over_a_longer_span_is_no_table() -> None:
    with pytest.raises(ValidationError, match="longer span bears more"):
        glazed("standing", shelves=True, table=[*TABLE, {"span": "36", "load": "25 lb"}])


def test_strips_channel_and_driver_are_bought() -> None:
    """Three strips, 5 W a foot: a channel as long, and a driver of the next usual size."""
    job = trim_job("standing", {"set": "none"}, case={"light": {"watts": 5}})
    found = {line.key: line for line in hardware_list(job, option("standing"))}
    length = 3 * (inches(30) - 2 * inches("23/32") - inches(1))
    assert found["light strip"].need == found["channel"].need == -(-length // 320)
    assert found["driver, 60 W"].need == 1


def test_glass_that_is_asked_for_is_cautioned_and_the_checker_wants_that() -> None:
    plan = plan_job(
        trim_job("standing", {"set": "none"}, case={"glass": {"front": True}}), Limits(seconds=20)
    )
    assert check(plan) == ()
    hanging = plan.options[0].hanging
    assert hanging is not None
    (told,) = (one for one in hanging.cautions if one.key == "glass")
    assert "Which glass is not said" in told.text
    without = [one for one in hanging.cautions if one.key != "glass"]
    silent = put(plan, "options.0.hanging.cautions", tuple(without))
    assert "caution on glass" in " ".join(str(finding) for finding in check(silent))
