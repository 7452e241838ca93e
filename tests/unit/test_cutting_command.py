"""`casewright cut` from the list to the JSON."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console

from cli.commands.cut import deliver_cut
from cli.run.cut_request import CutRequest
from cli.screen.cutting_tables import SHEETS_SHOWN, not_shown, print_cut_plan, summary
from solver.checking.check import check_cut
from solver.errors import CannotBeDoneError, InputError
from solver.outcome import Limits
from solver.plan.plan import CutPlan

CASE = """part,length,width,quantity,grain
side,54,12,2,length
top,30,12,1,length
shelf,28-1/2,12,4,length
toe,3,28-1/2,1,width
brace,3,20,2,any
"""


def request(path: Path, text: str, **options: Any) -> CutRequest:
    path.write_text(text, "utf-8")
    plain: dict[str, Any] = {
        "sheets": ["96x48@65.00"],
        "mouldings": [],
        "kerf": None,
        "edge_trim": "0",
        "margin": "0",
        "mitre": None,
        "turn": True,
        "stages": "any",
        "first": "either",
        "unit": "in",
    }
    return CutRequest(parts=str(path), **{**plain, **options})


def cut(tmp_path: Path, text: str, **options: Any) -> dict[str, Any]:
    out = tmp_path / "cut.json"
    asked = request(tmp_path / "parts.csv", text, **options)
    deliver_cut(asked, Limits(work=2), json=str(out), force=False, quiet=True)
    data: dict[str, Any] = json.loads(out.read_text("utf-8"))
    return data


def read(data: dict[str, Any]) -> CutPlan:
    return CutPlan.model_validate_json(json.dumps(data))


def test_the_json_has_the_published_keys_and_every_piece(tmp_path: Path) -> None:
    data = cut(tmp_path, CASE)
    assert list(data)[:4] == ["schema", "unit", "status", "sheets"]
    assert data["schema"] == "casewright/cut/1"
    assert {"sheet_count", "sheet_bound", "cost", "timing"} <= data.keys()
    assert "mouldings" not in data
    pieces = [piece["part"] for sheet in data["sheets"] for piece in sheet["pieces"]]
    shelves = [f"shelf#{i}" for i in range(1, 5)]
    others = ["side#1", "side#2", "top#1", "toe#1", "brace#1", "brace#2"]
    assert sorted(pieces) == sorted(shelves + others)


def test_grain_along_the_width_lays_a_part_across(tmp_path: Path) -> None:
    data = cut(tmp_path, CASE)
    (toe,) = [p for s in data["sheets"] for p in s["pieces"] if p["part"] == "toe#1"]
    assert toe["turned"]
    assert (toe["length"], toe["width"]) == pytest.approx((28.5 * 25.4, 3 * 25.4))


@pytest.mark.parametrize("stages", ["2", "3", "any"])
@pytest.mark.parametrize("first", ["rip", "crosscut", "either"])
def test_the_independent_checker_finds_nothing(tmp_path: Path, stages: str, first: str) -> None:
    rules = {"stages": stages, "first": first, "edge_trim": "1/16", "margin": "1/32"}
    data = cut(tmp_path, CASE, **rules)
    assert check_cut(read(data)) == ()


def test_each_material_and_thickness_is_bought_for_itself(tmp_path: Path) -> None:
    text = "part,length,width,quantity,material,thickness\n" + "".join(
        f"p{i},20,10,1,{material},{thick}\n"
        for i, (material, thick) in enumerate([("oak", "3/4"), ("oak", "1/4"), ("ash", "3/4")])
    )
    data = cut(tmp_path, text)
    assert data["sheet_count"] == data["sheet_bound"] == 3
    assert data["cost"]["total"] == "195.00"


def test_no_turn_keeps_parts_without_grain_as_they_are(tmp_path: Path) -> None:
    text = "part,length,width,quantity\npanel,40,90,1\n"
    with pytest.raises(CannotBeDoneError, match="too wide"):
        cut(tmp_path, text, turn=False)
    assert cut(tmp_path, text)["sheet_count"] == 1


def test_mitred_ends_get_their_allowance(tmp_path: Path) -> None:
    """82 + 36 + 2 x 1/8 + kerf 1/8 = 118-3/8 for leg and head with one mitre each."""
    text = "part,length,quantity,mitres\nleg,82,1,1\nhead,36,1,1\n"
    just = cut(tmp_path, text, sheets=[], mouldings=["118-3/8@9.60"])
    assert (just["sheet_count"], "sheets" in just) == (1, False)
    lengths = {p["part"]: p["length"] for s in just["mouldings"] for p in s["pieces"]}
    assert lengths == pytest.approx({"leg#1": 82.125 * 25.4, "head#1": 36.125 * 25.4})
    (tmp_path / "cut.json").unlink()
    assert cut(tmp_path, text, sheets=[], mouldings=["118-11/32@9.60"])["sheet_count"] == 2


def test_nothing_is_written_where_the_parts_cannot_be_cut(tmp_path: Path) -> None:
    with pytest.raises(CannotBeDoneError):
        cut(tmp_path, "part,length,width,quantity\nlong,100,12,1\n")
    assert not (tmp_path / "cut.json").exists()


def test_an_existing_file_stays_without_force(tmp_path: Path) -> None:
    (tmp_path / "cut.json").write_text("mine")
    with pytest.raises(InputError, match="exists"):
        cut(tmp_path, CASE)
    assert (tmp_path / "cut.json").read_text() == "mine"


def test_sheets_and_mouldings_do_not_go_together(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="do not go together"):
        cut(tmp_path, CASE, mouldings=["96"])


def test_the_summary_says_what_is_proven(tmp_path: Path) -> None:
    data = cut(tmp_path, "part,length,width,quantity\nside,54,12,2\n")
    lines = summary(read(data))
    assert lines[0] == "To buy: 1 sheet; fewer than 1 cannot do."
    assert lines[1] == "Price: $65.00; less than $65.00 cannot do."
    assert lines[-1].startswith("Proven")


def test_sheets_that_are_too_many_to_print_are_said_to_be_in_the_files(tmp_path: Path) -> None:
    # One part a sheet: as many sheets as are printed, and one more.
    rows = "part,length,width,quantity\nside,60,30,{}\n"
    all_shown = read(cut(tmp_path, rows.format(SHEETS_SHOWN)))
    (tmp_path / "cut.json").unlink()
    one_more = read(cut(tmp_path, rows.format(SHEETS_SHOWN + 1)))
    assert not_shown(all_shown) == []
    (line,) = not_shown(one_more)
    assert line.startswith(f"Sheets {SHEETS_SHOWN + 1} to {SHEETS_SHOWN + 1}, ")
    out = io.StringIO()
    print_cut_plan(Console(file=out, width=100), one_more)
    assert f"Sheet {SHEETS_SHOWN}:" in out.getvalue()
    assert f"Sheet {SHEETS_SHOWN + 1}:" not in out.getvalue()
    assert line[:60] in " ".join(out.getvalue().split())
