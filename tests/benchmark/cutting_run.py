"""Cutting one list of the benchmark, and judging the answer without the engine's help."""

from __future__ import annotations

import resource
import time
from collections import Counter
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from solver.cutting.cutting_answer import Answer, SheetAnswer, StickAnswer
from solver.cutting.cutting_problem import StickProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from tests.benchmark.cutting_sets import Asked, Instance
from tests.benchmark.rules_of_thumb import packer_count, strips_count
from tests.cutting_checks import faults

LATE = 1.0
"""Seconds over the limit from which an answer is late."""


@dataclass(frozen=True)
class Result:
    """One list: what the engine did, what others take, and all that is wrong.

    `sheets` and `bound` are over all problems of the list; `packer` and `strips` are None where
    they cannot be compared. `peak` is the most memory that the process has had [MiB].
    """

    instance: Instance
    sheets: int
    bound: int
    proven: bool
    seconds: float
    peak: float
    late: bool
    packer: int | None
    strips: int | None
    wrong: tuple[str, ...]


def run(instance: Instance, limit: float, beside: bool) -> Result:
    """Cut a list within `limit` seconds for each of its problems, then judge the answers."""
    started = time.perf_counter()
    answers = [solve(asked, limit) for asked in instance.problems]
    seconds = time.perf_counter() - started
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    counts = [counted(answer) for answer in answers]
    sheets, bound = sum(count for count, _ in counts), sum(bound for _, bound in counts)
    packer, strips = others(instance) if beside else (None, None)
    wrong = [
        fault
        for asked, answer in zip(instance.problems, answers, strict=True)
        for fault in judged(asked, answer)
    ]
    wrong += refuted(instance, sheets, bound, packer, strips)
    return Result(
        instance=instance,
        sheets=sheets,
        bound=bound,
        proven=all(answer.status is Status.OPTIMAL for answer in answers),
        seconds=seconds,
        peak=peak,
        late=seconds > limit * len(answers) + LATE,
        packer=packer,
        strips=strips,
        wrong=tuple(f"{instance.name}: {fault}" for fault in wrong),
    )


def solve(asked: Asked, limit: float) -> Answer:
    """Run the engine as the command line would."""
    limits = Limits(seconds=limit, work=2 * limit)
    if isinstance(asked, StickProblem):
        return solve_sticks(asked, limits)
    return solve_cutting(asked, limits)


def counted(answer: Answer) -> tuple[int, int]:
    """Sheets or sticks bought, and their bound."""
    return answer.count, answer.count_bound


def others(instance: Instance) -> tuple[int | None, int | None]:
    """Sheets that the packer takes and that strips take, where the list can be compared."""
    packer: int | None = 0
    strips: int | None = 0
    for asked in instance.problems:
        if isinstance(asked, StickProblem):
            return None, None
        strips = _plus(strips, strips_count(asked))
        packer = _plus(packer, packer_count(asked))
    return packer, strips


def _plus(so_far: int | None, count: int | None) -> int | None:
    return None if so_far is None or count is None else so_far + count


def judged(asked: Asked, answer: Answer) -> list[str]:
    """All that is wrong with one answer by itself."""
    if isinstance(asked, StickProblem):
        return stick_faults(asked, cast("StickAnswer", answer))
    return faults(asked, cast("SheetAnswer", answer))


def refuted(
    instance: Instance, sheets: int, bound: int, packer: int | None, strips: int | None
) -> list[str]:
    """Bounds that a known answer refutes, and answers below a proven best."""
    found = [
        f"its bound {bound} is above {name}, {known}"
        for name, known in {"best known": instance.best, "packer": packer, "strips": strips}.items()
        if known and bound > known
    ]
    if instance.best_proven and sheets < instance.best:
        found.append(f"{sheets} sheets are fewer than the proven {instance.best}")
    return found


def stick_faults(asked: StickProblem, answer: StickAnswer) -> list[str]:
    """Everything that is wrong with sticks; empty where they are good."""
    lengths = {piece.id: piece.length for piece in asked.pieces}
    cut = Counter(piece.part for stick in answer.stock for piece in stick.pieces)
    found = [] if cut == Counter(lengths.keys()) else ["each piece once"]
    for number, stick in enumerate(answer.stock):
        at = 0
        for piece in sorted(stick.pieces, key=lambda p: p.start):
            if piece.start < at or piece.length != lengths.get(piece.part):
                found.append(f"stick {number}: size or place of {piece.part}")
            at = piece.start + piece.length + asked.kerf
        if at - asked.kerf > stick.length:
            found.append(f"stick {number}: beyond its end")
    bought = [stick for stick in answer.stock if not stick.on_hand]
    if answer.count != len(bought) or not 0 <= answer.count_bound <= len(bought):
        found.append("count or its bound")
    cost = sum((stick.price or Decimal(0) for stick in bought), Decimal(0))
    if answer.cost != cost or not 0 <= answer.cost_bound <= cost:
        found.append("cost or its bound")
    return found
