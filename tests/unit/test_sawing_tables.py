"""The cuts in order as shown: every one, within the width, in the words of the trade."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from cli.screen.console import Titled
from cli.screen.cutting_tables import sheet_tables
from cli.screen.sawing_tables import cut_tables, offcut_table, sawing_notes, settings_table
from solver.plan.plan import Option
from solver.plan.saw_cuts import Cut
from solver.sequence.saw_choice import ranges
from tests.edits import put
from tests.sample_plans import good_option


def shown(titled: Titled, width: int = 120) -> str:
    text = io.StringIO()
    Console(file=text, width=width).print(titled.table)
    return text.getvalue()


def rows(titled: Titled) -> list[list[str]]:
    """Cells of the rows below the rule, split where columns are apart."""
    lines = shown(titled).splitlines()[2:]
    return [[cell.strip() for cell in line.split("   ") if cell.strip()] for line in lines]


def changed(option: Option, path: str, value: object) -> Option:
    return put(option, path, value)


@pytest.mark.parametrize("width", [80, 100, 120])
def test_every_table_of_the_sheets_keeps_to_the_width(width: int) -> None:
    option = good_option()
    for titled in sheet_tables(option.sheets, "mm", width, option.settings):
        assert max(map(len, shown(titled, width).splitlines())) <= width


def test_every_cut_has_a_row_with_its_number_setting_and_edge() -> None:
    option = good_option()
    for sheet, titled in zip(option.sheets, cut_tables(option.sheets, "mm", 120), strict=True):
        found = rows(titled)
        assert [int(row[0]) for row in found] == [cut.number for cut in sheet.cuts]
        for row, cut in zip(found, sheet.cuts, strict=True):
            assert row[1] == cut.panel
            assert row[2] == f"{cut.kind}, {cut.guide} {cut.setting // 320}"
            assert row[3] == cut.measured_from


def test_parts_are_called_by_their_names_without_the_only_case() -> None:
    texts = [shown(titled) for titled in cut_tables(good_option().sheets, "mm", 120)]
    assert "side-left" in texts[0]
    assert "hall/" not in "".join(texts)


def test_what_goes_on_is_its_width_after_a_rip_and_its_length_after_a_crosscut() -> None:
    """1220 less the trim of 6, less 212 and the saw cut of 3; 2440 less 6, 1230 and 3."""
    (first, *_) = cut_tables(good_option().sheets, "mm", 120)
    by_number = {row[0]: row for row in rows(first)}
    assert by_number["3"][5] == str(1220 - 6 - 212 - 3)
    crosscut = next(row for row in by_number.values() if row[2] == "crosscut, stop 1230")
    assert crosscut[5] == str(2440 - 6 - 1230 - 3)


def test_each_setting_names_the_cuts_of_each_sheet() -> None:
    option = good_option()
    found = rows(settings_table(option.settings, "mm"))
    assert found[0] == ["1", "guided saw", "track 6, trimming", "1: 1, 2; 2: 1, 2"]
    assert len(found) == len(option.settings)


def test_a_saw_that_stands_so_already_is_said_so() -> None:
    option = good_option()
    text = shown(settings_table(option.settings, "mm"))
    again = [one for one in option.settings if one.as_it_stands]
    assert again
    assert text.count("as it stands") == len(again)


def test_numbers_that_follow_each_other_are_drawn_together() -> None:
    assert ranges([1]) == "1"
    assert ranges([1, 2]) == "1, 2"
    assert ranges([1, 2, 3, 7, 9, 10, 11, 12]) == "1-3, 7, 9-12"


def test_without_offcuts_there_is_no_table_of_them() -> None:
    option = good_option()
    assert offcut_table(option.sheets, "mm") is not None
    bare = changed(changed(option, "sheets.0.offcuts", ()), "sheets.1.offcuts", ())
    assert offcut_table(bare.sheets, "mm") is None


def test_each_saw_that_is_used_has_its_note_and_each_caution_its_cuts() -> None:
    option = good_option()
    notes = "\n".join(sawing_notes(option.sheets))
    assert "good face down" in notes
    assert "never along the fence" in notes
    assert "yard" not in notes
    long = [c.number for c in option.sheets[0].cuts if "long" in c.cautions]
    assert f"Sheet 1 cuts {ranges(long)};" in notes


def test_a_cut_that_no_saw_makes_says_what_to_do() -> None:
    def sawless(cut: Cut) -> Cut:
        return cut.model_copy(update={"saw": None, "guide": None, "cautions": ("no saw",)})

    option = changed(good_option(), "sheets.0.cuts.2", sawless)
    notes = "\n".join(sawing_notes(option.sheets))
    assert "Sheet 1 cut 3: none of the saws in [shop] makes this cut" in notes
    assert "rip, at 212" in shown(cut_tables(option.sheets, "mm", 120)[0])
