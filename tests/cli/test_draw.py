"""`casewright draw`: files, what is said, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.commands.draw import _about
from cli.main import app
from solver.plan.plan import LeftOut, ShortBy
from tests.sample_plans import good_plan

PLAN = str(Path(__file__).parents[2] / "fixtures" / "plan-two-bays.json")


def run(*args: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["draw", *args])
    return result.exit_code, result.stdout, result.stderr


def test_every_file_is_listed_and_complete(tmp_path: Path) -> None:
    code, out, _ = run(PLAN, "-o", str(tmp_path / "out"), "--kind", "front")

    starts = {".svg": b"<svg", ".pdf": b"%PDF", ".png": b"\x89PNG", ".dxf": b"  0\nSECTION"}
    paths = [Path(line) for line in out.split("\n") if line]
    assert code == 0
    assert {path.suffix for path in paths} == set(starts)
    assert all(path.read_bytes().startswith(starts[path.suffix]) for path in paths)
    assert sorted(paths) == sorted((tmp_path / "out").iterdir())


def test_without_a_folder_the_files_go_beside_the_job(tmp_path: Path) -> None:
    plan = tmp_path / "hall.json"
    plan.write_bytes(Path(PLAN).read_bytes())

    code, out, _ = run(str(plan), "--kind", "sheets", "--format", "svg")

    assert code == 0
    assert {Path(line).parent for line in out.split("\n") if line} == {tmp_path / "hall"}


def test_nothing_is_overwritten_without_force(tmp_path: Path) -> None:
    args = (PLAN, "-o", str(tmp_path), "--kind", "front", "--format", "svg")
    (name,) = (Path(line) for line in run(*args)[1].split("\n") if line)
    name.write_text("mine", encoding="utf-8")

    assert run(*args)[0] == 2
    assert name.read_text("utf-8") == "mine"
    assert run(*args, "--force")[0] == 0
    assert name.read_text("utf-8").startswith("<svg")


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (("--kind", "elevation"), "front"),
        (("--format", "jpg"), "svg, pdf, png, dxf"),
        (("--paper", "b5"), "letter"),
        (("--option", "none"), "no option with a layout"),
    ],
)
def test_a_wrong_word_is_refused_with_what_is_allowed(
    tmp_path: Path, args: tuple[str, ...], said: str
) -> None:
    code, _, err = run(PLAN, "-o", str(tmp_path), *args)

    assert code == 2
    assert said in err
    assert list(tmp_path.iterdir()) == []


def test_svg_and_dxf_state_title_and_scale_themselves(tmp_path: Path) -> None:
    run(PLAN, "-o", str(tmp_path), "--kind", "front", "--format", "svg,dxf")

    for path in tmp_path.iterdir():
        text = path.read_text("utf-8")
        assert "Front elevation, hall, scale 1 : 10" in text
        assert "Lengths in millimetres" in text


def test_what_is_left_out_is_said_on_the_drawing() -> None:
    plan = good_plan()
    lacking = LeftOut(item=plan.job.items[0].name, count=2, short_by=ShortBy())
    option = plan.options[0].model_copy(update={"left_out": (lacking,)})

    assert _about(plan.options[0]) == plan.options[0].name
    assert _about(option).endswith(f"left out: 2 x {plan.job.items[0].name}")
