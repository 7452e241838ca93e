"""Each file of fixtures/bad holds one fault; it is told in words, with place and exit code."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app

BAD = Path(__file__).parents[2] / "fixtures" / "bad"

FAULTS: dict[str, tuple[int, str, str]] = {
    "back-material-unknown.toml": (2, "line 9", "'glass' is not in the job; allowed: 'none'"),
    "binary.txt": (2, "binary.txt", "this is no text; save the list as .csv"),
    "comma-not-quoted.csv": (2, "line 2", "5 cells under 4 headers; put quotes round"),
    "control-character.toml": (2, "line 12", "the control character U+001B is in the text"),
    "count-fraction.csv": (2, "line 2", "the count '1.5' is not a whole number"),
    "count-zero.txt": (2, "line 1", "the count '0' is not a whole number from 1"),
    "country-in-words.toml": (2, "line 5", "write 'DE'"),
    "currency-in-words.toml": (2, "line 3", '"dollars" is given; allowed: three capital letters'),
    "dado-through-board.toml": (2, "line 12", "23/32 in deep goes through a board of 23/32 in"),
    "dado-opposite.toml": (2, "line 13", "3/8 in deep from both sides of an upright of 23/32 in"),
    "depth-column-missing.csv": (2, "line 1", "no column for the depth"),
    "depth-less-than-back.toml": (2, "line 8", "less than 20 mm is left inside; give more depth"),
    "depth-missing.txt": (2, "line 2", "the depth is missing (read: width 6 in, height 9 in)"),
    "depth-range-reversed.toml": (2, "line 8", "depth: least <= wish <= most is wanted"),
    "doorway-diagonal-long.toml": (2, "line 4", "diagonal 110 in (2794 mm) is longer than width"),
    "doorway-diagonal-short.toml": (2, "line 4", "diagonal 75 in (1905 mm) is not longer than the"),
    "doorway-jamb-too-deep.toml": (2, "line 14", "30 in, is more than the case is wide, 26 in"),
    "doorway-key-misspelt.toml": (2, "line 8", "'acros' is not known here; did you mean across?"),
    "doorway-lean-a-height.toml": (2, "line 4", "hinge_lean 40 in (1016 mm) over 78 in"),
    "doorway-mortises-near.toml": (2, "line 4", "nearer to each other than a leaf is high, 3-1/2"),
    "doorway-pin-aside-in-mm.toml": (2, "pin aside", 'is it "22 mm"'),
    "doorway-pin-beyond-case.toml": (2, "pin is set in by 26 in", "only 26 in wide"),
    "doorway-pin-both.toml": (2, "line 8", "aside lies outside the case and inside in it"),
    "doorway-width-in-mm.toml": (2, "line 4", 'is it "718 mm", which is 28-9/32− in (718 mm)?'),
    "empty.toml": (2, "empty.toml", 'unit is missing; write unit = "in" or unit = "mm"'),
    "figures-unclear.tsv": (2, "line 1", "5 figures, and what each of them is cannot be told"),
    "formula-without-value.xlsx": (2, " B2", "a formula without a stored value"),
    "four-sizes.txt": (2, "line 1", "4 sizes in a row; is one of them the count?"),
    "fraction-without-quotes.toml": (2, "line 6 column 11", "fractions stand in quotes"),
    "hardware-pack-zero.toml": (2, "line 20", "pack: 0 is given; allowed: a whole number from 1"),
    "height-too-small-for-boards.toml": (2, "line 7", "the boards leave less than 20 mm"),
    "hold-opening-too-high.toml": (2, "line 19", "31 is given; allowed: a whole number from 0 to"),
    "hung-higher-than-doorway.toml": (2, "line 15", "is higher than its doorway, 80 in; at most"),
    "hung-wider-than-doorway.toml": (2, "line 13", "is wider than its doorway, 28-1/4 in"),
    "hung-width-a-range.toml": (2, "line 4", "a hung case follow its doorway; give one length"),
    "item-count-zero.toml": (2, "line 16", "count: 0 is given; allowed: a whole number from 1"),
    "item-place-unknown.toml": (2, "line 16", 'where: "attic" is given; allowed: "low", "eye"'),
    "item-size-a-date.toml": (2, "line 15", "depth: the date 2024-05-02 is given"),
    "item-size-negative.toml": (2, "line 13", "'-6' is not a length: it is negative"),
    "item-thousands-mark.toml": (2, "line 14", "1,200 may mean 1200 or 1.200"),
    "item-too-deep.toml": (1, "case 'alcove'", "'jug' cannot stand in case 'alcove': 3-7/32 in"),
    "item-twice.toml": (2, "line 18", "names must differ; given twice: 'jug'"),
    "item-weight-in-inches.toml": (2, "line 16", "'2 in' is not a weight: the unit 'in'"),
    "items-file-missing.toml": (2, "line 3", "there is no such file; check the name"),
    "items-outside-folder.toml": (2, "line 3", "leads out of the job file's folder"),
    "key-misspelt.toml": (2, "line 7", "'hieght' is not known here; did you mean height?"),
    "key-outside-table.toml": (2, "line 1", "'kerf' stands outside its table; put it under [shop]"),
    "length-column-unclear.csv": (2, "line 1", "length and width are both columns"),
    "list.ods": (2, "list.ods", ".ods files are not read; save it as .xlsx or .csv"),
    "name-missing.txt": (2, "line 1", "the name is missing"),
    "name-too-long.csv": (2, "line 2", "the name has 201 characters; shorten it to 200"),
    "no-case.toml": (2, "no-case.toml", "there is no case; everything but the things and one"),
    "no-items.toml": (2, "no-items.toml", "there are no things to display; add [[item]]"),
    "not-a-workbook.xlsx": (2, "not-a-workbook.xlsx", "this is not a readable .xlsx file"),
    "not-utf-8.toml": (2, "line 3", "a letter is not in UTF-8; save the file as UTF-8"),
    "only-comments.txt": (2, "only-comments.txt", "there are no things in the list"),
    "few-unclear.txt": (2, "line 1", "how many are 'a few'? write 2 x"),
    "price-hour-negative.toml": (2, "line 18", "-65 is not an amount from 0 to 999,999.99"),
    "price-key-misspelt.toml": (2, "line 18", "'hourley' is not known here; did you mean hourly?"),
    "price-shares-short.toml": (2, "line 18", "the shares add up to 90; 100 is wanted"),
    "price-task-misspelt.toml": (2, "line 18", "'glu-up' is no task; did you mean 'glue-up'?"),
    "rhythm-misspelt.toml": (2, "line 12", 'rhythm: "evn" is given; allowed: "steady", "even"'),
    "shelf-load-not-a-weight.toml": (2, "line 12", "'strong' is not a weight"),
    "shelves-in-words.toml": (2, "line 9", "allowed: a whole number from 0 to 30, such as 4"),
    "shelves-too-many.toml": (2, "line 9", "shelves: 31 is given; allowed: a whole number from 0"),
    "single-brackets.toml": (2, "line 4", "write [[case]] with double brackets"),
    "size-a-date.xlsx": (2, " B2", "a date; spreadsheets turn 9-1/2 into one"),
    "size-a-spreadsheet-error.csv": (2, "line 2", "holds the spreadsheet error #REF!"),
    "string-not-closed.toml": (2, "line 5 column 15", "not valid TOML"),
    "table-misspelt.toml": (
        2,
        "line 11",
        "'items' is no table of a job file; did you mean [[item]]",
    ),
    "thousands-mark.txt": (2, "line 1", "1,200 may mean 1200 or 1.200"),
    "trim-baseboard-too-high.toml": (2, "line 18", "it is 3-1/2 in high and the top of the"),
    "trim-casing-too-narrow.toml": (2, "line 18", "and is 2-1/4 in wide; 3-5/8 in or wider would"),
    "trim-casing-too-wide.toml": (
        2,
        "line 19",
        "3-11/16 in beyond the opening, and the wall",
    ),
    "trim-flutes-too-wide.toml": (2, "line 18", "each edge need 5-1/8 in; the casing is 3-1/2 in"),
    "trim-key-misspelt.toml": (2, "line 18", "'reveel' is not known here; did you mean reveal?"),
    "trim-moulding-unknown.toml": (2, "line 18", "'casings' is no [[moulding]] of the job"),
    "trim-scribe-too-narrow.toml": (2, "line 18", "is 2 in at its widest and the strip 1-1/4 in"),
    "trim-set-unknown.toml": (2, "line 19", 'trim.set: "grand" is given; allowed: "none", "pl'),
    "unit-missing.toml": (2, "line 1", 'unit is missing; write unit = "in" or unit = "mm"'),
    "unit-unknown.toml": (2, "line 2", 'unit is \'inch\'; write unit = "in" or unit = "mm"'),
    "width-column-twice.csv": (2, "line 1", "two columns for the width"),
}
"""File: exit code, place, and part of the message."""


def test_every_bad_file_has_its_expected_message() -> None:
    assert {path.name for path in BAD.iterdir()} == set(FAULTS)


@pytest.mark.parametrize("name", FAULTS)
def test_a_bad_file_is_told_with_its_place_and_exit_code(name: str) -> None:
    code, place, fragment = FAULTS[name]
    result = CliRunner().invoke(app, ["check", str(BAD / name)])
    assert result.exit_code == code, result.output
    assert place in result.stderr
    assert fragment in result.stderr
    assert "Traceback" not in result.output


@pytest.mark.parametrize("name", [name for name, fault in FAULTS.items() if fault[0] == 2])
def test_a_file_with_one_fault_is_told_one_fault(name: str) -> None:
    result = CliRunner().invoke(app, ["check", str(BAD / name)])
    lines = result.stderr.strip().splitlines()
    heading = "1 line cannot be read" in lines[0]
    assert len(lines) == (2 if heading else 1), result.stderr
    assert not result.stdout or "not read, see below" in result.stdout
