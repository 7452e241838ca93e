"""`casewright verify` and `casewright schema`: what they print and how they end."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner, Result

from cli.commands.schema import schema
from cli.commands.verify import verify
from cli.main import guarded
from solver.outcome import Status
from solver.plan.plan import CutPlan, Timing
from tests.edits import in_option, more
from tests.sample_plans import FIXTURE, good_option, good_plan
from tests.two_bays_job import good_job

app = typer.Typer()
app.command("verify")(guarded(verify))
app.command("schema")(guarded(schema))


def run(*args: str, given: bytes | None = None) -> Result:
    return CliRunner().invoke(app, list(args), input=given)


def good_cut_plan() -> CutPlan:
    """The sheets of the good plan as if `casewright cut` had made them."""
    option = good_option()
    assert option.cost is not None
    cost = option.cost.model_copy(
        update={"mouldings": 0, "total": option.cost.sheets, "stock_bound": option.cost.sheets}
    )
    return CutPlan(
        unit="mm",
        status=Status.OPTIMAL,
        sheets=option.sheets,
        settings=option.settings,
        shop=good_job().shop,
        sheet_count=2,
        sheet_bound=2,
        cost=cost,
        parts=option.parts,
        timing=Timing(seconds=0.1),
    )


def write(folder: Path, text: str) -> str:
    path = folder / "plan.json"
    path.write_text(text, encoding="utf-8")
    return str(path)


def cut_text(plan: CutPlan) -> str:
    return json.dumps(plan.model_dump(mode="json", by_alias=True))


def test_a_good_plan_ends_with_0_and_says_what_was_checked() -> None:
    result = run("verify", str(FIXTURE))

    assert result.exit_code == 0
    assert result.stdout == (
        f"{FIXTURE}: good. Checked from the job inside it: 1 option, 1 case, 2 bays, 6 openings, "
        "18 things, 11 parts, 2 sheets, 2 sticks.\n"
        "Not checked: that nothing better exists, where the file says it is proven.\n"
    )


def test_a_plan_is_read_from_standard_input() -> None:
    result = run("verify", "-", given=FIXTURE.read_bytes())

    assert result.exit_code == 0
    assert result.stdout.startswith("standard input: good.")


def test_a_bad_plan_ends_with_1_and_lists_every_finding(tmp_path: Path) -> None:
    plan = in_option("cases.0.bays.1.x", more(1))(good_plan())
    plan = in_option("sheet_count", 3)(plan)

    result = run("verify", write(tmp_path, plan.to_json()))

    assert result.exit_code == 1
    assert result.stdout == ""
    assert "is not a good plan: 2 findings" in result.stderr
    assert (
        "  layout.bay-x: option '2 shelves', case 'hall', bay 2: x should be 636 mm, is 636+ mm"
    ) in result.stderr
    assert "  cost.sheet-count: option '2 shelves': sheet count should be 2, is 3" in result.stderr


def test_a_good_cut_plan_ends_with_0(tmp_path: Path) -> None:
    result = run("verify", write(tmp_path, cut_text(good_cut_plan())))

    assert result.exit_code == 0
    assert "good. Checked from itself: 11 parts, 2 sheets." in result.stdout


def test_a_bad_cut_plan_ends_with_1(tmp_path: Path) -> None:
    plan = good_cut_plan().model_copy(update={"sheet_count": 1, "sheet_bound": 1})

    result = run("verify", write(tmp_path, cut_text(plan)))

    assert result.exit_code == 1
    assert "cost.sheet-count: cut plan: sheet count should be 2, is 1" in result.stderr


def _changed(**change: Any) -> str:
    return json.dumps({**json.loads(FIXTURE.read_text(encoding="utf-8")), **change})


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('{"schema": ', "plan.json, line 1, column 12: this is not JSON: Expecting value"),
        ("[" * 100_000, "this is not JSON of a plan"),
        ("[1, 2]", '"schema" is None; allowed: "casewright/plan/1", "casewright/cut/1"'),
        (_changed(schema="casewright/plan/9"), "\"schema\" is 'casewright/plan/9'; allowed:"),
        (_changed(unit="cm"), "  unit: Input should be 'in' or 'mm'"),
        (_changed(colour="red"), "  colour: Extra inputs are not permitted"),
        (
            FIXTURE.read_text(encoding="utf-8").replace('"x": 18.0,', '"x": 18.001,', 1),
            "  options.0.cases.0.bays.0.x: Value error, 18.001 mm is not a whole number of ticks",
        ),
    ],
    ids=["half", "deep", "a list", "another schema", "a wrong word", "an unknown key", "a length"],
)
def test_a_file_that_is_no_plan_ends_with_2_and_names_the_place(
    tmp_path: Path, text: str, message: str
) -> None:
    result = run("verify", write(tmp_path, text))

    assert result.exit_code == 2
    assert message in result.stderr


def test_faults_of_the_form_are_not_shown_without_end(tmp_path: Path) -> None:
    text = FIXTURE.read_text(encoding="utf-8").replace('"kerf": 3.0', '"kerf": 3.001')
    faulty = text.replace('"mass": 250', '"mass": "heavy"').replace('"row": 1', '"row": "one"')

    result = run("verify", write(tmp_path, faulty))

    assert result.exit_code == 2
    # Five masses, 16 rows and 4 kerfs of sheets and sticks, and that of the job; 20 are shown.
    assert f"  and {5 + 16 + 4 + 1 - 20} more" in result.stderr


def test_a_file_that_is_not_there_ends_with_2() -> None:
    result = run("verify", "no-such-plan.json")

    assert result.exit_code == 2
    assert "no-such-plan.json: cannot be read: No such file or directory" in result.stderr


def test_bytes_that_are_no_text_end_with_2() -> None:
    result = run("verify", "-", given=b'{"schema": "\xff"}')

    assert result.exit_code == 2
    assert "standard input: byte 12 is not UTF-8" in result.stderr


@pytest.mark.parametrize("kind", ["plan", "cut", "job"])
def test_schema_prints_the_kept_schema(kind: str) -> None:
    result = run("schema", kind)

    kept = Path(__file__).parent.parent.parent / "cli" / "schemas" / f"{kind}.schema.json"
    assert result.exit_code == 0
    assert result.stdout == kept.read_text(encoding="utf-8")


def test_schema_of_something_else_ends_with_2() -> None:
    result = run("schema", "sheet")

    assert result.exit_code == 2
    said = " ".join(result.stderr.replace("│", " ").split())
    assert "'sheet' is not one of" in said
