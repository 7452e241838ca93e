"""Lists from files and standard input: encodings, workbooks, and what cannot be read at all."""

from __future__ import annotations

import codecs
import datetime
import io
import os
import sys
import zipfile
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import openpyxl
import pytest

from cli.files.reading import BYTES_MOST, read_inventory
from cli.files.workbooks import read_workbook
from solver.errors import InputError, ManyInputsError
from solver.units import parse_length

TEXT = "name,w,h,d\nÉmile’s jug,6 ½,9,4\n"
LISTS = Path(__file__).parents[2] / "fixtures" / "inventories"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_list_is_read_in_each_common_encoding(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(TEXT.encode(encoding))
    listing = read_inventory(str(path), "in")
    (item,) = listing.items
    assert item.name == "Émile’s jug"
    assert item.width == parse_length("6-1/2", "in")
    assert bool(listing.notes) == (encoding == "cp1252")


def test_utf_16_of_the_other_byte_order_is_read_too(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"))
    assert read_inventory(str(path), "in").items[0].name == "Émile’s jug"


def test_bytes_of_no_encoding_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b"jug \x81 6 x 9 x 4")
    with pytest.raises(InputError, match=r"cannot be read in UTF-8, UTF-16 or Windows-1252"):
        read_inventory(str(path), "in")


@pytest.mark.parametrize("ending", [".CSV", ".Txt", ".tsv"])
def test_endings_are_read_in_any_case(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"list{ending}"
    path.write_text("jug 6 x 9 x 4\n", "utf-8")
    assert [item.name for item in read_inventory(str(path), "in").items] == ["jug"]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("list.xls", r"\.xls files are not read; save it as \.xlsx or \.csv"),
        ("list.pdf", r"a list is read from \.csv, \.tsv, \.txt, \.xlsx files"),
        ("list", r"a list is read from"),
        ("none.csv", "there is no such file"),
    ],
)
def test_a_file_of_another_kind_or_none_is_refused(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        read_inventory(str(tmp_path / name), "in")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / "list.csv"
    folder.mkdir()
    with pytest.raises(InputError, match="this is a folder; give the name of a file"):
        read_inventory(str(folder), "in")


@pytest.mark.skipif(os.geteuid() == 0, reason="root reads every file")
def test_a_file_without_permission_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("jug 6 x 9 x 4\n", "utf-8")
    path.chmod(0)
    with pytest.raises(InputError, match="the file cannot be read: Permission denied"):
        read_inventory(str(path), "in")


def test_a_name_that_no_system_takes_is_refused() -> None:
    with pytest.raises(InputError, match="the file cannot be read"):
        read_inventory("list\0.csv", "in")


def test_a_file_that_is_too_large_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    with path.open("wb") as file:
        file.truncate(BYTES_MOST + 1)
    with pytest.raises(InputError, match="larger than 20 MB"):
        read_inventory(str(path), "in")


def pasted(monkeypatch: pytest.MonkeyPatch, data: bytes) -> None:
    stdin = SimpleNamespace(buffer=io.BytesIO(data), isatty=lambda: False)
    monkeypatch.setattr(sys, "stdin", stdin)


def test_a_list_is_read_from_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    pasted(monkeypatch, b"jug\t6\t9\t4\nmug 3 x 4 x\n")
    listing = read_inventory("-", "in")
    assert [item.name for item in listing.items] == ["jug"]
    with pytest.raises(ManyInputsError, match='pasted list line 2: "mug 3 x 4 x"'):
        listing.raise_if_unreadable()


def test_on_a_terminal_it_is_said_how_to_end_the_list(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    stdin = SimpleNamespace(buffer=io.BytesIO(b"jug 6 x 9 x 4"), isatty=lambda: True)
    monkeypatch.setattr(sys, "stdin", stdin)
    assert len(read_inventory("-", "in").items) == 1
    shown = capsys.readouterr()
    assert "Ctrl-D" in shown.err
    assert shown.out == ""


def test_nothing_pasted_is_an_error_that_shows_what_works(monkeypatch: pytest.MonkeyPatch) -> None:
    pasted(monkeypatch, b"")
    with pytest.raises(InputError, match="no things in the list; a line that works: 3 x mantel"):
        read_inventory("-", "in").raise_if_unreadable()


def workbook(*sheets: tuple[str, list[list[Any]]]) -> bytes:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for title, rows in sheets:
        page = book.create_sheet(title)
        for row in rows:
            page.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


HEADER = ["name", "width", "height", "depth", "qty", "may lie"]


def test_a_workbook_holds_the_same_things_as_the_csv() -> None:
    book = read_inventory(str(LISTS / "collection.xlsx"), "in")
    assert book.items == read_inventory(str(LISTS / "collection.csv"), "in").items


def test_numbers_and_truths_of_a_workbook_are_read_as_people_see_them() -> None:
    data = workbook(("list", [HEADER, ["jug", 6.5, 9, "4 1/2", 3.0, True]]))
    (item,) = read_workbook(data, "list.xlsx", "in", None).items
    assert item.width == parse_length("6.5", "in")
    assert item.depth == parse_length("4-1/2", "in")
    assert (item.count, item.may_lie) == (3, True)


def test_the_long_tail_of_a_binary_number_is_cut() -> None:
    data = workbook(("list", [HEADER, ["jug", 0.1 + 0.2, 1e-3 * 9000, 4]]))
    (item,) = read_workbook(data, "list.xlsx", "in", None).items
    assert item.width == parse_length("0.3", "in")
    assert item.height == parse_length("9", "in")


def test_the_first_worksheet_is_read_or_the_named_one() -> None:
    data = workbook(("first", [HEADER, ["jug", 6, 9, 4]]), ("second", [HEADER, ["mug", 3, 4, 3]]))
    assert read_workbook(data, "list.xlsx", "in", None).items[0].name == "jug"
    assert read_workbook(data, "list.xlsx", "in", "second").items[0].name == "mug"
    with pytest.raises(InputError, match="no worksheet 'third'; there are: 'first', 'second'"):
        read_workbook(data, "list.xlsx", "in", "third")


def test_rows_keep_their_numbers_over_empty_ones() -> None:
    data = workbook(("list", [[], HEADER, [], ["jug", 6, 9, None]]))
    listing = read_workbook(data, "list.xlsx", "in", None)
    assert [line.number for line in listing.unreadable] == [4]


def test_dates_and_formulas_without_a_value_are_told_all_at_once_by_cell() -> None:
    rows: list[list[Any]] = [
        HEADER,
        ["jug", datetime.date(2024, 9, 1), 9, 4],
        ["mug", "=1+2", 4, 3],
    ]
    with pytest.raises(ManyInputsError) as caught:
        read_workbook(workbook(("list", rows)), "list.xlsx", "in", None)
    assert [error.where for error in caught.value.errors] == ["list.xlsx B2", "list.xlsx B3"]


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cli.files.workbooks.UNPACKED_MOST", 1000)
    with pytest.raises(InputError, match="unpacks to more than 400 MB"):
        read_workbook(workbook(("list", [HEADER])), "list.xlsx", "in", None)


def test_too_many_rows_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cli.files.workbooks.ROWS_MOST", 2)
    data = workbook(("list", [HEADER, ["jug", 6, 9, 4], ["mug", 3, 4, 3]]))
    with pytest.raises(InputError, match="more than 2 rows"):
        read_workbook(data, "list.xlsx", "in", None)


def test_an_archive_that_is_no_workbook_is_refused() -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("hello.txt", "hello")
    with pytest.raises(InputError, match=r"not a readable \.xlsx file"):
        read_workbook(file.getvalue(), "list.xlsx", "in", None)


def test_a_worksheet_can_be_named_for_workbooks_only() -> None:
    with pytest.raises(InputError, match=r"a worksheet can be named for \.xlsx files only"):
        read_inventory(str(LISTS / "collection.csv"), "in", "first")
