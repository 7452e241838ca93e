"""Doubts of a list: told all at once, taken where that is wanted, and the clean table."""

from __future__ import annotations

import json
from pathlib import Path

from typer.testing import CliRunner, Result

from cli.main import app
from solver.listing.read import read_listing

MAIL = "Hi there,\n- 6 folding cameras 5 x 7 x 3\n- vase, 2-3, 6 x 9 x 6\nthanks!\n"
CASE = ("--inside", "30x60x10", "--shelves", "3")
CORPUS = Path(__file__).parents[1] / "listing_corpus" / "lines.json"


def run(*arguments: str, stdin: str = MAIL) -> Result:
    return CliRunner(env={"COLUMNS": "80"}).invoke(app, list(arguments), input=stdin)


def test_a_doubtful_line_is_asked_about_and_nothing_is_planned() -> None:
    done = run("plan", "-", *CASE)

    assert done.exit_code == 2
    assert "1 line is in doubt, 1 read" in done.stderr
    assert "how many: 2 or 3?" in done.stderr
    assert "--accept-guesses" in done.stderr
    assert done.stdout == ""


def test_with_guesses_accepted_the_likeliest_is_planned_and_said() -> None:
    done = run("plan", "-", *CASE, "--accept-guesses")

    assert done.exit_code == 0
    assert "how many: 2 or 3? 3 of them" in done.stderr
    assert "9 things in all" in done.stderr
    assert "set aside, a greeting: Hi there," in done.stderr


def test_a_line_that_cannot_be_read_is_never_guessed_and_hides_no_other() -> None:
    done = run("check", "-", "--accept-guesses", stdin=f"{MAIL}jug 6 x 9\n")

    assert done.exit_code == 2
    assert "1 line cannot be read, 2 read" in done.stderr
    assert "folding cameras" in done.stdout


def test_the_clean_table_reads_the_same_again(tmp_path: Path) -> None:
    """Every line of the corpus that is sure, one list a unit."""
    for unit in ("in", "mm"):
        lines = [
            one["text"]
            for one in json.loads(CORPUS.read_text("utf-8"))
            if one["unit"] == unit and _is_plain(one["text"], unit)
        ]
        (tmp_path / "list.txt").write_text("\n".join(lines), "utf-8")
        first = tmp_path / f"{unit}-1.csv"
        second = tmp_path / f"{unit}-2.csv"

        one = run("check", str(tmp_path / "list.txt"), "--unit", unit, "--csv", str(first))
        two = run("check", str(first), "--unit", unit, "--csv", str(second))

        assert one.exit_code == two.exit_code == 0, one.output + two.output
        assert first.read_text("utf-8").count("\n") > 20
        assert first.read_text("utf-8") == second.read_text("utf-8")


def _is_plain(text: str, unit: str) -> bool:
    (line,) = read_listing(text, "in" if unit == "in" else "mm").lines
    return line.item is not None and line.is_sure and "\t" not in text
