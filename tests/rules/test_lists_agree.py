"""Cut list, sheet plan, buy list, price and steps come from one part list, piece by piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

import pytest

from solver.costing import hardware_catalogue
from solver.costing.buy_list import buy_list
from solver.costing.estimate import estimate
from solver.costing.hardware import hardware_list
from solver.costing.labour_tasks import works
from solver.job.job import Job
from solver.job.labour_table import SECOND_PERSON
from solver.plan.plan import Option
from solver.trim.trim_sets import trim_sets
from solver.work.build_steps import STEPS_OF_HARDWARE, build_steps, with_hardware
from tests.priced import KINDS, option_of_kind, plan_of_kind


def listed(option: Option, job: Job) -> Counter[str]:
    """Every piece that is made: the cut list, and what comes from mouldings, as trim lists it."""
    trim = [p.id for one in trim_sets(job, option) for p in one.pieces if p.got == "moulding"]
    return Counter([part.id for part in option.parts] + trim)


def planned(option: Option) -> Counter[str]:
    """Every piece on a sheet or a stick of the plan."""
    sheets = [piece.part for sheet in option.sheets for piece in sheet.pieces]
    return Counter(sheets + [piece.part for one in option.mouldings for piece in one.pieces])


def differences(job: Job, option: Option) -> Iterator[str]:
    """Say where two lists do not agree."""
    wanted = listed(option, job)
    if planned(option) != wanted:
        yield "sheet plan"
    bought = buy_list(job, option)
    if Counter(part for line in bought.lines for part in line.of) != wanted:
        yield "buy list"
    stock = [line for line in bought.lines if line.place in ("sheets", "mouldings")]
    if sum(line.need for line in stock) != len(option.sheets) + len(option.mouldings):
        yield "number of sheets and sticks"
    steps = build_steps(job, option)
    cut = [part for step in steps if step.key in ("sheets", "sticks") for part in step.of]
    if Counter(cut) != wanted:
        yield "pieces that are cut"
    boards = {part.id for part in option.parts}
    sanded = {p for step in steps for work in step.works if work.task == "sanding" for p in work.of}
    if sanded != boards:
        yield "boards that are sanded"
    fixed = {
        part for step in steps for work in step.works if work.task in PUT_ON for part in work.of
    }
    trim = [piece for one in trim_sets(job, option) for piece in one.pieces]
    if fixed != {piece.id for piece in trim if piece.got != "sheet"}:  # a toe is a board
        yield "trim that is put on"


PUT_ON = ("lip", "banding", "trim that travels", "trim on the wall", "scribing")


@pytest.mark.parametrize("kind", KINDS)
def test_every_piece_is_in_every_list_once(kind: str) -> None:
    assert list(differences(plan_of_kind(kind).job, option_of_kind(kind))) == []


@pytest.mark.parametrize("kind", ["hung, classical", "two bays"])
def test_a_piece_that_is_on_no_sheet_is_found(kind: str) -> None:
    option = option_of_kind(kind)
    first = option.sheets[0].model_copy(update={"pieces": option.sheets[0].pieces[1:]})
    short = option.model_copy(update={"sheets": (first, *option.sheets[1:])})
    assert list(differences(plan_of_kind(kind).job, short)) == [
        "sheet plan",
        "buy list",
        "pieces that are cut",
    ]


def test_a_stick_that_is_missing_is_found() -> None:
    option = option_of_kind("hung, classical")
    short = option.model_copy(update={"mouldings": option.mouldings[1:]})
    found = list(differences(plan_of_kind("hung, classical").job, short))
    assert found == ["sheet plan", "buy list", "pieces that are cut"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_work_is_in_one_step_and_hours_of_price_and_steps_are_the_same(kind: str) -> None:
    job, option = plan_of_kind(kind).job, option_of_kind(kind)
    found = works(job, option)
    steps = build_steps(job, option)
    taken = [work for step in steps for work in step.works]
    assert Counter(map(repr, taken)) == Counter(map(repr, found))
    made = estimate(job, option)
    alone = sum((work.minutes for work in taken), Decimal(0))
    second = next(line for line in made.extras if line.what == SECOND_PERSON)
    assert made.minutes == alone + second.minutes
    more = sum((work.minutes * (work.people - 1) for work in taken), Decimal(0))
    assert second.minutes == more


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_bought_is_what_the_plan_costs(kind: str) -> None:
    plan, option = plan_of_kind(kind), option_of_kind(kind)
    made = estimate(plan.job, option)
    assert made.buying == buy_list(plan.job, option)
    assert option.cost is not None
    stock = [line for line in made.buying.lines if line.place in ("sheets", "mouldings")]
    known = sum((line.amount for line in stock if line.amount is not None), Decimal(0))
    assert known == option.cost.sheets + option.cost.mouldings
    assert made.sums[0].amount == sum(
        (line.amount for line in made.buying.lines if line.amount is not None), Decimal(0)
    )


@pytest.mark.parametrize("kind", KINDS)
def test_steps_come_after_what_they_wait_for(kind: str) -> None:
    steps = build_steps(plan_of_kind(kind).job, option_of_kind(kind))
    done: set[str] = set()
    for step in steps:
        assert {one.step for one in step.after} <= done, step.key
        done.add(step.key)
    assert len(done) == len(steps)


@pytest.mark.parametrize("kind", KINDS)
def test_hardware_is_bought_and_goes_into_the_steps_to_the_last_screw(kind: str) -> None:
    job, option = plan_of_kind(kind).job, option_of_kind(kind)
    lines = hardware_list(job, option)
    bought = {line.key: line for line in buy_list(job, option).lines}
    used: Counter[str] = Counter()
    for step in build_steps(job, option):
        used.update({one.line: one.count for one in step.fittings})
    assert used == Counter({line.key: line.need for line in lines})
    assert all(bought[line.key].need == line.need + line.spare for line in lines)
    assert all(bought[line.key].packs == line.packs for line in lines)
    stock = {line.key for line in bought.values() if line.place in ("sheets", "mouldings")}
    assert {line.key for line in lines} | stock == set(bought)


def test_every_kind_of_hardware_has_a_step() -> None:
    known = [
        one.key
        for one in vars(hardware_catalogue).values()
        if isinstance(one, hardware_catalogue.Kind)
    ]
    assert len(known) > 20
    assert [key for key in known if key not in STEPS_OF_HARDWARE] == []


def test_hardware_without_a_step_is_found() -> None:
    job, option = plan_of_kind("wall").job, option_of_kind("wall")
    line = hardware_list(job, option)[0]
    line = line.model_copy(update={"key": "turnbuckle", "kind": "turnbuckle"})
    with pytest.raises(ValueError, match="no step takes 'turnbuckle'"):
        with_hardware(build_steps(job, option), [line])


def test_what_is_done_to_a_doorway_is_done_once_for_all_its_cases() -> None:
    job, option = plan_of_kind("pair in a doorway").job, option_of_kind("pair in a doorway")
    counts = Counter(work.task for work in works(job, option))
    assert counts["carrying in"] == 2
    for once in ("old door out", "preparing the opening", "disposal", "patching"):
        assert counts[once] == 1, once
    steps = {step.key: step for step in build_steps(job, option)}
    assert "opening right" not in steps
    assert "opening left" in {one.step for one in steps["carry right"].after}
