"""The longest chain of steps against networkx on the same network (networkx.org, from PyPI)."""

from __future__ import annotations

import networkx as nx
import pytest

from solver.plan.work import Step
from solver.work.build_steps import build_steps
from solver.work.calendar import calendar
from solver.work.critical_path import (
    Clock,
    calendar_steps,
    earliest_starts,
    latest_ends,
    shortest_durations,
)
from tests.networks import drawn
from tests.priced import KINDS, option_of_kind, plan_of_kind

ALWAYS = Clock(24 * 60)
"""Working day and night, a wait is as long as the clock says: what networkx knows."""


def graph(steps: tuple[Step, ...]) -> nx.DiGraph:
    """Each step an edge from its start to its end, each wait an edge between steps."""
    made = nx.DiGraph()
    for step in steps:
        made.add_edge((step.key, "start"), (step.key, "end"), weight=step.minutes)
        for after in step.after:
            made.add_edge((after.step, "end"), (step.key, "start"), weight=after.wait)
    return made


def plain(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The same steps, each of which may stand over a night."""
    return tuple(step.model_copy(update={"in_one_go": False}) for step in steps)


def chain(steps: tuple[Step, ...]) -> int:
    minutes = shortest_durations(steps, 1)
    begun = earliest_starts(steps, minutes, ALWAYS)
    return max(begun[step.key] + step.minutes for step in steps)


@pytest.mark.parametrize("seed", range(20))
def test_longest_chain_of_drawn_networks(seed: int) -> None:
    steps = plain(tuple(drawn(seed, 12)))
    assert chain(steps) == nx.dag_longest_path_length(graph(steps))


@pytest.mark.parametrize("kind", KINDS)
def test_longest_chain_and_critical_steps_of_a_plan(kind: str) -> None:
    steps = plain(calendar_steps(build_steps(plan_of_kind(kind).job, option_of_kind(kind))))
    length = nx.dag_longest_path_length(graph(steps))
    assert chain(steps) == length
    minutes = shortest_durations(steps, 1)
    begun, late = (
        earliest_starts(steps, minutes, ALWAYS),
        latest_ends(steps, minutes, ALWAYS, length),
    )
    critical = {key for key, start in begun.items() if start + minutes[key] == late[key]}
    path = {key for key, _ in nx.dag_longest_path(graph(steps))}
    assert path <= critical


@pytest.mark.parametrize("seed", range(5))
def test_with_people_to_spare_the_calendar_is_the_longest_chain(seed: int) -> None:
    steps = tuple(
        step.model_copy(update={"shared": False}) for step in plain(tuple(drawn(seed, 8)))
    )
    made = calendar(steps, 16, ALWAYS)
    assert made.minutes == nx.dag_longest_path_length(graph(steps))
