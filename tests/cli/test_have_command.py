"""`casewright plan --have`: lists of what is there, in people's words, and what is wrong there."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.files.have_file import parse_have, part_name
from cli.main import app
from solver.errors import ManyInputsError
from solver.units import inches
from tests.batches import JOB_FILE
from tests.builders import make_job

LIST = """Status;Part;Length;Width;Qty;At;Edges
already cut;left side;40;11;;;
done;Alcove shelf 1;30;11;;;
spoilt;bottom;;;;;
leftover;;50;12;2;;clean
in place;alcove:shelf2;;;;26;
"""


def run(*args: str) -> Result:
    return CliRunner().invoke(app, ["plan", "hill.toml", "--no-keep", *args])


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    Path("hill.toml").write_text(JOB_FILE.format(name="hill", height=40, price="90.00", more=""))
    return tmp_path


def test_a_list_in_peoples_words_is_planned_around() -> None:
    """Left are the right side of 40 in, top and bottom of 22-1/2 in: two offcuts of 50 in do."""
    Path("have.csv").write_text(LIST)

    done = run("--full", "--have", "have.csv", "--json", "p.json")

    option = json.loads(Path("p.json").read_text())["options"][0]
    assert done.exit_code == 0
    assert option["sheet_count"] == 0
    assert {(one["part"], one["how"]) for one in option["have"]["used"]} == {
        ("alcove/side-left", "as it is"),
        ("alcove/shelf-1", "cut down"),
        ("alcove/shelf-2", "fixed"),
    }
    assert option["cases"][0]["bays"][0]["shelves"][1]["underside"] == 26 * 25.4
    assert option["have"]["again"] == ["alcove/bottom"]
    assert "Around what is there: 0 new sheets." in done.stdout
    assert CliRunner().invoke(app, ["verify", "p.json"]).exit_code == 0


def test_the_job_file_may_say_what_is_there() -> None:
    with Path("hill.toml").open("a") as file:
        file.write('\n[[have]]\nwhat = "offcut"\nlength = 90\nwidth = 24\ncount = 2\n')

    run("--json", "p.json")

    assert json.loads(Path("p.json").read_text())["options"][0]["sheet_count"] == 0


def test_an_open_depth_is_settled_by_the_parts_that_are_cut_to_it() -> None:
    text = Path("hill.toml").read_text().replace("depth = 11", "depth = { least = 9, most = 12 }")
    Path("hill.toml").write_text(text)
    Path("have.csv").write_text("what,part,length,width\ncut,left side,40,10-1/2\n")

    done = run("--full", "--have", "have.csv", "--json", "p.json")

    option = json.loads(Path("p.json").read_text())["options"][0]
    assert option["cases"][0]["bays"][0]["inside"]["depth"] == 10.5 * 25.4
    assert "alcove: depth 10-1/2 in, to which parts are cut" in done.stdout


def test_every_line_that_cannot_be_read_is_told_in_order() -> None:
    Path("bad.csv").write_text(
        "what,part,length,width,mark\n"
        "cut,shelf nine,,,\n"
        "eaten,top,,,\n"
        "offcut,,20,x,\n"
        "short,top,,,\n"
        "fixed,shelf 1,,,20-1/32\n"
    )

    done = run("--have", "bad.csv")

    lines = [line for line in done.stderr.splitlines() if "bad.csv, line" in line]
    assert done.exit_code == 2
    assert [line.split("line ")[1][0] for line in lines] == ["2", "3", "4", "5", "6"]
    assert "give 20 in or 20-1/16 in" in lines[4]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("shelf 2", "case/shelf-2"),
        ("case/shelf-2", "case/shelf-2"),
        ("Case: Shelf2", "case/shelf-2"),
        ("left side", "case/side-left"),
        ("side right", "case/side-right"),
        ("bay 1 shelf 2", "case/bay-1-shelf-2"),
        ("lip 3", "case/lip-3"),
        ("shelf", "case/shelf"),
        ("door", "door"),
    ],
)
def test_parts_are_named_as_people_name_them(text: str, name: str) -> None:
    assert part_name(text, make_job()) == name


def test_a_case_must_be_named_where_there_are_several() -> None:
    job = make_job(case=[{"name": "left case"}, {"name": "right case"}])

    assert part_name("right case shelf 2", job) == "right case/shelf-2"
    assert part_name("shelf 2", job) == "shelf 2"
    with pytest.raises(ManyInputsError, match="is no part"):
        parse_have("what,part\ncut,shelf 2\ncut,shelf 1\n", "list", job)


def test_sizes_are_read_in_the_jobs_unit() -> None:
    read = parse_have("what,part,length,width\ncut,top,28-1/2,8\n", "list", make_job())

    assert (read.have[0].length, read.have[0].width) == (inches("28-1/2"), inches("8"))


@pytest.mark.parametrize("how", [("--from", "hill.last-plan.json"), ("--hold", "alcove:shelf1=14")])
def test_what_is_there_is_planned_around_from_the_last_plan_too(how: tuple[str, ...]) -> None:
    Path("have.csv").write_text(LIST)
    assert CliRunner().invoke(app, ["plan", "hill.toml", "--quiet"]).exit_code == 0

    done = CliRunner().invoke(
        app, ["plan", "hill.toml", "--have", "have.csv", *how, "--json", "p.json"]
    )

    option = json.loads(Path("p.json").read_text())["options"][0]
    assert done.exit_code == 0
    assert option["sheet_count"] == 0
    assert option["cases"][0]["bays"][0]["shelves"][1]["underside"] == 26 * 25.4


def test_the_front_is_planned_around_it_as_well() -> None:
    with Path("hill.toml").open("a") as file:
        file.write('\n[[have]]\nwhat = "offcut"\nlength = 90\nwidth = 24\ncount = 2\n')

    done = CliRunner().invoke(app, ["tradeoff", "hill.toml"])

    assert done.exit_code == 0
    assert "$0.00" in done.stdout


def _rows() -> list[list[str]]:
    return [line.split(";") for line in LIST.splitlines()]


def _as_tabs(path: Path) -> None:
    path.write_text("\n".join("\t".join(row) for row in _rows()))


def _as_workbook(path: Path) -> None:
    from openpyxl import Workbook

    book = Workbook()
    for row in _rows():
        book.active.append([int(cell) if cell.isdecimal() else cell or None for cell in row])
    book.save(path)


@pytest.mark.parametrize(("name", "write"), [("h.tsv", _as_tabs), ("h.xlsx", _as_workbook)])
def test_the_list_may_be_any_table_and_how_it_was_read_is_said(
    name: str, write: Callable[[Path], None]
) -> None:
    Path("have.csv").write_text(LIST)
    write(Path(name))

    as_csv, other = (run("--have", file, "--json", f"{file}.json") for file in ("have.csv", name))

    assert other.exit_code == 0, other.output
    jobs = [json.loads(Path(f"{file}.json").read_text())["job"] for file in ("have.csv", name)]
    assert jobs[0]["have"] == jobs[1]["have"]
    assert len(jobs[0]["have"]) == len(_rows()) - 1
    assert other.stderr.splitlines() == [
        f"{name}: 5 lines read, lengths without a unit in inches",
        *as_csv.stderr.splitlines()[1:],
    ]
    assert "  line 2: cut alcove/side-left, 40 x 11 in, clean edges" in other.stderr
    assert "  line 4: spoiled alcove/bottom, gone" in other.stderr
    assert "  line 5: 2 x offcut oak ply, 50 x 12 in, clean edges" in other.stderr
    assert "  line 6: fixed alcove/shelf-2, underside at 26 in" in other.stderr


def test_a_list_of_another_kind_is_refused() -> None:
    Path("have.ods").write_text("x")

    done = run("--have", "have.ods")

    assert done.exit_code == 2
    assert ".ods files are not read; save it as .xlsx or .csv" in done.stderr
