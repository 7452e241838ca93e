"""What is said of each stage of the look, on displays made by hand."""

from __future__ import annotations

import pytest

from solver.plan.built import CasePlan, SharedLines
from solver.planning.look_words import look_points, parted, points, sentences, with_sentences
from tests.looked_at import made_case, made_job, stage, stages
from tests.sample_display import sample_plan

CUPS = ["cup"] * 4
JUGS = ["jug"] * 2


def said(case: CasePlan, name: str, value: float = 0, steady_count: int | None = None) -> str:
    """The sentence of one stage."""
    counts = {thing.item: 0 for bay in case.bays for o in bay.openings for thing in o.items}
    for bay in case.bays:
        for opening in bay.openings:
            for thing in opening.items:
                counts[thing.item] += 1
    job = made_job(counts or {"cup": 1})
    return sentences(job, (case,), (), (stage(name, value),), steady_count)[name]


def openings(*heights: str) -> CasePlan:
    return made_case(*((height, ["cup"]) for height in heights))


@pytest.mark.parametrize(
    ("heights", "words"),
    [
        (("12", "9-7/8", "7-3/4"), "each opening 2-1/8 in lower than the one below"),
        # steps 2-1/8 and 2: within a mark, so the mean 2-1/16
        (("12", "9-7/8", "7-7/8"), "each opening 2-1/16 in lower than the one below"),
        (("12", "9", "8", "6"), "each opening 1 to 3 in lower than the one below"),
        (("9", "9", "8-15/16"), "all openings alike"),
        (("7", "9", "11"), "each opening 2 in higher than the one below"),
        (("9", "7", "10"), "openings change by up to 3 in, up and down"),
        (("12", "9"), "the upper opening 3 in lower than the one below"),
    ],
)
def test_the_fall_of_the_openings(heights: tuple[str, ...], words: str) -> None:
    assert said(openings(*heights), "steady") == words
    assert said(openings(*heights), "graduated") == words


def test_no_steady_fall_and_the_count_that_has_one() -> None:
    # differences 3, 4 and 1 in: 8/3 on average
    case = openings("12", "9", "8")
    words = "openings differ by 2.7 in on average; no steady fall fits these things"
    assert said(case, "even", 1) == words
    assert said(case, "even", 1, steady_count=6) == f"{words}; 6 shelves have one"
    assert said(case, "even", 1, steady_count=1) == f"{words}; 1 shelf has one"
    assert said(openings("9", "9", "9"), "even") == "all openings alike"


def test_even_openings_that_were_asked_for_are_no_failed_fall() -> None:
    job = made_job({"cup": 3})
    even = job.model_copy(update={"look": job.look.model_copy(update={"rhythm": "even"})})
    case = openings("12", "9", "8")
    found = sentences(even, (case,), (), stages("even"))
    assert found == {"even": "openings differ by 2.7 in on average"}


def test_openings_about_mid_height() -> None:
    assert said(openings("9", "8", "9"), "symmetric") == "openings symmetric about mid-height"
    assert said(openings("9-1/2", "8", "9"), "symmetric").endswith("within 1/2 in")


@pytest.mark.parametrize(
    ("heights", "words"),
    [
        (("12", "9", "9"), "tallest lowest"),
        (("12", "9", "9-1/16"), "tallest lowest"),
        (
            ("12", "9", "9-1/2"),
            "tallest lowest but for shelf 2 (1/2 in taller than the one below)",
        ),
        (
            ("9", "10", "12"),
            "tallest lowest but for shelves 1 and 2 (up to 2 in taller than the one below)",
        ),
    ],
)
def test_the_tallest_lowest(heights: tuple[str, ...], words: str) -> None:
    assert said(openings(*heights), "rises", 1) == words


def test_bays_that_differ_are_told_apart_and_lines_are_told_once() -> None:
    job, case = made_job({"cup": 3}), openings("12", "9", "6")
    two = made_case(("12", ["cup"]), ("9", ["cup"]), ("6", ["cup"]), bays=2)
    other = two.bays[1].openings
    low = (other[0], other[1].model_copy(update={"height": other[1].height // 9}), other[2])
    bays = (two.bays[0], two.bays[1].model_copy(update={"openings": low}))
    apart = two.model_copy(update={"bays": bays})
    lines = (SharedLines(bays=(("alcove", 1), ("alcove", 2)), heights=(1, 2)),)
    assert sentences(job, (two,), lines, stages("steady")) == sentences(
        job, (case,), (), stages("steady")
    )
    assert sentences(job, (apart,), (), stages("steady"))["steady"] == (
        "bay 1: each opening 3 in lower than the one below; "
        "bay 2: openings change by up to 11 in, up and down"
    )


def test_mirrored_names_the_shelves_that_cannot_be() -> None:
    whole = made_case(("12", [*JUGS, "plate"]), ("9", CUPS))
    assert said(whole, "mirrored") == "every shelf a mirror image"
    one = made_case(("12", JUGS), ("9", CUPS), ("8", ["cup", "bowl"]), ("8", ["plate"] * 2))
    assert said(one, "mirrored", 1) == "every shelf a mirror image but the second"
    low = made_case(("12", ["jug", "plate"]), ("9", CUPS))
    assert said(low, "mirrored", 1) == "every shelf a mirror image but the bottom"


def test_together_names_kinds_and_their_shelves() -> None:
    assert said(made_case(("12", JUGS), ("9", CUPS)), "together") == "every kind on one shelf"
    case = made_case(("12", [*JUGS, "cup"]), ("9", CUPS), ("8", ["bowl"]))
    assert said(case, "together", 1) == ("every kind on one shelf but cup (the bottom and shelf 1)")
    job = made_job({"jug": 2, "cup": 5, "bowl": 1})
    assert parted(job, (case,)) == ("cup (the bottom and shelf 1)",)


def test_headings_count_what_they_skip() -> None:
    job = made_job({"cup": 4, "jug": 1}, cup={"heading": "Tea"}, jug={"heading": "Tea"})
    case = made_case(("12", ["jug"]), ("9", []), ("9", CUPS))
    found = sentences(job, (case,), (), stages("headings"))
    assert found["headings"] == "no heading on one shelf: Tea (the bottom and shelf 2)"


def test_alone_names_the_thing_and_its_shelf() -> None:
    case = made_case(("12", ["jug", "jug", "jug"]), ("9", CUPS), ("10", ["jug", "bowl"]))
    assert said(case, "alone", 1) == ("no thing stands apart from its kind but one jug on shelf 2")
    pair = made_case(("12", ["jug"]), ("10", ["jug"]))  # of two, none is alone
    assert said(pair, "alone") == "no thing stands apart from its kind"


def test_air_and_empty_shelves() -> None:
    case = made_case(("10-1/4", JUGS), ("5-3/4", CUPS), ("8", []))
    assert said(case, "air", 1) == "1-1/4 to 2-3/4 in of air"
    assert said(case, "to-fit", 1) == "1-1/4 to 2-3/4 in of air"
    assert said(case, "empty", 1) == "shelf 2 empty"
    assert said(case, "empty", 0) == "shelf 2 kept empty"
    assert said(made_case(("10", JUGS), ("4", CUPS)), "air") == "1 in of air"


def test_the_later_wishes() -> None:
    case = made_case(("12", ["jug", "cup"]), ("9", ["plate"]))
    # 30 x 12 less 5 x 9 and 4 x 3 leaves 303 of 360; 30 x 9 less 8 x 8 leaves 206
    assert said(case, "void", 1) == "largest empty front on the bottom, 84 % of it"
    assert said(case, "roomy", 1) == "at most 9 in of things on a shelf of 30 in"
    # 4 in wide and 6 in lower, of 4 + 5 + 8 in of things: 24 / 17 = 1.41
    assert (
        said(case, "beside", 1) == "things 1-7/16 in lower than the tallest beside them, on average"
    )
    # eye level 58 in; the cup's middle is 3/4 + 1-1/2 in up
    assert said(case, "heavy") == "nothing above the eye line"


def test_composition_tells_the_outline_without_mirror_image() -> None:
    assert said(made_case(("12", JUGS), ("9", CUPS)), "composition") == "every row a mirror image"
    # 30 in less 9 in of things leave gaps of 7: a jug from 7 to 12, a cup from 19 to 23. In the
    # jug's image from 18 to 23 the cup is 6 lower, and 1 in has nothing; the same the other way
    # round: over twice the area of both that is 2 * (4 * 6 + 1 * 9) of 2 * (5 * 9 + 4 * 3)
    share = 100 * 2 * (4 * 6 + 1 * 9) / (2 * (5 * 9 + 4 * 3))
    case = made_case(("12", ["jug", "cup"]))
    assert said(case, "composition", 1) == f"{share:.1f} % without mirror image"
    three = made_case(("12", ["jug", "cup"]), ("9", CUPS), ("9", CUPS))
    assert said(three, "composition", 1) == f"mirror image but for {share / 3:.1f} %"


def test_what_was_asked_for_and_is_not() -> None:
    job = made_job(
        {"jug": 2, "cup": 4, "plate": 1}, jug={"where": "top"}, cup={"together": True},
        plate={"fragile": True},
    )  # fmt: skip
    case = made_case(("12", [*JUGS, "cup", "plate"]), ("9", CUPS[:3]))
    assert sentences(job, (case,), (), stages("asked"))["asked"] == (
        "2 x jug not at the top, 1 x cup not all on one shelf and 1 x plate not off the low shelves"
    )
    fine = made_job({"jug": 2, "cup": 4}, jug={"where": "low"}, cup={"where": 1})
    low = made_case(("12", JUGS), ("9", CUPS))
    assert sentences(fine, (low,), (), stages("asked"))["asked"] == (
        "everything where it was asked for"
    )


def test_only_stages_of_the_plan_are_told() -> None:
    case = made_case(("12", JUGS), ("9", CUPS))
    job = made_job({"jug": 2, "cup": 4})
    assert sentences(job, (case,), (), stages("price", "size")) == {}
    told = with_sentences(job, (case,), (), stages("price", "together"))
    assert [one.sentence for one in told] == [None, "every kind on one shelf"]


def test_an_option_point_by_point() -> None:
    job = made_job({"jug": 2, "cup": 4})
    case = made_case(("12", JUGS), ("9", CUPS))
    names = ("fit", "empty", "mirrored", "together", "alone", "rises", "steady", "composition")
    told = with_sentences(job, (case,), (), stages(*names))
    option = sample_plan().options[0].model_copy(update={"stages": told, "name": "1 shelf"})
    words = ("the upper opening 3 in lower than the one below", "every kind on one shelf")
    assert look_points(option) == words
    assert points(option) == f"1 shelf: {', '.join(words)}"
    missed = tuple(one.model_copy(update={"value": 1}) for one in told if one.name == "alone")
    assert look_points(option.model_copy(update={"stages": (*told[:4], *missed)}))[-1] == (
        "no thing stands apart from its kind"
    )


def test_a_long_sentence_gives_way_to_a_count_where_options_are_set_side_by_side() -> None:
    long = "every kind on one shelf but " + ", ".join(f"kind {n} (shelves 1 and 2)" for n in "abc")
    one = stage("together", 1).model_copy(update={"sentence": long})
    option = sample_plan().options[0]
    assert look_points(option.model_copy(update={"stages": (one,)})) == ("one kind parted once",)
    many = one.model_copy(update={"value": 3.0})
    told = look_points(option.model_copy(update={"stages": (many,)}))
    assert told == ("kinds parted in 3 places",)


def test_groups_that_the_client_wrote_are_called_so() -> None:
    job = made_job({"cup": 4, "jug": 2}, cup={"group": "Tea"}, jug={"group": "Tea"})
    case = made_case(("12", JUGS), ("9", CUPS))
    found = sentences(job, (case,), (), stages("headings"))
    assert found["headings"] == "no group on one shelf: Tea (the bottom and shelf 1)"


def test_a_metric_job_is_told_in_millimetres() -> None:
    job = made_job({"cup": 3})
    head = job.head.model_copy(update={"unit": "mm"})
    found = sentences(
        job.model_copy(update={"head": head}), (openings("12", "9", "6"),), (), stages("steady")
    )
    # 3 in are 76.2 mm
    assert found["steady"] == "each opening 76 mm lower than the one below"
