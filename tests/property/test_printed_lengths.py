"""What is printed is what the plan has: every mark, dimension and size, to the tick.

Texts are gathered from drawings, papers and tables of small jobs of any kind, read back by the
rule of the signs, and held against ticks taken from the plan itself.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from cli.files.job_file import read_job
from cli.papers.issue import Issue
from cli.papers.marking_out import marking_out
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Unit, caliper, format_length
from tests.edits import more, put
from tests.job_strategies import any_jobs
from tests.printed import STEP, fault
from tests.printed_of_plan import inexact_marks, wrong
from tests.sample_plans import good_plan

JOBS = Path(__file__).resolve().parents[2] / "fixtures" / "jobs"


@settings(
    max_examples=8,
    derandomize=True,
    deadline=None,
    phases=[Phase.generate],  # a plan takes about a second: smaller ones are not looked for
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(any_jobs(kinds=2, most=2))
def test_every_printed_length_of_any_job_is_that_of_its_plan(job: Job) -> None:
    plan = plan_job(job, Limits(work=0.02), near=False)
    option = plan.options[0]
    if option.cases:
        assert wrong(plan, option) == []
        assert inexact_marks(plan, option) == []


@pytest.mark.parametrize("name", ["good", "hung"])
def test_every_printed_length_of_known_jobs_is_that_of_its_plan(name: str) -> None:
    plan = good_plan() if name == "good" else hung_plan()
    assert wrong(plan, plan.options[0]) == []
    assert inexact_marks(plan, plan.options[0]) == []


def hung_plan() -> Plan:
    return plan_job(read_job(str(JOBS / "hall-door.toml")), Limits(work=0.5), near=False)


LENGTHS = st.integers(1, 2500 * TICKS_PER_MM)


@given(LENGTHS, st.sampled_from(["in", "mm"]))
def test_a_wrong_sign_and_a_wrong_step_are_seen(ticks: int, unit: Unit) -> None:
    text = format_length(ticks, unit)
    bare = text.rstrip("+−")
    assert fault(text, ticks, unit) == ""
    for other in {bare, f"{bare}+", f"{bare}−"} - {text}:
        assert "should end with" in fault(other, ticks, unit)
    assert fault(format_length(ticks + STEP[unit], unit), ticks, unit)
    assert bool(fault(text, ticks, unit, exact=True)) == (bare != text)


def test_finer_steps_and_other_texts_are_seen() -> None:
    assert "steps" in fault("7-3/64", 7 * TICKS_PER_INCH + 3 * 127, "in")
    assert "steps" in fault("18.25", 18 * TICKS_PER_MM + 80, "mm")
    assert "no length" in fault("about 7", 7 * TICKS_PER_INCH, "in")


def test_marks_are_called_exact_only_where_every_one_is() -> None:
    plan = good_plan()
    off = put(plan, "options.0.cases.0.bays.0.shelves.0.underside", more(1))
    for one, exact in ((plan, True), (off, False)):
        texts = [str(block) for block in marking_out(Issue(one, one.options[0], "1", None)).blocks]
        assert any("marks are exact" in text for text in texts) == exact
        assert any("a little more or less" in text for text in texts)


@given(LENGTHS, st.sampled_from(["in", "mm"]))
def test_a_thickness_is_printed_as_calipers_show_it(ticks: int, unit: Unit) -> None:
    number, _, of = caliper(ticks, unit).partition(" ")
    per, step = (TICKS_PER_INCH, 1000) if unit == "in" else (TICKS_PER_MM, 100)
    assert of == unit
    assert Fraction(number) * step % 1 == 0
    assert 2 * abs(Fraction(number) - Fraction(ticks, per)) <= Fraction(1, step)
