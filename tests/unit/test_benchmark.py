"""The benchmark measures what it says, and its table shows it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from solver.carcass.boards_of_case import case_parts, fits_a_sheet
from solver.outcome import Limits, Status
from solver.planning.plan_job import plan_job
from tests.benchmark.jobs import GENERATED, bench_jobs
from tests.benchmark.layout import HEAD, gap, line, main, median, seconds
from tests.benchmark.measure import Figures, measure
from tests.builders import make_job

STAGES = {"steady": (3.175, 0.0), "together": (12.0, 9.0), "mirrored": (1.0, None)}
ONE = Figures(20, 60, 1, 1, "optimal", True, 0.125, 0.0625, 0.5, 1.5, STAGES, 117.4, "a")  # type: ignore[arg-type]


def test_a_line_has_what_the_head_names() -> None:
    words = line("one case 20", ONE, 1).split()
    assert words[:3] == ["one", "case", "20"]
    assert words[3:8] == ["20", "60", "1", "1", "optimal"]
    assert words[8:] == [
        *("0.12", "0.06", "0.50", "1.50", "1"),  # of times; 0.125 and 0.0625 round to even
        *("1/?", "12/3", "3.175/3.175", "117"),
    ]
    assert len(line("one case 20", ONE, None)) == len(HEAD)


def test_what_is_not_proven_is_marked_in_the_time_to_proof() -> None:
    assert " >0.50 " in line("job", replace(ONE, proven=False), None)


def test_what_is_not_there_is_a_dash_and_an_unknown_bound_a_question() -> None:
    assert seconds(None) == gap(None, 2) == gap((None, 0.0), 2) == "-"
    assert gap((2.0, None), 1) == "2.0/?"


def test_medians_are_of_times_and_the_peak_is_the_most_of_any_run() -> None:
    runs = [ONE, replace(ONE, whole=9.0, first=None, peak=90.0), replace(ONE, whole=2.0, peak=200)]
    assert median(runs) == replace(ONE, whole=2.0, peak=200)


def test_a_plan_is_the_same_under_the_watch_and_its_times_follow_one_another() -> None:
    job = make_job(case={"shelves": 2})
    figures = measure(job, Limits())
    (option,) = plan_job(job).options
    rhythm = next(stage for stage in option.stages if stage.name == "steady")
    assert figures.status == option.status == Status.OPTIMAL
    assert figures.proven
    assert figures.stages["steady"] == (rhythm.value, rhythm.bound)
    assert (figures.kinds, figures.things, figures.bays, figures.options) == (1, 1, 1, 1)
    assert None not in (figures.stock, figures.first, figures.settled)
    assert figures.stock < figures.first < figures.settled < figures.whole + 0.01  # type: ignore[operator]
    assert figures.peak > 10


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_generated_jobs_have_the_sizes_listed_and_can_be_cut(seed: int) -> None:
    made = {job.name: job.make() for job in bench_jobs(seed, 0.7) if job.name in GENERATED}
    assert made.keys() == GENERATED.keys()
    for name, size in GENERATED.items():
        assert len(made[name].items) == size.kinds
        assert sum(item.count for item in made[name].items) == size.things
        assert [case.bay_count for case in made[name].cases] == [size.bays] * size.cases
        for case in made[name].cases:
            assert isinstance(case.depth, int)
            for part in case_parts(made[name], case, case.shelf_counts * size.bays, case.depth):
                assert fits_a_sheet(made[name], part.material, part.length, part.width), part.id


@pytest.mark.slow
def test_a_run_writes_its_figures_and_prints_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["--only", "pair-beside", "--seconds", "20", "--json", str(tmp_path / "figures.json")])
    head, *rest = capsys.readouterr().out.splitlines()
    assert head == HEAD
    (row,) = rest
    assert row.startswith("pair-beside ")
    (run,) = json.loads((tmp_path / "figures.json").read_text("utf-8"))["pair-beside"]
    assert run["status"] in row
    assert f" {run['whole']:.2f} " in row
