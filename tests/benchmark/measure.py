"""Planning one job under a watch: when each thing was known, and what was proven."""

from __future__ import annotations

import hashlib
import resource
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import wraps
from typing import Any
from unittest.mock import patch

from solver.job.job import Job
from solver.layout import layout_engine
from solver.layout.by_rule import by_rule
from solver.layout.rhythm_stage import settle_rhythm
from solver.layout.stage_search import Search
from solver.outcome import Limits
from solver.plan.plan import Option, Plan, Stage
from solver.plan.stage_units import AFTER_RHYTHM
from solver.planning.plan_job import plan_job
from solver.sizing.purchase import Buyer


@dataclass
class Watch:
    """Notes when things become known while a job is planned, in seconds from the start.

    `first`: the first time that stock was chosen and a layout of all bays, found with every
    rule, was at hand. `stock`: the last time that stock was chosen. `settled`: the last time
    that the rhythm was, so that all stages up to it are as the plan states them.
    """

    started: float = field(default_factory=time.perf_counter)
    first: float | None = None
    stock: float | None = None
    settled: float | None = None

    def patches(self) -> list[Any]:
        """What to patch so that everything is noted."""
        return [
            patch.object(Search, "minimise", self._searching(Search.minimise)),
            patch.object(layout_engine, "settle_rhythm", self._settling(settle_rhythm)),
            patch.object(layout_engine, "by_rule", self._ruling(by_rule)),
            patch.object(Search, "feasible", self._searching(Search.feasible)),
            patch.object(Buyer, "stock", self._buying(Buyer.stock)),
        ]

    def _now(self) -> float:
        return time.perf_counter() - self.started

    def _searching(self, search: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(search)
        def wrapped(this: Search, *args: Any, **more: Any) -> Any:
            found = search(this, *args, **more)
            whole = this.solution is not None and not this.v.merge
            if self.first is None and self.stock is not None and whole:
                self.first = self._now()
            return found

        return wrapped

    def _settling(self, settle: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(settle)
        def wrapped(*args: Any) -> Any:
            settled = settle(*args)
            if settled is not None:
                self.settled = self._now()
            return settled

        return wrapped

    def _ruling(self, rule: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(rule)
        def wrapped(*args: Any) -> Any:
            layout = rule(*args)
            if self.first is None and self.stock is not None and layout is not None:
                self.first = self._now()
            return layout

        return wrapped

    def _buying(self, buy: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(buy)
        def wrapped(*args: Any) -> Any:
            answer = buy(*args)
            self.stock = self._now()
            return answer

        return wrapped


@dataclass(frozen=True)
class Figures:
    """What was measured of one run; lengths in mm, times in seconds, None where there is none.

    `stages` has (value, bound) of each stage of the recommended option; `digest` is of the
    whole plan without its timing.
    """

    kinds: int
    things: int
    bays: int
    options: int
    status: str
    proven: bool
    first: float | None
    stock: float | None
    settled: float | None
    whole: float
    stages: dict[str, tuple[float | None, float | None]]
    peak: float
    digest: str


def measure(job: Job, limits: Limits) -> Figures:
    """Plan a job in this process; `peak` is the most memory that the process ever had [MiB]."""
    watch = Watch()
    patches = watch.patches()
    for one in patches:
        one.start()
    try:
        plan = plan_job(job, limits)
    finally:
        for one in patches:
            one.stop()
    return figures(job, plan, watch)


def figures(job: Job, plan: Plan, watch: Watch) -> Figures:
    """Put what was noted together with what the plan says of its recommended option."""
    option = plan.options[0]
    return Figures(
        kinds=len(job.items),
        things=sum(item.count for item in job.items),
        bays=sum(len(counts) for counts in option.shelf_counts.values()),
        options=len(plan.options) + plan.not_shown,
        status=option.status,
        proven=_proven(option),
        first=watch.first,
        stock=watch.stock,
        settled=watch.settled,
        whole=plan.timing.seconds,
        stages={stage.name: _reached(stage) for stage in option.stages},
        peak=resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        digest=hashlib.sha256(plan.to_json(timing=False).encode()).hexdigest(),
    )


def _proven(option: Option) -> bool:
    """Whether every stage that can be is proven, even where something is left out."""
    return bool(option.stages) and all(
        stage.proven for stage in option.stages if stage.name not in AFTER_RHYTHM
    )


def _reached(stage: Stage) -> tuple[float | None, float | None]:
    return (
        None if stage.value is None else float(stage.value),
        None if stage.bound is None else float(stage.bound),
    )
