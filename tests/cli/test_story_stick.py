"""`casewright draw --kind stick`: its two files, and what is refused."""

from __future__ import annotations

from pathlib import Path

from typer.testing import CliRunner

from cli.main import app

PLAN = str(Path(__file__).parents[2] / "fixtures" / "plan-two-bays.json")


def run(*args: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["draw", "--kind", "stick", *args])
    return result.exit_code, result.stdout, result.stderr


def test_a_long_page_and_pieces_are_written_and_never_over_others(tmp_path: Path) -> None:
    args = (PLAN, "-o", str(tmp_path), "--paper", "letter")

    code, out, _ = run(*args)

    assert code == 0
    assert [Path(line).name for line in out.split()] == ["rod-long.pdf", "rod-letter.pdf"]
    assert all(Path(line).read_bytes().startswith(b"%PDF") for line in out.split())
    assert run(*args)[0] == 2
    assert run(*args, "--force")[0] == 0


def test_a_paper_that_pieces_do_not_fit_is_refused(tmp_path: Path) -> None:
    code, _, err = run(PLAN, "-o", str(tmp_path), "--paper", "tabloid")

    assert code == 2
    assert "a4, letter" in err


def test_a_stick_stands_beside_drawings_and_is_a_pdf_only(tmp_path: Path) -> None:
    code, out, _ = run(PLAN, "-o", str(tmp_path), "--kind", "front,stick", "--format", "svg,pdf")
    names = [Path(line).name for line in out.split()]
    assert code == 0
    assert {"rod-long.pdf", "rod-a4.pdf"} < set(names)
    assert [name for name in names if name.endswith(".svg")]

    code, _, err = run(PLAN, "-o", str(tmp_path), "--format", "svg")
    assert (code, "a story stick is a PDF" in err) == (2, True)
