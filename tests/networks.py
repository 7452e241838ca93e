"""Small networks of steps for tests, and the shortest schedule of one by trying every order."""

from __future__ import annotations

import random
from collections.abc import Sequence
from decimal import Decimal
from itertools import permutations, product

from solver.plan.work import Predecessor, Step, Work
from solver.work.critical_path import Clock


def step(
    key: str,
    minutes: int,
    *after: str | tuple[str, int],
    people: int = 1,
    in_one_go: bool = False,
    shared: bool = False,
) -> Step:
    """Make a step of so many minutes; `after` are keys, or keys and waits [min]."""
    work = Work(task="lip", case=None, count=Decimal(1), minutes=Decimal(minutes), people=people)
    waits = [one if isinstance(one, tuple) else (one, 0) for one in after]
    return Step(
        key=key,
        what=key,
        where="shop",
        works=(work,),
        people=people,
        in_one_go=in_one_go,
        shared=shared,
        after=tuple(Predecessor(step=one, wait=wait) for one, wait in waits),
    )


def drawn(seed: int, count: int) -> list[Step]:
    """Draw a network: times, waits, nights and people of every sort."""
    draw = random.Random(seed)
    steps = []
    for at in range(count):
        before = draw.sample(range(at), k=min(at, draw.choice((0, 1, 1, 2))))
        after = [(f"s{one}", draw.choice((0, 0, 30, 300, 1440))) for one in before]
        people = draw.choice((1, 1, 1, 2))
        steps.append(
            step(
                f"s{at}",
                draw.randrange(0, 200, 10),
                *after,
                people=people,
                in_one_go=draw.random() < 0.3,
                shared=people == 1 and draw.random() < 0.3,
            )
        )
    for at, one in enumerate(steps):
        if one.shared and one.in_one_go:
            steps[at] = one.model_copy(update={"in_one_go": False})
    return steps


def shortest(steps: Sequence[Step], people: int, clock: Clock) -> int:
    """Least end of the last step [min]: every order, and every way of sharing, minute by minute.

    Written apart from the solver: a calendar of single minutes with a count of who is busy.
    """
    ways = [
        ((one.minutes, min(one.people, people)), (-(-one.minutes // people), people))
        if one.shared and people > 1
        else ((one.minutes, min(one.people, people)),)
        for one in steps
    ]
    orders = [
        order
        for order in permutations(range(len(steps)))
        if all(
            order.index(int(w.step[1:])) < order.index(at)
            for at, s in enumerate(steps)
            for w in s.after
        )
    ]
    return min(
        _ended(steps, order, way, people, clock) for order in orders for way in product(*ways)
    )


def _ended(
    steps: Sequence[Step],
    order: Sequence[int],
    ways: Sequence[tuple[int, int]],
    people: int,
    clock: Clock,
) -> int:
    busy: dict[int, int] = {}
    end: dict[str, int] = {}
    for at in order:
        one, (minutes, count) = steps[at], ways[at]
        begin = max((_waited(end[w.step], w.wait, clock.day) for w in one.after), default=0)
        while not _fits(busy, begin, minutes, people - count) or (
            one.in_one_go and begin % clock.day + minutes > clock.day >= minutes
        ):
            begin += 1
        for minute in range(begin, begin + minutes):
            busy[minute] = busy.get(minute, 0) + count
        end[one.key] = begin + minutes
    return max(end.values())


def _fits(busy: dict[int, int], begin: int, minutes: int, free: int) -> bool:
    return all(busy.get(minute, 0) <= free for minute in range(begin, begin + minutes))


def _waited(end: int, wait: int, day: int) -> int:
    """Walk the clock minute by minute: the working minute at which a wait is over."""
    if not wait:
        return end
    morning, into = divmod(end, day)
    if into == 0 and end:
        morning, into = morning - 1, day
    clock = morning * 1440 + into + wait
    return clock // 1440 * day + min(clock % 1440, day)
