"""Tables for spreadsheets: exact lengths, and names that stay names."""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from zipfile import ZipFile, is_zipfile

import pytest
from openpyxl import load_workbook

from cli.drawings.fonts import FAMILIES
from cli.files.export import (
    TABLES,
    WHERE_ANY,
    check_csv,
    frames,
    guarded_cell,
    write_csv,
    write_xlsx,
)
from cli.files.workbooks import length_format, workbook
from solver.errors import InputError
from solver.job.price_terms import ListPrice, PriceList
from solver.plan.plan_frames import (
    decimal_length,
    mouldings_frame,
    parts_frame,
    placements_frame,
    positions_frame,
    sheets_frame,
)
from solver.plan.saw_frames import cuts_frame, offcuts_frame, settings_frame
from solver.units import TICKS_PER_INCH, Unit, format_length, inches, mm
from tests.sample_display import renamed, sample_plan
from tests.sample_plans import good_plan

UNITS: tuple[Unit, ...] = ("in", "mm")
OF_SAMPLE = [name for name in TABLES if name == "trim" or name not in WHERE_ANY]
"""The sample is built in, so that it has strips, but no hinges and no lips."""
STRANGE = ["=1+1", "+1", "-1", "@x", "\tx", '=cmd|"/c calc"!A1']


def read(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8"))))


@pytest.mark.parametrize("ticks", [0, 1, 127, 5760, 8128, 731520, 32_000_000])
def test_millimetres_are_exact_and_inches_name_one_tick(ticks: int) -> None:
    assert decimal_length(ticks, "mm") * 320 == ticks
    assert round(decimal_length(ticks, "in") * TICKS_PER_INCH) == ticks


def test_sixty_fourths_are_exact_in_inches() -> None:
    assert decimal_length(inches("7-3/64"), "in") == Decimal(7) + Decimal(3) / Decimal(64)


def test_every_board_thing_part_and_piece_of_every_option_has_a_row() -> None:
    plan = sample_plan()
    bays = [bay for o in plan.options for case in o.cases for bay in case.bays]

    assert len(positions_frame(plan)) == sum(len(bay.shelves) + 2 for bay in bays)
    assert len(placements_frame(plan)) == sum(len(o.items) for bay in bays for o in bay.openings)
    assert len(parts_frame(plan)) == sum(len(option.parts) for option in plan.options)
    assert len(sheets_frame(plan)) == sum(
        len(sheet.pieces) for option in plan.options for sheet in option.sheets
    )


def test_each_frame_names_the_option_first_and_each_length_twice() -> None:
    for frame in frames(good_plan()).values():
        assert frame.columns[0] == "option"
        doubled = [column for column in frame.columns if str(column).endswith("_mm")]
        assert all(str(column).removesuffix("_mm") in frame.columns for column in doubled)


def test_marks_stand_as_numbers_and_as_text() -> None:
    frame = positions_frame(sample_plan())
    shelf = frame[(frame["option"] == "6 shelves") & (frame["board"] == "shelf 1")].iloc[0]

    assert shelf["underside_in"] == Decimal(19) + Decimal(5) / Decimal(8)
    assert shelf["underside"] == "19-5/8 in"


def test_every_cut_setting_and_offcut_has_a_row_and_each_cut_its_setting() -> None:
    option = good_plan().options[0]
    cuts = cuts_frame(good_plan())

    assert len(cuts) == sum(len(sheet.cuts) for sheet in option.sheets)
    assert len(offcuts_frame(good_plan())) == sum(len(sheet.offcuts) for sheet in option.sheets)
    assert len(settings_frame(good_plan())) == sum(len(one.cuts) for one in option.settings)
    for _, row in cuts.iterrows():
        setting = option.settings[row["setting"] - 1]
        assert (row["saw"], row["guide"]) == (setting.saw, setting.guide)
        assert row["set_to_mm"] * 320 == setting.setting


def test_a_missing_cell_turns_no_whole_number_into_a_fraction() -> None:
    frame = placements_frame(good_plan())
    stacked = [on for on in frame["on"] if on is not None]

    assert stacked
    assert all(type(on) is int for on in stacked)


def test_mouldings_have_a_table_where_there_are_any() -> None:
    assert list(frames(sample_plan())) == OF_SAMPLE
    assert list(frames(good_plan()))[-1] == "mouldings"
    assert len(mouldings_frame(good_plan())) == sum(
        len(stick.pieces) for stick in good_plan().options[0].mouldings
    )


def test_csv_files_hold_the_frames(tmp_path: Path) -> None:
    write_csv(sample_plan(), str(tmp_path / "tables"), force=False)

    names = sorted(path.name for path in (tmp_path / "tables").iterdir())
    assert names == sorted(f"{name}.csv" for name in OF_SAMPLE)
    rows = read(tmp_path / "tables" / "parts.csv")
    assert rows[0]["part"] == "alcove/side-left"
    assert Decimal(rows[0]["length_in"]) == 90


def test_a_name_in_a_csv_file_is_never_a_formula(tmp_path: Path) -> None:
    write_csv(renamed(sample_plan(), STRANGE), str(tmp_path), force=False)

    written = {row["item"] for row in read(tmp_path / "placements.csv")}
    assert {f"'{name}" for name in STRANGE} <= written
    assert not [cell for cell in written if cell.startswith(("=", "+", "-", "@", "\t"))]


def test_only_texts_are_guarded() -> None:
    assert guarded_cell("jug = can") == "jug = can"
    assert guarded_cell(-1) == -1
    assert guarded_cell(None) is None


def test_csv_files_that_exist_are_kept_without_force(tmp_path: Path) -> None:
    (tmp_path / "sheets.csv").write_text("mine")

    with pytest.raises(InputError, match=r"sheets\.csv: this file exists"):
        check_csv(str(tmp_path), force=False)
    with pytest.raises(InputError, match=r"sheets\.csv: this file exists"):
        write_csv(sample_plan(), str(tmp_path), force=False)

    assert [path.name for path in tmp_path.iterdir()] == ["sheets.csv"]
    write_csv(sample_plan(), str(tmp_path), force=True)
    assert (tmp_path / "sheets.csv").read_text().startswith("option,")


def test_a_workbook_holds_the_same_tables_with_texts_as_texts(tmp_path: Path) -> None:
    path = tmp_path / "plan.xlsx"
    write_xlsx(renamed(sample_plan(), [*STRANGE[:3], "a\x1bb"]), str(path), force=False)

    book = load_workbook(path)
    assert book.sheetnames == OF_SAMPLE
    sheet = book["placements"]
    heading = [cell.value for cell in sheet[1]]
    cells = [row[heading.index("item")] for row in sheet.iter_rows(min_row=2)]
    assert [cell.value for cell in cells][:4] == [*STRANGE[:3], "a?b"]
    assert {cell.data_type for cell in cells} == {"s"}
    width = sheet.cell(2, heading.index("width_in") + 1)
    assert width.data_type == "n"


def test_metric_jobs_are_given_in_millimetres() -> None:
    frame = parts_frame(good_plan())

    assert frame["thickness_mm"].iloc[0] == decimal_length(mm(18), "mm") == 18


def shown_by(number_format: str, value: Decimal) -> str:
    """What a spreadsheet shows for a number in one of our formats (ECMA-376, 18.8.31)."""
    body, _, below = number_format.replace('"', "").partition("/")
    sign = number_format[-2] if number_format.endswith('"') else ""
    if not below:
        return f"{value:.{1 if '.' in body else 0}f}{sign}"
    denominator = int(below.rstrip("+−"))
    whole, part = divmod(round(Fraction(value) * denominator), denominator)
    return f"{whole}-{Fraction(part, denominator)}{sign}".removeprefix("0-")


@pytest.mark.parametrize(
    "ticks",
    [0, 127, inches("1/2"), inches("13/16"), inches("11-31/32"), inches("90"), mm("18"), mm("0.3")],
)
def test_a_length_is_a_number_that_its_format_shows_as_on_paper(ticks: int) -> None:
    for unit in UNITS:
        value = decimal_length(ticks, unit)
        assert shown_by(length_format(value, unit), value) == format_length(ticks, unit)


def test_the_same_tables_give_the_same_workbook() -> None:
    tables = frames(good_plan())

    first = workbook(tables, "mm")

    assert workbook(frames(good_plan()), "mm") == first
    book = load_workbook(io.BytesIO(first))
    heading = [cell.value for cell in book["parts"][1]]
    assert "length_mm" in heading
    assert "length" not in heading
    sags = [cell.value for cell in book["shelves"][1]].index("sag_first_mm")
    shown = {row[sags].number_format for row in book["shelves"].iter_rows(min_row=2)}
    assert shown <= {"0.00", "General"}


FIXTURES = sorted(
    path.read_bytes()
    for path in (Path(__file__).parents[2] / "fixtures").glob("**/*.xlsx")
    if is_zipfile(path)
)


@pytest.mark.parametrize("at", range(1 + len(FIXTURES)))
def test_a_workbook_names_no_other_program_and_no_typeface_but_an_open_one(at: int) -> None:
    data = [workbook(frames(good_plan()), "mm"), *FIXTURES][at]
    with ZipFile(io.BytesIO(data)) as parts:
        app, core, styles, theme = (
            parts.read(name).decode()
            for name in ("docProps/app.xml", "docProps/core.xml", "xl/styles.xml",
                         "xl/theme/theme1.xml")
        )  # fmt: skip

    assert re.findall(r">([^<]+)<", app) == ["Casewright"]
    assert "<dc:creator>Casewright</dc:creator>" in core
    assert set(re.findall(r'<name val="([^"]*)"', styles)) == {FAMILIES[0]}
    assert set(re.findall(r'typeface="([^"]*)"', theme)) == {FAMILIES[0], ""}
    assert set(re.findall(r' name="([^"]*)"', theme)) == {"Casewright"}


def test_all_three_readable_workbooks_of_the_fixtures_are_held_to_it() -> None:
    assert len(FIXTURES) == 3


def test_a_price_list_tells_on_what_is_bought() -> None:
    plan = good_plan()
    line = frames(plan)["buying"]["what"].iloc[-1]
    prices = PriceList(prices=(ListPrice(item=line, price=Decimal("12.50")),))

    rows = frames(plan, prices)["buying"]

    assert list(rows[rows["what"] == line]["each"])[-1] == Decimal("12.50")
