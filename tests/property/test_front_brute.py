"""On tiny jobs the front is the one that trying everything gives, exactly."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from solver.carcass.outline import depth_wanted
from solver.intake.load import load
from solver.job.case import SizeRange
from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.pareto_front import ParetoSearch
from solver.layout.pareto_points import Fineness, ParetoFront
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status
from solver.plan.price_front import FrontPoint
from solver.sizing.purchase import Buyer
from solver.tradeoff.trade_off import trade_off
from solver.units import inches
from tests.brute_force import spread
from tests.brute_front import Look, look_of, looks, unbeaten
from tests.builders import make_job
from tests.strategies import tiny_jobs

tiny = settings(
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)
EVERYTHING = Fineness(0, 0)


def traded(job: Job, fineness: Fineness = EVERYTHING) -> ParetoFront:
    """Trade the layouts of the only shelf count of a job of one case and a fixed depth."""
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    problem = build(job, {case.name: case.shelf_counts}, {case.name: depth})
    trading = ParetoSearch(problem, Limits(), fineness)
    trading.first()
    return trading.rest()


def found(trade: ParetoFront) -> set[Look]:
    return {(p.rhythm, p.even.empty, p.even.spread) for p in trade.points}


@settings(tiny, max_examples=60)
@given(tiny_jobs(may_lie=True))
def test_the_layouts_that_are_not_beaten_are_those_of_trying_everything(job: Job) -> None:
    trade, all_looks = traded(job), looks(job)
    if not all_looks:
        assert trade.status is Status.INFEASIBLE
        assert trade.points == []
        return
    assert found(trade) == unbeaten(all_looks)
    assert all(point.proven for point in trade.points)
    assert trade.boxes == []


@settings(tiny, max_examples=30)
@given(tiny_jobs(may_lie=True), st.integers(0, inches("2")), st.integers(0, inches("3")))
def test_whatever_is_not_shown_differs_by_no_more_than_the_fineness(
    job: Job, rhythm: int, headroom: int
) -> None:
    trade = traded(job, Fineness(rhythm, headroom))
    for best, empty, room in unbeaten(looks(job)):
        assert any(
            p.even <= Evenness(empty, room + headroom) and p.rhythm <= best + rhythm
            for p in trade.points
        )


@settings(tiny, max_examples=20)
@given(tiny_jobs(may_lie=True, group=False))
def test_the_front_over_two_shelf_counts_is_that_of_trying_everything(job: Job) -> None:
    """Prices come from the cutting, which has tests of its own."""
    counts = [{job.cases[0].name: (n,)} for n in (1, 2)]
    jobs = [with_shelves(job, n) for n in (1, 2)]
    both = with_shelves(job, (1, 2))
    depth = depth_wanted(job, job.cases[0])
    assert isinstance(depth, int)
    prices = [Buyer(both, Limits()).stock(one, {job.cases[0].name: depth}) for one in counts]
    every = {
        (price.price + price.area_unpriced, round_half_up(rhythm / (n + 2)), empty, room, n + 1)
        for n, (one, price) in enumerate(zip(jobs, prices, strict=True))
        for rhythm, empty, room in unbeaten(looks(one))
    }
    front = trade_off(both, Limits(), every=True)
    assume(every)
    best = {
        one for one in every if not any(o[:4] != one[:4] and as_good(o[:4], one[:4]) for o in every)
    }
    assert {told(point) for point in front.points} == {
        (rhythm, empty, room, shelves) for _, rhythm, empty, room, shelves in best
    }
    assert front.complete


STEP = 8128
"""An inch [tick]: what open depths move on in the next test."""


def depth_that_pays() -> Job:
    """A picture of 12 in that may lie where the case is 12 in deep, which evens the headroom.

    Two strips of 7 in come out of a small sheet, but only one of 12 in.
    """
    picture = {"name": "picture", "width": "10", "height": "12", "depth": "3", "may_lie": True}
    cup = {"name": "cup", "width": "10", "height": "4", "depth": "3"}
    return make_job(
        case={"width": "22", "height": "22", "depth": "7", "shelves": 1, "back": "none"},
        items=[picture, cup],
        look={"headroom": "0", "gap": "0", "end_margin": "0", "clear_least": "4"},
        job={"marking_step": "1 in"},
    )


def test_where_depth_pays_the_front_has_a_dearer_option_that_looks_better() -> None:
    least = depth_that_pays().cases[0].depth
    assert isinstance(least, int)
    job = with_depth(depth_that_pays(), SizeRange(least=least, most=least + 6 * STEP))
    front = trade_off(job)
    cheap, dear = sorted({point.price for point in front.points})
    looks_at = {
        price: min((p.rhythm, p.headroom) for p in front.points if p.price == price)
        for price in (cheap, dear)
    }
    assert looks_at[dear] < looks_at[cheap]


@settings(tiny, max_examples=20)
@example(depth_that_pays(), 6)
@given(tiny_jobs(may_lie=True, group=False), st.integers(1, 4))
def test_the_front_over_an_open_depth_is_that_of_trying_every_depth(job: Job, more: int) -> None:
    """Half sheets make a greater depth cost more now and then."""
    least = job.cases[0].depth
    assert isinstance(least, int)
    depths = [least + n * STEP for n in range(more + 1)]
    every = {
        (cost_at(one), round_half_up(rhythm / (one.cases[0].shelf_counts[0] + 1)), empty, room, 0)
        for one in (with_depth(job, depth) for depth in depths)
        for rhythm, empty, room in unbeaten(looks(one))
    }
    assume(every)
    front = trade_off(with_depth(job, SizeRange(least=least, most=depths[-1])), every=True)
    best = {
        one[1:4]
        for one in every
        if not any(o[:4] != one[:4] and as_good(o[:4], one[:4]) for o in every)
    }
    assert {told(point)[:3] for point in front.points} == best
    assert front.complete


def with_depth(job: Job, depth: int | SizeRange) -> Job:
    """The job at a depth, cut from small sheets that depths tell apart."""
    case = job.cases[0].model_copy(update={"depth": depth, "back": "none"})
    small = {"length": 40 * STEP, "width": 16 * STEP, "price": Decimal(20), "grain": "any"}
    sheets = tuple(sheet.model_copy(update=small) for sheet in job.sheets)
    shop = job.shop.model_copy(update={"cutting_step": STEP})
    changed = {"cases": (case,), "sheets": sheets, "shop": shop}
    return load(job.model_copy(update=changed).model_dump(by_alias=True))


def cost_at(job: Job) -> Decimal:
    case = job.cases[0]
    depth = depth_wanted(job, case)
    assert isinstance(depth, int)
    return Buyer(job, Limits()).stock({case.name: case.shelf_counts}, {case.name: depth}).price


Compared = tuple[object, int, int, int]


def as_good(one: Compared, other: Compared) -> bool:
    return one[0] <= other[0] and one[1] <= other[1] and one[2:] <= other[2:]  # type: ignore[operator]


def with_shelves(job: Job, shelves: int | tuple[int, ...]) -> Job:
    case = job.cases[0].model_copy(update={"shelves": shelves})
    return job.model_copy(update={"cases": (case,)})


def told(point: FrontPoint) -> tuple[int, int, int, int]:
    (shelves,) = next(iter(point.option.shelf_counts.values()))
    fit = any(stage.name == "headroom" for stage in point.option.stages)
    return point.rhythm, point.empty_openings, point.headroom if fit else 0, shelves


def round_half_up(value: Fraction) -> int:
    return int(value + Fraction(1, 2))


# --- The exhaustive front itself, against sums by hand --------------------------------------


def test_two_openings_trade_rhythm_for_headroom() -> None:
    """20 in inside with one board of 1 in: urn of 11 and cup of 6, marks on whole inches.

    The 19 in left are best shared as 11 and 8: each 1-1/2 from the mean of 9-1/2, but with no
    room over the urn and 2 in over the cup. 12 and 7 are 2-1/2 from it, with 1 in over both.
    """
    sheet = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "1"}
    case = {"width": "22", "height": "22", "depth": "9", "shelves": 1, "back": "none"}
    things = [
        {"name": "urn", "width": "10", "height": "11", "depth": "5", "weight": "1 lb"},
        {"name": "cup", "width": "10", "height": "6", "depth": "5", "weight": "1 lb"},
    ]
    job = make_job(
        case=case,
        sheet=[sheet],
        items=things,
        look={"headroom": "0", "gap": "0", "end_margin": "0", "clear_least": "4"},
        job={"marking_step": "1 in"},
    )
    regular = (Fraction(2 * inches("1-1/2")), 0, inches("2"))
    roomy = (Fraction(2 * inches("2-1/2")), 0, 0)
    assert unbeaten(looks(job)) == {regular, roomy}
    assert found(traded(job)) == {regular, roomy}


def test_a_look_by_hand() -> None:
    job = make_job()
    clear, tallest = (inches("12"), inches("9")), (inches("8"), inches("8"))
    assert look_of(job, clear, tallest) == (spread(clear), 0, inches("3"))


def test_what_is_beaten_in_both_is_not_kept() -> None:
    assert unbeaten({(Fraction(1), 0, 5), (Fraction(2), 0, 5), (Fraction(2), 0, 4)}) == {
        (Fraction(1), 0, 5),
        (Fraction(2), 0, 4),
    }
