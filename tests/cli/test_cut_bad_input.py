"""`casewright cut` on lists and stock that cannot be: told in words, exit code, nothing written."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app

SHEETS = "part,length,width,quantity,grain\n"
STICKS = "part,length,quantity,mitres\n"

REFUSED: dict[str, tuple[str, list[str], int, list[str]]] = {
    "too long, with what trim and margin take": (
        SHEETS + "side,95-7/8,12,2,length\n",
        ["--edge-trim", "1/4", "--margin", "1/32"],
        1,
        # 95-7/8 + 1/32 + 2 x 1/4 - 96
        [
            "side#1 (95-7/8 in x 12 in, and 1 more like it) is larger than every sheet",
            "13/32 in too long for 96 x 48 in",
            "1/4 in trimmed off each edge, 1/32 in margin",
        ],
    ),
    "grain forbids turning": (
        SHEETS + "book,40,60,1,length\n",
        [],
        1,
        ["12 in too wide", "it would fit turned", "grain must run along the sheet's length"],
    ),
    "too large either way": (
        SHEETS + "back,49,48-1/2,1,any\n",
        [],
        1,
        ["back#1", "1/2 in too wide", "make the part in two"],
    ),
    "every material is looked at before one is cut": (
        "part,length,width,quantity,material\na,97,5,1,oak\nb,98,5,1,ash\nc,9,5,1,fir\n",
        [],
        1,
        ["a#1", "1 in too long for oak", "b#1", "2 in too long for ash"],
    ),
    "trim leaves nothing": (
        SHEETS + "side,20,12,1,\n",
        ["--edge-trim", "24"],
        1,
        ["nothing is left of 96 x 48 in", "24 in trimmed off each edge", "trim less"],
    ),
    "margin leaves nothing": (
        SHEETS + "side,20,12,1,\n",
        ["--margin", "48"],
        1,
        ["nothing is left of 96 x 48 in", "48 in margin"],
    ),
    "kerf leaves nothing": (
        SHEETS + "side,20,12,1,\n",
        ["--kerf", "48"],
        1,
        ["a saw cut of 48 in takes all of 96 x 48 in", "less than 48 in"],
    ),
    "kerf of a stick": (
        STICKS + "lip,20,1,\n",
        ["--moulding", "96", "--kerf", "96"],
        1,
        ["a saw cut of 96 in takes all of the longest stick (96 in)"],
    ),
    "sizes negative, nothing, or no number": (
        SHEETS + "a,-5,3,1,\nb,0,3,1,\nc,3,3,0,\nd,3,3,1.5,\ne,3,x,1,\nf,3,3,1,up\n",
        [],
        2,
        [
            "line 2, column 2: length: '-5' is not a length: it is negative",
            "line 3, column 2: length: '0' is not allowed; a size is more than 0",
            "line 4, column 4: quantity: '0'",
            "line 5, column 4: quantity: '1.5'",
            "line 6, column 3: width: 'x'",
            "line 7, column 5: grain: 'up'",
        ],
    ),
    "options negative": (SHEETS + "a,5,3,1,\n", ["--kerf", "-1"], 2, ["--kerf", "negative"]),
    "a sheet of no size": (
        SHEETS + "a,5,3,1,\n",
        ["--sheet", "0x48", "--sheet", "96x48@-5"],
        2,
        ["--sheet 0x48: a size is more than 0", "--sheet 96x48@-5: '-5' is not a price"],
    ),
    "too few sheets": (
        SHEETS + "side,50,40,5,length\nslip,10,2,2,any\n",
        ["--sheet", "96x48@65*2"],
        1,
        ["2 of 96 x 48 in) is too small", "left over: side#3, side#4, side#5. 3 more of 96 x 48"],
    ),
    "too few sticks": (
        STICKS + "lip,50,5,0\n",
        ["--moulding", "96@9*2"],
        1,
        ["2 of 96 in) is too small", "left over: lip#3, lip#4, lip#5. 3 more of 96 in would do"],
    ),
    "too long for a stick": (
        STICKS + "lip,100,2,1\n",
        ["--moulding", "96"],
        1,
        # with 1/8 in for the mitre
        ["lip#1 (100-1/8 in, and 1 more like it) is 4-1/8 in longer than the longest stick"],
    ),
    "too many pieces": (SHEETS + "a,5,3,20000,\nb,5,3,1,\n", [], 2, ["more than 20000 pieces"]),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_told_and_nothing_is_written(case: str, tmp_path: Path) -> None:
    text, options, code, words = REFUSED[case]
    parts, out = tmp_path / "parts.csv", tmp_path / "cut.json"
    parts.write_text(text, "utf-8")
    done = CliRunner().invoke(app, ["cut", str(parts), "--json", str(out), *options])
    said = " ".join(done.output.split())
    assert done.exit_code == code
    assert [word for word in words if word not in said] == []
    assert [path.name for path in tmp_path.iterdir()] == ["parts.csv"]


JOB = """
[job]
unit = "in"
[[case]]
width = 28
height = 50
depth = 9
shelves = 4
material = "ply"
back = "none"
[[sheet]]
name = "ply 8 x 4"
material = "ply"
length = 96
width = 48
thickness = "3/4"
{sheet}
[shop]
{shop}
[[item]]
name = "jug"
width = 5
height = 6
depth = 5
"""

JOBS: dict[str, tuple[str, str, int, str]] = {
    "no sheet may be bought": (
        "limit = 0",
        "",
        1,
        "there is no sheet to cut from: none on hand and none may be bought (ply 8 x 4). "
        "1 more of ply 8 x 4 would do",
    ),
    "trim leaves nothing": ("", "edge_trim = 24", 1, "nothing is left of ply 8 x 4"),
    "kerf leaves nothing": ("", "kerf = 50", 1, "a saw cut of 50 in takes all of ply 8 x 4"),
    "kerf negative": ("", "kerf = -1", 2, "[shop] kerf: '-1' is not a length: it is negative"),
    "limit negative": ("limit = -1", "", 2, "limit: -1 is given"),
}


@pytest.mark.parametrize("case", JOBS)
def test_the_stock_of_a_job_that_cannot_be_is_told(case: str, tmp_path: Path) -> None:
    """Exit 1 still writes the plan with its reasons, as the plan format has it; exit 2 nothing."""
    sheet, shop, code, words = JOBS[case]
    job, out = tmp_path / "job.toml", tmp_path / "plan.json"
    job.write_text(JOB.format(sheet=sheet, shop=shop), "utf-8")
    done = CliRunner().invoke(app, ["plan", str(job), "--json", str(out)])
    assert done.exit_code == code, done.output
    assert words in " ".join(done.output.split())
    assert out.exists() == (code == 1)


def test_a_material_that_no_sheet_is_of_is_told(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text = JOB.format(sheet="", shop="").replace('material = "ply"\nback', 'material = "oak"\nback')
    job.write_text(text, "utf-8")
    done = CliRunner().invoke(app, ["plan", str(job)])
    assert done.exit_code == 2
    assert "material: 'oak' is not in the job; allowed: 'ply'" in " ".join(done.output.split())
