"""Whatever stands in a job file: a job, or the project's own errors that name the file."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from cli.files.job_file import read_job
from cli.files.job_keys import TABLES
from solver.errors import InputError
from solver.job.job import Job

VALUES = st.sampled_from(
    [
        *("1", "0", "-1", "30", "1e3", "nan", "inf", "-inf", "1.5", "99999999999999999999", "true"),
        *('"9-1/2"', '"18 mm"', '"1,200"', '""', '"in"', '"none"', '"x"', '"jug"', '"\\u001b"'),
        *("[]", "[4, 5]", '["9", "x"]', "[[1]]", "[{}]", "[{ length = 96 }]", "{}"),
        *("{ least = 4, most = 6 }", "{ least = 6, most = 4 }", "{ least = 9, mots = 1 }"),
        *('{ moulding = "bead", above = 1 }', "2024-05-02", "12:30:00", '"""a\nb"""', "'lit'"),
    ]
)
FIELDS = sorted({key for table in TABLES.values() for key in table.model.model_fields})
KEYS = st.sampled_from([*FIELDS, "items", "items_sheet", "hieght", "x.y", "units"])
PAIRS = st.dictionaries(KEYS, VALUES, max_size=4)
TABLE = st.tuples(
    st.sampled_from([*(f"[{n}]" for n in TABLES), *(f"[[{n}]]" for n in TABLES), "[x]", ""]), PAIRS
)
PLAIN = (
    '[job]\nunit = "in"\n[[case]]\nname = "a"\nwidth = 30\nheight = 60\n'
    '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\n'
)


def as_toml(tables: list[tuple[str, dict[str, str]]]) -> str:
    """Write tables one below the other."""
    return "\n".join(
        line
        for header, pairs in tables
        for line in (header, *(f"{k} = {v}" for k, v in pairs.items()))
    )


def job_or_message(text: str) -> Job | str:
    """Return the job in a text, or what is said against it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "job.toml"
        path.write_text(text, "utf-8", errors="replace")
        try:
            return read_job(str(path))
        except InputError as error:
            return str(error)


@settings(max_examples=300, deadline=None)
@given(st.lists(TABLE, max_size=6))
def test_any_tables_are_a_job_or_a_message_that_names_the_file(
    tables: list[tuple[str, dict[str, str]]],
) -> None:
    read = job_or_message(as_toml(tables))
    assert isinstance(read, Job) or "job.toml" in read


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(["job", "case", "item", "look", "shop"]), KEYS, VALUES)
@example("case", "uprights", "9")
@example("case", "depth", "{ least = 0.1, most = 9 }")
def test_one_odd_value_in_a_good_job_is_told_in_one_place(table: str, key: str, value: str) -> None:
    header = f"[{table}]" if table == "job" else f"[[{table}]]"
    rest = PLAIN if f"{header}\n" in PLAIN else f"{PLAIN}[{table}]\n"
    where = header if f"{header}\n" in PLAIN else f"[{table}]"
    text = rest.replace(f"{where}\n", f"{where}\n{key} = {value}\n")
    read = job_or_message(text)
    assert isinstance(read, Job) or "job.toml" in read


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200))
def test_any_text_is_a_job_or_a_message_that_names_the_file(text: str) -> None:
    read = job_or_message(text)
    assert isinstance(read, Job) or "job.toml" in read
