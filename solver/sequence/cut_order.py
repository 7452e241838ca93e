"""The order of all cuts: sheets broken down one by one, then equal settings together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import TypeAlias

from solver.job.job import Saw
from solver.sequence.cut_steps import Step
from solver.sequence.saw_choice import SawSetup
from solver.units import Ticks

MANY = 3000
"""With more cuts than these only the quickest priority rule is tried [-]."""

At: TypeAlias = tuple[int, int]
"""Index of the sheet, and of the step in it."""


@dataclass(frozen=True)
class Key:
    """One setting of one saw."""

    way: SawSetup
    trim: bool
    setting: Ticks

    @property
    def where_it_lies(self) -> bool:
        """Whether the saw is brought to the sheet, so that one sheet is cut after the other."""
        return self.way.saw in ("panel saw", "guided saw", None)


@dataclass(frozen=True)
class Task:
    """A step with its saw and setting, waiting to be made."""

    step: Step
    at: At
    key: Key

    @property
    def before(self) -> At | None:
        """The step that must be made before."""
        return None if self.step.before is None else (self.at[0], self.step.before)


@dataclass(frozen=True)
class Run:
    """Cuts made one after the other with one setting."""

    tasks: list[Task]
    as_it_stands: bool
    """Whether the saw still has this setting, since only other saws were used in between."""


@dataclass(frozen=True)
class Rule:
    """A priority rule: how the next setting is chosen among those that are ready."""

    finish_first: bool
    """First the settings of which no cut waits for another setting."""
    longest_first: bool


def in_runs(tasks: Sequence[Task]) -> list[Run]:
    """Return the order with the fewest settings of those by the priority rules, in runs.

    Where longest first and shortest first take as many settings, longest first is kept.
    """
    rules = [Rule(a, b) for b, a in product((True, False), (True, False))]
    rules = [Rule(finish_first=False, longest_first=True)] if len(tasks) > MANY else rules
    return min((_runs(_Work(tasks, rule).ordered()) for rule in rules), key=_settings)


def _settings(runs: Sequence[Run]) -> tuple[int, int]:
    """Return how often a bench saw is set anew, and the number of runs [-]."""
    bench = [run for run in runs if not run.tasks[0].key.where_it_lies]
    return sum(not run.as_it_stands for run in bench), len(runs)


def _runs(order: Sequence[Task]) -> list[Run]:
    stands: dict[Saw | None, Key] = {}
    runs: list[Run] = []
    for task in order:
        saw = task.key.way.saw
        if runs and runs[-1].tasks[-1].key == task.key:
            runs[-1].tasks.append(task)
        else:
            runs.append(Run([task], stands.get(saw) == task.key))
        stands[saw] = task.key
    return runs


@dataclass
class _Work:
    """The tasks left and ready while an order is made: list scheduling by one rule."""

    tasks: Sequence[Task]
    rule: Rule
    left: dict[At, Task] = field(default_factory=dict)
    after: dict[At | None, list[Task]] = field(default_factory=dict)
    """Tasks by the task that must be made before."""
    ready: dict[Key, list[Task]] = field(default_factory=dict)
    stands: dict[Saw | None, Key] = field(default_factory=dict)
    order: list[Task] = field(default_factory=list)

    def ordered(self) -> list[Task]:
        """Return all tasks in order."""
        self.left = {task.at: task for task in self.tasks}
        for task in self.tasks:
            self.after.setdefault(task.before, []).append(task)
        self._free(None)
        while self.left:
            if any(key.where_it_lies for key in self.ready):
                self._at_the_sheet()
            else:
                self._at_the_bench()
        return self.order

    def _free(self, done: At | None) -> None:
        for task in self.after.get(done, ()):
            self.ready.setdefault(task.key, []).append(task)

    def _make(self, task: Task) -> None:
        self.ready[task.key].remove(task)
        if not self.ready[task.key]:
            del self.ready[task.key]
        del self.left[task.at]
        self.stands[task.key.way.saw] = task.key
        self.order.append(task)
        self._free(task.at)

    def _at_the_sheet(self) -> None:
        """Make the next cut for which the saw is brought to the sheet, on the same sheet first.

        All cuts at the yard come before the others.
        """
        ready = [t for key, tasks in self.ready.items() if key.where_it_lies for t in tasks]
        last = self.order[-1].at[0] if self.order else -1

        def rank(task: Task) -> tuple[bool, bool, At]:
            return task.key.way.saw != "panel saw", task.at[0] != last, task.at

        self._make(min(ready, key=rank))

    def _at_the_bench(self) -> None:
        """Make all cuts that are ready at one setting: the present one, or the best next."""
        waiting = self._waiting() if self.rule.finish_first else set()
        key = min(self.ready, key=lambda ready: self._rank(ready, waiting))
        while key in self.ready:
            self._make(min(self.ready[key], key=lambda task: task.at))

    def _rank(self, key: Key, waiting: set[Key]) -> tuple[bool, bool, int, str]:
        size = -key.setting if self.rule.longest_first else key.setting
        stands = self.stands.get(key.way.saw) == key
        return not stands, key in waiting, size, f"{key.way.saw} {key.way.guide} {key.trim}"

    def _waiting(self) -> set[Key]:
        """Return the settings of which some cut waits for a cut with another setting."""
        keys: set[Key] = set()
        for task in self.left.values():
            before = self.left.get(task.before) if task.before is not None else None
            while before is not None and before.key == task.key:
                before = self.left.get(before.before) if before.before is not None else None
            if before is not None:
                keys.add(task.key)
        return keys
