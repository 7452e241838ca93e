"""On tiny jobs the front is the one that trying everything gives, exactly."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import assume, example, given, settings

from solver.job.job import Job
from solver.layout.fit import NOTHING, at_most, fits_within
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Verdict
from solver.plan.price_front import FrontPoint
from solver.tradeoff.trade_off import trade_off
from tests.brute_front import Figures, least_parted, tried, unbeaten
from tests.builders import make_job
from tests.eye_contents import TooLargeError
from tests.eye_jobs import problem_of
from tests.open_jobs import STEP, open_jobs, tiny
from tests.strategies import tiny_jobs

LIMITS = Limits(work=2.0, seconds=3600)


def everything(job: Job) -> set[Figures]:
    """The figures of all that can be built, where the job is tiny."""
    try:
        found = set(tried(job))
    except TooLargeError:
        found = set()
    assume(found)
    return found


def told(point: FrontPoint) -> Figures:
    """Price, or the area bought [square tick], and places parted."""
    bought = [s for s in point.option.sheets if not s.on_hand and s.price is None]
    return point.price + sum(s.length * s.width for s in bought), point.places_parted


def where_width_pays() -> Job:
    """Two vases of 10 in: abreast in a case 20 in wide, else one in each of two openings.

    A sheet of 24 x 12 in gives two strips for the depth of 5-1/2 in. The sides of 22 in take a
    strip each; three boards of 10 in take two strips, of 20 in three: 4 strips or 5, and so two
    sheets or three.
    """
    sheet = {"name": "s", "material": "ply", "length": "24", "width": "12", "thickness": "3/4"}
    case = {"sizes": "inside", "width": {"least": "10", "most": "20"}, "height": "20-1/2"}
    return make_job(
        case={**case, "depth": "5-1/2", "shelves": 1, "back": "none"},
        sheet=[{**sheet, "price": "20"}],
        items=[{"name": "vase", "width": "10", "height": "8", "depth": "4", "count": 2}],
        look={"headroom": "0", "gap": "0", "end_margin": "0", "clear_least": "4"},
        shop={"edge_trim": "0", "cutting_step": "1"},
        job={"marking_step": "1 in"},
    )


def test_where_width_pays_the_front_has_a_dearer_option_with_fewer_places_parted() -> None:
    front = trade_off(where_width_pays())

    assert {told(point) for point in front.points} == {
        (Decimal(2 * 20), 1),
        (Decimal(3 * 20), 0),
    }
    assert front.complete
    assert front.points[1].premium == 3 * 20 - 2 * 20
    assert front.recommendation == (
        "No. 1 (1 shelf) is recommended: it is the cheapest; no. 2 (1 shelf) looks best (every "
        "kind on one shelf, where no. 1 (1 shelf) parts one) and costs USD 20.00 more."
    )


@settings(tiny, max_examples=20)
@given(tiny_jobs(may_lie=True))
def test_the_front_over_two_shelf_counts_is_that_of_trying_everything(job: Job) -> None:
    case = job.cases[0].model_copy(update={"shelves": (1, 2)})
    job = job.model_copy(update={"cases": (case,)})
    best = unbeaten(everything(job))

    front = trade_off(job, LIMITS)

    assert {told(point) for point in front.points} == best
    assert front.complete


@settings(tiny, max_examples=12)
@example(where_width_pays())
@given(open_jobs())
def test_the_front_over_open_sizes_is_that_of_trying_every_size(job: Job) -> None:
    shop = job.shop.model_copy(update={"cutting_step": STEP[job.unit]})
    job = job.model_copy(update={"shop": shop})
    best = unbeaten(everything(job))

    front = trade_off(job, LIMITS)

    assert {told(point) for point in front.points} == best
    assert front.complete


def test_as_much_fits_with_as_few_places_parted_as_trying_everything_finds() -> None:
    """Several bays, headings, groups, holds: the model's rule at the least, and at one fewer."""
    judged = 0
    for seed in range(60):
        problem = problem_of(seed)
        try:
            fewest = least_parted(problem)
        except TooLargeError:
            continue
        if fewest is None:
            continue
        judged += 1
        ask = [
            fits_within(at_most(problem, places), NOTHING, LIMITS)
            for places in (fewest, fewest - 1)
        ]
        assert ask == [Verdict.YES, Verdict.NO], seed
    assert judged > 20


def test_the_fewest_places_parted_by_hand() -> None:
    """Three vases of 10 in, two abreast in 22 in of which 20-1/2 are clear: two openings."""
    job = make_job(
        case={"width": "22", "height": "30", "depth": "8", "shelves": 1, "back": "none"},
        items=[{"name": "vase", "width": "10", "height": "8", "depth": "4", "count": 3}],
        look={"headroom": "0", "gap": "0", "end_margin": "0", "spare": 0},
        job={"marking_step": "1 in"},
    )
    assert least_parted(build(job, {"case": (1,)}, {"case": 8 * 8128}, share=True)) == 2 - 1


def test_what_is_beaten_in_both_is_not_kept() -> None:
    one, two = Decimal(1), Decimal(2)
    assert unbeaten({(one, 5), (two, 5), (two, 4), (one, 6)}) == {(one, 5), (two, 4)}
