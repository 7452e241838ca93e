"""Advice on any small list: as good as trying everything, and true when it is followed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.changes.confirm import roomy
from solver.cutting.cutting_problem import CutPart, CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from solver.plan.slack_and_advice import Advice
from solver.units import inches
from tests.advice_lists import WORK, Row, advised, advised_on_sticks, parts_of, problem_of

UNIT = inches("1/32")
"""Everything is in whole units, so that a step, the room and a kerf of 1/8 in are 1, 1 and 4."""
KERF = 4


def fewest_bins(sizes: Sequence[int], room: int) -> int:
    """Fewest sticks by trying every way of putting pieces on sticks."""
    best = len(sizes)

    def put(at: int, used: list[int]) -> None:
        nonlocal best
        if len(used) >= best:
            return
        if at == len(sizes):
            best = len(used)
            return
        for i, taken in enumerate(used):
            if taken + KERF + sizes[at] <= room:
                put(at + 1, [*used[:i], taken + KERF + sizes[at], *used[i + 1 :]])
        put(at + 1, [*used, sizes[at]])

    put(0, [])
    return best


def smallest_shortening(size: int, many: int, stick: int, now: int) -> int | None:
    """Least whole units by which alike pieces get shorter and save a stick, with one unit kept."""
    most = min(16, size // 33)
    helps = (by for by in range(1, most + 1) if fewest_bins([size - by] * many, stick - 1) < now)
    return next(helps, None)


@settings(max_examples=60, deadline=None)
@given(st.integers(300, 1100), st.integers(2, 6), st.integers(1100, 2400))
def test_the_shortening_of_alike_pieces_is_the_smallest_that_trying_all_finds(
    size: int, many: int, stick: int
) -> None:
    now = fewest_bins([size] * many, stick)
    wanted = smallest_shortening(size, many, stick, now)

    found = advised_on_sticks([size * UNIT] * many, stick * UNIT, KERF * UNIT)

    given_all = [one for one in found.advice if len(one.parts) == many and one.what == "shorter"]
    assert [one.by for one in given_all] == ([] if wanted is None else [wanted * UNIT])
    assert all(one.smallest for one in given_all)


def sheets_of(strips: int, width: int, room: int) -> int:
    """Sheets for so many strips, each with a saw cut to the next."""
    each = (room + KERF * UNIT) // (width + KERF * UNIT)
    return -(-strips // each)


@settings(max_examples=40, deadline=None)
@given(st.integers(11, 30), st.integers(3, 8))
def test_the_narrowing_of_strips_is_the_smallest_that_arithmetic_allows(
    quarters: int, strips: int
) -> None:
    """n strips and n - 1 cuts in 48 in less the room, by whole steps; one a sheet at the worst."""
    width = quarters * inches("1/4") + inches("3/32")
    parts = parts_of([("side", inches(90), width, strips)])
    room = inches(48) - UNIT
    now = sheets_of(strips, width, inches(48))
    most = min(16, width // 33 // UNIT)
    helps = (by for by in range(1, most + 1) if sheets_of(strips, width - by * UNIT, room) < now)
    wanted = next(helps, None)

    found = advised(problem_of(parts, (inches(96), inches(48))), parts)

    narrower = [one.by for one in found.advice if one.what == "narrower"]
    assert narrower == ([] if wanted is None else [wanted * UNIT])


rows = st.lists(
    st.tuples(
        st.sampled_from(["side", "back", "rail"]),
        st.integers(10, 90).map(inches),
        st.integers(8, 46).map(inches),
        st.integers(1, 3),
    ),
    min_size=1,
    max_size=3,
    unique_by=lambda row: row[0],
)


@settings(max_examples=40, deadline=None)
@given(rows, st.sampled_from([0, inches("1/16")]))
def test_following_any_advice_saves_what_it_says_and_keeps_the_room(
    listed: list[Row], margin: int
) -> None:
    parts = parts_of(listed)
    problem = problem_of(parts, (inches(96), inches(48)), margin=margin)
    now = solve_cutting(problem, Limits(work=WORK)).count

    for one in advised(problem, parts).advice:
        changed = roomy(followed(problem, one), one.slack)
        assert isinstance(changed, CuttingProblem)
        again = solve_cutting(changed, Limits(work=4 * WORK))
        assert again.count <= now - one.sheets_saved
        assert one.sheets_saved >= 1


def followed(problem: CuttingProblem, one: Advice) -> CuttingProblem:
    """The problem as the advice would have it, made from what the advice states alone."""
    if one.what == "kerf":
        return replace(problem, kerf=one.to or 0)
    made: list[CutPart] = []
    for part in problem.parts:
        made += _changed(part, one) if part.id in one.parts else [part]
    return replace(problem, parts=tuple(made))


def _changed(part: CutPart, one: Advice) -> list[CutPart]:
    by = one.by or 0
    if one.what == "shorter":
        return [replace(part, length=part.length - by)]
    if one.what == "narrower":
        return [replace(part, width=part.width - by)]
    if one.what == "grain":
        return [replace(part, may_turn=True)]
    return list(_joined(part, one.text))


def _joined(part: CutPart, text: str) -> Iterator[CutPart]:
    """Two pieces that make up the part with a lap of 1 in, or 1/8 in to true the edges."""
    for number in (1, 2):
        name = f"{part.id} {number}"
        if " long " in text:
            yield replace(part, id=name, length=-(-(part.length + inches(1)) // 2 // UNIT) * UNIT)
        else:
            each = -(-(part.width + inches("1/8")) // 2 // UNIT) * UNIT
            yield replace(part, id=name, width=each)
