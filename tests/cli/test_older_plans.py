"""A plan of another version is not called spoiled: what made it is said, and what to do."""

from __future__ import annotations

import json
from pathlib import Path
from shlex import quote
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from solver.outcome import program_version
from solver.rules_version import RULES
from tests.sample_plans import good_text

THIS = f"this is Casewright {program_version()}, rules {RULES}"
SPOILED = "this is not a good plan (cost.sheet-count:"
OLD = f"this plan was made by an older version (Casewright 0.1.0, rules 1; {THIS})"


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(*words: str, code: int) -> Result:
    result = CliRunner().invoke(app, list(words))
    assert result.exit_code == code, result.output
    return result


def saved(*, rules: int | None, wrong: bool = True, **keys: Any) -> str:
    """Write the worked plan with that number of rules, one count wrong, and more keys."""
    data = json.loads(good_text())
    data["rules"] = rules
    if rules is None:
        del data["rules"]
    if wrong:
        data["options"][0]["sheet_count"] += 1
    Path("hall.plan.json").write_text(json.dumps({**data, **keys}), encoding="utf-8")
    return "hall.plan.json"


@pytest.mark.parametrize("rules", [None, 1])
def test_a_plan_of_before_says_so_and_what_to_do(rules: int | None) -> None:
    said = run("price", saved(rules=rules), code=2).stderr
    assert OLD in said
    assert "refuse it (cost.sheet-count:" in said
    assert "Plan the job again: casewright plan JOB." in said
    assert "What the job file holds stays, and so do signed revisions." in said
    assert "not a good plan" not in said


def test_a_plan_of_this_version_that_is_wrong_is_no_good_plan() -> None:
    said = run("price", saved(rules=RULES), code=2).stderr
    assert SPOILED in said
    assert "version (" not in said


def test_a_plan_of_before_that_passes_is_used() -> None:
    assert "rules" not in run("verify", saved(rules=None, wrong=False), code=0).output


def test_verify_lists_the_findings_and_says_what_made_the_plan() -> None:
    said = run("verify", saved(rules=1), code=1).stderr
    assert "is not a good plan: 1 finding\n" in said
    assert f"It was made by an older version (Casewright 0.1.0, rules 1; {THIS})" in said
    assert "It was made" not in run("verify", saved(rules=RULES), code=1).stderr


def test_a_plan_of_a_later_version_with_unknown_keys_is_not_called_misshapen_only() -> None:
    said = run("price", saved(rules=RULES + 1, tint="red"), code=2).stderr
    assert f"this file was made by a newer version (Casewright 0.1.0, rules {RULES + 1};" in said
    assert "Read it with that version, or plan the job again with this one:" in said
    assert "  tint: Extra inputs are not permitted" in said
    said = run("price", saved(rules=RULES, tint="red"), code=2).stderr
    assert "version (" not in said
    assert "has not the form of a plan (casewright schema prints it):\n" in said


def test_what_was_held_in_it_comes_as_options_that_hold_the_same_again() -> None:
    job = json.loads(good_text())["job"]
    job["hold"] = [
        {"case": "hall", "bay": 2, "shelf": 1, "mark": 400},
        {"item": job["item"][0]["name"], "opening": 0},
    ]
    said = run("price", saved(rules=1, job=job), code=2).stderr
    things = quote(f"{job['item'][0]['name']}=opening 0")
    assert f"to be given again: --hold hall/2:shelf1=400 --hold {things}" in said


def test_the_kept_plan_of_a_job_names_the_job_to_plan_again() -> None:
    from tests.cli.test_changing_mind import JOB

    Path("hall.toml").write_text(JOB)
    saved(rules=1)
    Path("hall.plan.json").rename("hall.last-plan.json")
    said = run("plan", "hall.toml", "--hold", "shelf1=14", code=2).stderr
    assert "Plan the job again: casewright plan hall.toml." in said


def test_a_plan_with_the_scores_of_before_is_called_older() -> None:
    """Rules 4 had a score of rhythm, and stages of rhythm and headroom."""
    data = json.loads(good_text())
    scores = data["options"][0]["scores"]
    for key in ("places_parted", "steps_range", "steps_mean", "outline_missed"):
        del scores[key]
    data["options"][0]["scores"] = {"rhythm": 272, **scores}
    Path("hall.plan.json").write_text(json.dumps({**data, "rules": 4}), encoding="utf-8")

    said = run("price", "hall.plan.json", code=2).stderr

    assert "made by an older version (Casewright 0.1.0, rules 4;" in said
    assert "plan the job again" in said.lower()
