"""The order of cuts takes about as few settings as any order could, by trying all."""

from __future__ import annotations

import heapq
import random
from collections.abc import Iterator, Sequence
from typing import TypeAlias

import pytest

from solver.cutting.solve_sheets import solve_cutting
from solver.job.job import Saw
from solver.outcome import Limits
from solver.sequence.cut_order import At, Key, Task, in_runs
from solver.sequence.cut_steps import steps_of
from solver.sequence.sequencing import tasks_of
from solver.units import inches
from tests.cutting_checks import problem
from tests.sequences import a_shop

State: TypeAlias = tuple[frozenset[At], tuple[tuple[Saw | None, Key], ...]]
"""Cuts that are made, and how each saw stands."""


def drawn(seed: int) -> list[Task]:
    """The cuts of a small list of case parts."""
    chance = random.Random(seed)
    widths = [6, 8, 10, 11, 12, 15]
    parts = [
        (inches(chance.randint(20, 80)), inches(chance.choice(widths)), chance.randint(1, 3))
        for _ in range(chance.randint(2, 5))
    ]
    sheet = inches(96), inches(48)
    asked = problem(parts, sheet, kerf=inches("1/8"), edge_trim=inches("1/4"), first_cut="rip")
    sheets = solve_cutting(asked, Limits(work=0.05)).stock
    shop = a_shop(asked)
    steps = [steps_of(index, sheet) for index, sheet in enumerate(sheets)]
    return [task for some in steps for task in tasks_of(some, shop)]


def settings_made(tasks: Sequence[Task]) -> int:
    """How often a bench saw is set in the order given."""
    runs = in_runs(tasks)
    return sum(not (run.as_it_stands or run.tasks[0].key.where_it_lies) for run in runs)


def ready(tasks: Sequence[Task], made: frozenset[At]) -> Iterator[Task]:
    """Cuts that can be made next."""
    for task in tasks:
        if task.at not in made and (task.before is None or task.before in made):
            yield task


def without_setting(tasks: Sequence[Task], state: State) -> State:
    """Make all cuts for which nothing has to be set at a bench saw."""
    made, stands = state
    while True:
        now = {t.at for t in ready(tasks, made) if t.key.where_it_lies or _stands(t, stands)}
        if not now:
            return made, stands
        made |= now


def _stands(task: Task, stands: tuple[tuple[Saw | None, Key], ...]) -> bool:
    return (task.key.way.saw, task.key) in stands


def fewest_settings(tasks: Sequence[Task]) -> int:
    """The fewest settings of any order, by trying all that could be set next."""
    waiting = [(0, 0, without_setting(tasks, (frozenset(), ())))]
    seen: set[State] = set()
    count = 0
    while waiting:
        spent, _, state = heapq.heappop(waiting)
        if len(state[0]) == len(tasks):
            return spent
        if state in seen:
            continue
        seen.add(state)
        for key in {task.key for task in ready(tasks, state[0])}:
            others = tuple((saw, one) for saw, one in state[1] if saw != key.way.saw)
            stands = tuple(sorted((*others, (key.way.saw, key)), key=str))
            count += 1
            then = without_setting(tasks, (state[0], stands))
            heapq.heappush(waiting, (spent + 1, count, then))
    raise AssertionError


@pytest.mark.parametrize("seed", range(12))
def test_no_order_of_the_same_cuts_takes_two_settings_fewer(seed: int) -> None:
    tasks = drawn(seed)
    assert fewest_settings(tasks) <= settings_made(tasks) <= fewest_settings(tasks) + 1


def test_most_lists_get_the_fewest_settings_there_are() -> None:
    lists = [drawn(seed) for seed in range(100, 120)]
    fewest = [settings_made(tasks) == fewest_settings(tasks) for tasks in lists]
    assert sum(fewest) >= 18
