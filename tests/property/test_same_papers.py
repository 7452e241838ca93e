"""Every file comes out the same, byte for byte, in processes that hash otherwise.

Plans and tables from the same job at default settings, in whatever time zone, and whether one
combination of shelf counts is solved at a time or several; papers, drawings and lists from the
same plan. Timings alone may differ.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "fixtures" / "jobs"
RUN = """
import json, os, sys
workers, commands = json.loads(sys.stdin.read())
os.cpu_count = lambda: workers
from cli.main import run
for words in commands:
    sys.argv = ["casewright", *words.split()]
    try:
        run()
    except SystemExit as end:
        if end.code:
            raise
"""
"""Runs commands one after the other in one process, with so many workers at a time."""

DECIDED = (
    "plan job.toml --no-keep --json plan.json --csv tables --xlsx tables.xlsx",
    "tradeoff job.toml --json front.json",
    "cut pieces.csv --sheet 96x48@84 --json cut.json --csv cut",
)
PRINTED = (
    "papers plan.json -o papers --date 2026-11-25",
    "draw plan.json -o drawings --format svg,pdf,png,dxf",
    "draw plan.json --kind stick --format pdf -o sticks",
    "show plan.json -o page.html",
    "buy plan.json --csv buy.csv --json buy.json --explain",
    "price plan.json --csv price.csv --json price.json",
    "steps plan.json --json steps.json",
    "hang plan.json --json hang.json --explain",
    "trim plan.json --json trim.json --explain",
)
OTHERS = [("1", 2, "Asia/Tokyo"), ("4711", 3, "America/New_York")]
"""Seed of the hashes, workers, time zone."""


def written(
    folder: Path, commands: tuple[str, ...], hashes: str, workers: int, zone: str
) -> dict[str, bytes]:
    """Every file that the commands leave in a folder, by its name, and what they say."""
    done = subprocess.run(
        [sys.executable, "-c", RUN],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": hashes, "TZ": zone},
        input=json.dumps([workers, commands]).encode(),
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()
    files = {
        str(path.relative_to(folder)): without_timing(path)
        for path in folder.rglob("*")
        if path.is_file()
    }
    return {**files, "what is said": done.stdout}


def without_timing(path: Path) -> bytes:
    data = path.read_bytes()
    if path.suffix != ".json":
        return data
    read = json.loads(data)
    if not isinstance(read, dict) or read.pop("timing", None) is None:
        return data
    return json.dumps(read, indent=1).encode()


def assert_same(one: dict[str, bytes], other: dict[str, bytes]) -> None:
    assert sorted(one) == sorted(other)
    assert [name for name in one if one[name] != other[name]] == []


def job_folder(folder: Path) -> Path:
    """A job of three shelf counts, and a list to cut."""
    folder.mkdir()
    text = (JOBS / "symmetric.toml").read_text("utf-8")
    assert "shelves = 4" in text
    (folder / "job.toml").write_text(text.replace("shelves = 4", "shelves = [3, 4, 5]"), "utf-8")
    pieces = "name,length,width,count\nside,70,11-1/4,4\nshelf,34-1/2,11-1/8,9\nrail,34-1/2,3,5\n"
    (folder / "pieces.csv").write_text(pieces, "utf-8")
    return folder


def plan_folder(folder: Path, plan: bytes) -> Path:
    folder.mkdir()
    (folder / "plan.json").write_bytes(plan)
    return folder


@pytest.fixture(scope="module")
def decided(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What is written of a job, one combination at a time."""
    folder = job_folder(tmp_path_factory.mktemp("decided") / "job")
    return written(folder, DECIDED, "0", 1, "UTC")


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The plan of a hung case in a doorway, with trim."""
    folder = tmp_path_factory.mktemp("plan")
    (folder / "job.toml").write_bytes((JOBS / "hall-door.toml").read_bytes())
    written(folder, DECIDED[:1], "0", 1, "UTC")
    return (folder / "plan.json").read_bytes()


@pytest.fixture(scope="module")
def printed(plan: bytes, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What is written of the plan."""
    folder = plan_folder(tmp_path_factory.mktemp("printed") / "job", plan)
    return written(folder, PRINTED, "0", 1, "UTC")


@pytest.mark.slow
@pytest.mark.parametrize(("hashes", "workers", "zone"), OTHERS)
def test_a_job_gives_the_same_plan_front_and_tables(
    decided: dict[str, bytes], tmp_path: Path, hashes: str, workers: int, zone: str
) -> None:
    assert_same(decided, written(job_folder(tmp_path / "job"), DECIDED, hashes, workers, zone))


@pytest.mark.slow
@pytest.mark.parametrize(("hashes", "workers", "zone"), OTHERS)
def test_a_plan_gives_the_same_papers_drawings_and_lists(
    plan: bytes, printed: dict[str, bytes], tmp_path: Path, hashes: str, workers: int, zone: str
) -> None:
    kinds = {Path(name).suffix for name in printed}
    assert {".pdf", ".svg", ".png", ".dxf", ".html", ".xlsx", ".csv", ".json"} <= kinds
    folder = plan_folder(tmp_path / "job", plan)
    assert_same(printed, written(folder, PRINTED, hashes, workers, zone))


def test_a_difference_is_seen() -> None:
    one = {"a": b"1", "b": b"2"}
    assert_same(one, {"b": b"2", "a": b"1"})
    for other in ({"a": b"1"}, {"a": b"1", "b": b"3"}):
        with pytest.raises(AssertionError):
            assert_same(one, other)
