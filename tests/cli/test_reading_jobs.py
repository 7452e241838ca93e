"""Job files: what is read, lists beside them, and every fault at once with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.files.job_file import load_job, read_job
from cli.files.reading import read_inventory
from cli.files.toml_text import line_numbers
from solver.errors import InputError, ManyInputsError
from solver.listing.read import read_listing
from solver.units import inches, parse_mass

HEAD = '[job]\nunit = "in"\n'
CASE = '[[case]]\nname = "alcove"\nwidth = "30"\nheight = 60\nshelves = 4\n'
JUG = '[[item]]\nname = "jug"\nwidth = 6\nheight = "9-1/2"\ndepth = 4.5\nweight = "2 lb"\n'


def job_file(folder: Path, text: str) -> str:
    path = folder / "job.toml"
    path.write_text(text, "utf-8")
    return str(path)


def faults(folder: Path, text: str) -> list[str]:
    """Return all messages of a job that cannot be read, without the path of the file."""
    path = job_file(folder, text)
    with pytest.raises(InputError) as caught:
        read_job(path)
    errors = caught.value.errors if isinstance(caught.value, ManyInputsError) else [caught.value]
    return [str(error).replace(path, "job.toml") for error in errors]


def test_a_job_with_its_things_in_it_is_read(tmp_path: Path) -> None:
    job = read_job(job_file(tmp_path, HEAD + CASE + JUG))
    assert job.cases[0].width == inches(30)
    (jug,) = job.items
    assert (jug.width, jug.height, jug.depth) == (inches(6), inches("9-1/2"), inches("4.5"))
    assert jug.weight == parse_mass("2 lb", "in")


def test_what_may_be_given_is_a_weight_or_a_whole_number_as_the_key_asks_for(
    tmp_path: Path,
) -> None:
    site, price = "[site]\nabuse_load = []\n", "[price]\nvalid_days = 0.5\n"
    load, days = faults(tmp_path, HEAD + CASE + JUG + site + price)
    assert "[] is given; allowed: a weight of 0 or more, such as" in load
    assert "0.5 is given; allowed: a whole number from" in days


DOORWAY = (
    '[[doorway]]\nname = "pantry"\nwidths = [30]\nheights = [80]\n'
    'in_the_swing = [{ name = "bookcase", along = 3, case = "tall" }]\n'
)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (CASE.replace("alcove", "Ann's") + 'material = "oak"\n', '[[case]] 1 "Ann\'s" material: '),
        (CASE + CASE.replace('"alcove"', '"nook"\nbeside = "hall"'), '[[case]] 2 "nook" beside: '),
        (CASE + JUG + JUG.replace("jug", "Ann's") * 2, '[[item]] 3 "Ann\'s" name: '),
        (CASE.replace("30", "1-1/2"), '[[case]] 1 "alcove" width: '),
        (CASE + DOORWAY, '[[doorway]] 1 "pantry" in_the_swing: '),
        (CASE + '[site]\nboards = { oak = "mdf" }\n', "[site] boards: "),
        (CASE + '[case.trim]\nscribe = "strip"\n', '[[case]] 1 "alcove" trim: '),
    ],
)
def test_what_does_not_go_together_is_told_at_its_key(tmp_path: Path, text: str, told: str) -> None:
    """Names with an apostrophe too: the place is not read out of the message."""
    things = "" if "[[item]]" in text else JUG
    (message,) = faults(tmp_path, HEAD + text + things)
    assert f": {told}" in message
    assert message.startswith("job.toml line ")


@pytest.mark.parametrize("change", ["\ufeff{}", "{}# end"])
def test_a_byte_order_mark_and_comments_do_no_harm(tmp_path: Path, change: str) -> None:
    assert read_job(job_file(tmp_path, change.format(HEAD + CASE + JUG))).unit == "in"


def test_line_ends_of_windows_are_read(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes((HEAD + CASE + JUG).replace("\n", "\r\n").encode())
    assert read_job(str(path)).unit == "in"


@pytest.mark.parametrize("name", ["list.csv", "lists/list.csv"])
def test_the_list_may_stand_beside_the_job_or_below(tmp_path: Path, name: str) -> None:
    (tmp_path / "lists").mkdir()
    (tmp_path / name).write_text("name,w,h,d\nmug,3,4,3\n", "utf-8")
    read = load_job(job_file(tmp_path, f'{HEAD}items = "{name}"\n{CASE}'))
    assert [item.name for item in read.job.items] == ["mug"]
    assert [listing.items for listing in read.listings] == [read.job.items]


def test_things_of_the_file_beside_it_and_pasted_come_in_that_order(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("name,w,h,d\nmug,3,4,3\n", "utf-8")
    pasted = read_listing("teapot 9 x 6 x 5", "in", "pasted list")
    path = job_file(tmp_path, f'{HEAD}items = "list.csv"\n{CASE}{JUG}')
    assert [item.name for item in read_job(path, items=pasted).items] == ["jug", "mug", "teapot"]


def test_a_thing_that_is_in_two_places_is_asked_about(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("name,w,h,d\nJug,3,4,3\n", "utf-8")
    (said,) = faults(tmp_path, f'{HEAD}items = "list.csv"\n{CASE}{JUG}')
    assert "'jug' is in" in said
    assert "list.csv too; keep one" in said


def test_a_list_by_its_whole_path_may_be_anywhere(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "list.csv").write_text("name,w,h,d\nmug,3,4,3\n", "utf-8")
    folder = tmp_path / "jobs"
    folder.mkdir()
    path = job_file(folder, f'{HEAD}items = "{elsewhere / "list.csv"}"\n{CASE}')
    assert [item.name for item in read_job(path).items] == ["mug"]


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    (tmp_path / "secret.csv").write_text("name,w,h,d\nmug,3,4,3\n", "utf-8")
    (folder / "list.csv").symlink_to(tmp_path / "secret.csv")
    (said,) = faults(folder, f'{HEAD}items = "list.csv"\n{CASE}')
    assert "leads out of the job file's folder" in said


def test_unreadable_lines_of_the_list_are_told_with_its_name(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("name,w,h,d\nmug,3,4,\njug,3,,3\n", "utf-8")
    path = job_file(tmp_path, f'{HEAD}items = "list.csv"\n{CASE}')
    with pytest.raises(ManyInputsError) as caught:
        read_job(path)
    assert [error.where for error in caught.value.errors] == [
        f"{tmp_path / 'list.csv'} line 2",
        f"{tmp_path / 'list.csv'} line 3",
    ]


def test_all_faults_are_told_at_once_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = (
        '[job]\nunit = "in"\ncurency = "USD"\n'
        '[[case]]\nname = "a"\nwidth = "6o"\nheight = 60\n'
        '[[case]]\nname = "b"\nwidth = 30\nheight = 60\nkind = "hangd"\n'
        '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = { least = 1, most = 2 }\n'
        "[look]\nspare = 2\n"
    )
    said = faults(tmp_path, text)
    assert [line.split(": ")[0] for line in said] == [
        "job.toml line 3",
        "job.toml line 6",
        "job.toml line 12",
        "job.toml line 17",
        "job.toml line 19",
    ]
    assert "[job] curency: 'curency' is not known here; did you mean currency?" in said[0]
    assert '[[case]] 1 "a" width: "6o" is given; allowed: a length' in said[1]
    assert '[[case]] 2 "b" kind: "hangd" is given; allowed: "hung", "standing"' in said[2]
    assert '[[item]] 1 "jug" depth: { least = 1, most = 2 } is given; allowed: a length' in said[3]
    assert "[look] spare: 2 is given; allowed: a share from 0 to 0.9" in said[4]


@pytest.mark.parametrize(
    ("table", "key", "meant"),
    [
        ("case", "widht", "width"),
        ("case", "shelfs", "shelves"),
        ("case", "breadth", "width"),
        ("case", "molding", None),
        ("case", "zzz", None),
        ("item", "qty", "count"),
        ("item", "Weight", "weight"),
        ("item", "may-lie", "may_lie"),
        ("look", "head_room", "headroom"),
        ("shop", "kerff", "kerf"),
    ],
)
def test_an_unknown_key_is_told_with_the_nearest_one(
    tmp_path: Path, table: str, key: str, meant: str | None
) -> None:
    tables = {"case": CASE, "item": JUG, "look": "[look]\n", "shop": "[shop]\n"}
    tables[table] += f'{key} = "3"\n'
    said = "\n".join(faults(tmp_path, HEAD + "".join(tables.values())))
    assert f"'{key}' is not known here;" in said
    assert ("did you mean" in said) == (meant is not None)
    if meant:
        assert f"did you mean {meant}?" in said


def test_unknown_keys_inside_a_range_and_a_lip_are_told(tmp_path: Path) -> None:
    case = CASE + 'depth = { least = 8, mots = 9 }\nlip = { moulding = "bead", abov = "1/2" }\n'
    said = "\n".join(faults(tmp_path, HEAD + case + JUG))
    assert "'mots' is not known here; did you mean most? allowed: least, most, wish" in said
    assert "'abov' is not known here; did you mean above? allowed: moulding, above" in said


def test_a_missing_unit_is_told_with_the_misspelt_keys(tmp_path: Path) -> None:
    said = faults(tmp_path, '[job]\nunits = "in"\n' + CASE + JUG)
    assert "unit is missing" in said[0]
    assert "did you mean unit?" in said[1]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("case = 3\n", "write it as a table, under the header [[case]]"),
        ("[[look]]\n", "write [look] with single brackets, once"),
        ("[[doors]]\n", "did you mean [[doorway]]?"),
        ("[cutting]\n", "'cutting' is no table of a job file; tables: [job], [[doorway]]"),
        ('headroom = "1"\n', "stands outside its table; put it under [look]"),
    ],
)
def test_a_wrong_table_is_told(tmp_path: Path, text: str, said: str) -> None:
    top, sub = ("", text) if text.startswith("[") else (text, "")
    assert said in "\n".join(faults(tmp_path, top + HEAD + sub))


@pytest.mark.parametrize(
    ("text", "where", "said"),
    [
        ('[job]\nunit = "in\n', "line 2 column 11", "not valid TOML in 'unit = \"in'"),
        ("[job]\nunit = in\n", "line 2 column 8", "Invalid value"),
        ('[job]\nunit = "in"\nunit = "mm"\n', "line 3", "Cannot overwrite a value"),
        ("[job\n", "line 1", "not valid TOML in '[job'"),
        ("x = [" + "[" * 5000, "job.toml", "this is no job file"),
        ("[job]\nx = 9999-99-99\n", "job.toml", "TOML"),
    ],
)
def test_broken_toml_is_told_with_line_and_column(
    tmp_path: Path, text: str, where: str, said: str
) -> None:
    (message,) = faults(tmp_path, text)
    assert where in message
    assert said in message


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("none.toml", "there is no such file"),
        ("list.csv", "this is a list of things; a job is a .toml file"),
        (".", "this is a folder"),
    ],
)
def test_a_path_that_is_no_job_is_told(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        read_job(str(tmp_path / name))


def test_lines_are_found_for_tables_keys_and_below_long_texts() -> None:
    text = (
        '[job]\nunit = "in"\nnotes = """\n[case]\nwidth = 3\n"""\n\n'
        "[[case]]\nwidth = 3\n[case.lip]\nabove = 1\n[[case]] # second\n  height = 4\n"
    )
    lines = line_numbers(text)
    assert lines["job", "unit"] == 2
    assert lines["case", 0] == 8
    assert lines["case", 0, "width"] == 9
    assert lines["case", 0, "lip", "above"] == 11
    assert lines["case", 1] == 12
    assert lines["case", 1, "height"] == 13
    assert ("case", "width") not in lines


def test_a_worksheet_may_be_named_for_the_list(tmp_path: Path) -> None:
    lists = Path(__file__).parents[2] / "fixtures" / "inventories"
    (tmp_path / "list.xlsx").write_bytes((lists / "collection.xlsx").read_bytes())
    text = f'{HEAD}items = "list.xlsx"\nitems_sheet = "nowhere"\n{CASE}'
    (said,) = faults(tmp_path, text)
    assert "there is no worksheet 'nowhere'; there are:" in said
    read = read_job(job_file(tmp_path, f'{HEAD}items = "list.xlsx"\n{CASE}'))
    assert read.items == read_inventory(str(lists / "collection.csv"), "in").items
