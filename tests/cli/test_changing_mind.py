"""`plan --hold`, `remark` and `whatif` as whole commands: files, tables, exit codes, bad input."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from solver.checking.check import check
from solver.plan.plan import Plan
from solver.units import TICKS_PER_INCH

JOB = """
[job]
unit = "in"
title = "hall"
[[case]]
name = "hall"
sizes = "outside"
width = 22
height = 22
depth = 9
shelves = 1
back = "none"
[look]
headroom = 0
gap = 0
end_margin = 0
clear_least = 2
[[sheet]]
name = "ply"
material = "ply"
length = 96
width = 48
thickness = 1
price = 60
[[item]]
name = "urn"
width = 10
height = 12
depth = 5
weight = "1 lb"
[[item]]
name = "cup"
width = 5
height = 6
depth = 5
weight = "1 lb"
"""
LAST = Path("hall.last-plan.json")


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("hall.toml").write_text(JOB)


def run(*words: str, code: int = 0) -> Result:
    result = CliRunner().invoke(app, list(words))
    assert result.exit_code == code, result.output
    return result


def last() -> Plan:
    return Plan.model_validate_json(LAST.read_text("utf-8"))


def mark(plan: Plan) -> int:
    return plan.options[0].cases[0].bays[0].shelves[0].underside


def test_a_plan_is_kept_beside_the_job_and_a_hold_starts_from_it() -> None:
    run("plan", "hall.toml", "--quiet")
    before = last()
    result = run("plan", "hall.toml", "--hold", "shelf1=14")
    assert "1 of 1 shelf moved" in result.output
    assert "Before and now" in result.output
    after = last()
    assert mark(after) == 14 * 8128 != mark(before)
    assert after.comparison is not None
    assert after.comparison.job_hash == before.job_hash
    assert check(after) == ()


def test_a_plan_is_not_kept_where_that_is_not_wanted() -> None:
    run("plan", "hall.toml", "--quiet", "--no-keep")
    assert not LAST.exists()


def test_without_a_last_plan_a_hold_is_planned_from_nothing() -> None:
    run("plan", "hall.toml", "--quiet", "--hold", "shelf1=14")
    assert mark(last()) == 14 * 8128
    assert last().comparison is None


def test_anew_everything_else_may_move_and_is_compared_with_the_last_plan() -> None:
    """Openings above and below mirror each other; one shelf moved by 1 in alone undoes that."""
    look = 'rhythm = "symmetric"\nheadroom = 0'
    three = JOB.replace("shelves = 1", "shelves = 2").replace("height = 12", "height = 5")
    Path("hall.toml").write_text(three.replace("headroom = 0", look))
    run("plan", "hall.toml")
    held = f"hall:shelf1={mark(last()) / TICKS_PER_INCH - 1}"

    least = run("plan", "hall.toml", "--no-keep", "--hold", held, "--json", "least.json")
    run("plan", "hall.toml", "--no-keep", "--hold", held, "--anew", "--json", "free.json")

    kept, anew = (
        Plan.model_validate_json(Path(file).read_text()) for file in ("least.json", "free.json")
    )
    assert kept.comparison is not None
    assert anew.comparison is not None
    assert kept.comparison.before == anew.comparison.before
    assert [one.shelf for one in kept.comparison.marks] == [1]
    assert [one.shelf for one in anew.comparison.marks] == [1, 2]
    before, after = kept.comparison.before.steps_range, kept.comparison.after.steps_range
    assert before is not None
    assert after is not None
    assert after > before
    assert "with --anew everything" in " ".join(least.stdout.split())
    assert check(anew) == ()


def test_anew_without_a_plan_before_ends_with_2() -> None:
    done = run("plan", "hall.toml", "--anew", code=2)

    assert "there is none yet" in done.stderr


def test_what_cannot_be_held_says_why_ends_with_1_and_keeps_the_last_plan() -> None:
    run("plan", "hall.toml", "--quiet")
    kept = LAST.read_bytes()
    # The urn stands below a mark of 13 or above one of 8, and the cup beside it or opposite.
    result = run("plan", "hall.toml", "--hold", "shelf1=10", "--json", "no.json", code=1)
    assert "it collides with urn, 12 in high and 0 in headroom" in " ".join(result.output.split())
    assert "8 in below or 13 in above" in " ".join(result.output.split())
    assert LAST.read_bytes() == kept
    written: dict[str, Any] = json.loads(Path("no.json").read_text("utf-8"))
    collision = written["options"][0]["collision"]
    assert (collision["below"], collision["above"]) == (8 * 25.4, 13 * 25.4)
    assert collision["proven"] is True


def test_marks_and_parts_are_issued_again_from_the_measured_sheet() -> None:
    Path("hall.toml").write_text(
        JOB.replace("thickness = 1", 'thickness = { least = "3/4", most = 1 }')
    )
    drawn = run("plan", "hall.toml", "--full")
    assert "Parts that depend on the thickness" in drawn.output
    before = mark(last())
    result = run("plan", "hall.toml", "--thickness", "0.9")
    assert "ply is 0.900 in thick, not 1.000 in: no shelf moved" in result.output
    assert mark(last()) == before
    refused = run("plan", "hall.toml", "--thickness", "1.1", code=1)
    assert "out of the band planned for, 0.750 in to 1.000 in" in refused.output


def test_a_further_thing_stands_where_there_is_room_and_nothing_is_kept() -> None:
    run("plan", "hall.toml", "--quiet")
    kept = LAST.read_bytes()
    result = run("whatif", "hall.toml", "--add", "1 x cup", "--json", "what.json")
    assert "Yes, without moving anything. 1 x cup in opening" in result.output
    answer = json.loads(Path("what.json").read_text("utf-8"))
    assert (answer["schema"], answer["answer"]) == ("casewright/whatif/1", "as it stands")
    assert LAST.read_bytes() == kept


def test_things_that_fit_nowhere_need_a_further_case() -> None:
    run("plan", "hall.toml", "--quiet")
    result = run("whatif", "hall.toml", "--add", "9 x crate 10x12x5", code=1)
    assert "a further case" in result.output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("plan", "hall.toml", "--thickness", "0.9"), "there is no last plan of this job"),
        (
            ("plan", "hall.toml", "--thickness", "0.9", "--anew"),
            "--thickness: it measures the sheet of the last plan of a job file; --anew does not go",
        ),
        (
            ("plan", "hall.toml", "--thickness", "0.9", "--rhythm", "even"),
            "--rhythm does not go with it",
        ),
        (("whatif", "hall.toml", "--add", "1 x cup"), "there is no last plan of this job"),
        (("whatif", "hall.toml"), "nothing is asked"),
        (("plan", "hall.toml", "--option", "1 shelf"), "--option goes with --from"),
        (("plan", "hall.toml", "--from", "hall.toml"), "this is not JSON"),
        (("plan", "hall.toml", "--hold", "shelf7=3"), "at most 1 shelves"),
    ],
)
def test_bad_input_ends_with_2_and_says_what_to_do(words: tuple[str, ...], said: str) -> None:
    result = run(*words, code=2)
    assert said in " ".join(result.output.split())
    assert not LAST.exists()


def test_a_plan_of_another_job_is_not_started_from() -> None:
    run("plan", "hall.toml", "--quiet")
    Path("other.toml").write_text(JOB.replace('name = "hall"', 'name = "attic"'))
    result = run("plan", "other.toml", "--from", str(LAST), code=2)
    assert "the last plan is of other cases (hall) than the job (attic)" in result.output


def test_expected_things_get_a_place_of_their_own() -> None:
    Path("hall.toml").write_text(JOB.replace("gap = 0", 'gap = 0\nspare = ["1 x cup"]', 1))
    run("plan", "hall.toml", "--quiet")
    things = [
        thing.item
        for opening in last().options[0].cases[0].bays[0].openings
        for thing in opening.items
    ]
    assert sorted(things) == ["cup", "cup, expected", "urn"]


@pytest.mark.parametrize(
    ("added", "expected_left", "said"),
    [
        ("1 x cup", 1, "Room was kept for 1 of what is added."),
        ("3 x cup", 0, "Room was kept for 2 of what is added."),
        ("1 x mug 2x3x2", 2, None),
    ],
)
def test_what_was_expected_takes_the_room_kept_for_it_as_it_comes(
    added: str, expected_left: int, said: str | None
) -> None:
    Path("hall.toml").write_text(JOB.replace("gap = 0", 'gap = 0\nspare = ["2 x cup"]', 1))
    run("plan", "hall.toml", "--quiet")
    result = run("whatif", "hall.toml", "--add", added, "--json", "what.json")
    answer = json.loads(Path("what.json").read_text("utf-8"))
    counts = {item["name"]: item["count"] for item in answer["plan"]["job"]["item"]}

    assert counts.get("cup, expected", 0) == expected_left
    assert ("Room was kept" in result.output) == (said is not None)
    assert said is None or said in " ".join(result.output.split())
    assert answer["answer"] == "as it stands"
    run("verify", "what.json")
