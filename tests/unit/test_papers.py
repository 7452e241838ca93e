"""Papers: all of the plan is on them, it closes, it can be searched, names are only names."""

from __future__ import annotations

import datetime
import json
import re
from dataclasses import replace
from decimal import Decimal

import pypdfium2
import pytest

from cli.drawings.drawing_kinds import KINDS
from cli.papers.cutting_papers import part_labels
from cli.papers.issue import Issue, ids_text, limit_text
from cli.papers.marking_out import board_length, board_lines, marking_out, upright_lines
from cli.papers.paper_blocks import Paper, grid
from cli.papers.paper_drawings import ON_SHEETS, TO_APPROVE, TO_MARK
from cli.papers.proposal import proposal
from cli.papers.write import all_pdf, every_paper, one_pdf
from cli.screen.wording import alike_bays, amount
from solver.job.price_terms import HOUR, ListPrice, PriceList
from solver.plan.plan import Plan
from solver.units import GRAMS_PER_POUND, format_length
from tests.sample_plans import good_plan

DAY = datetime.date(2026, 11, 25)
HOSTILE = "<script>alert(1)</script> \"'` #read(\"x\") *b* _i_ $x$ \\ @y =cmd()|'/C calc'!A0"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


@pytest.fixture(scope="module")
def issue(plan: Plan) -> Issue:
    return Issue(plan, plan.options[0], "1", DAY)


@pytest.fixture(scope="module")
def papers(issue: Issue) -> list[Paper]:
    return every_paper(issue)


def texts(document: bytes) -> list[str]:
    """The text of each page, as a reader finds it."""
    pdf = pypdfium2.PdfDocument(document)
    return [page.get_textpage().get_text_bounded() for page in pdf]


def test_running_dimensions_close_exactly(issue: Issue) -> None:
    for group in alike_bays(issue.option):
        lines = board_lines(issue.job.case(group.case.name), group, issue.unit)
        at = 0
        for one in lines:
            assert one.underside == at
            at = one.top + (one.above or 0)
        assert lines[-1].top == group.case.outside.height


def test_uprights_close_with_the_length_of_top_and_bottom(issue: Issue) -> None:
    for planned in issue.option.cases:
        case = issue.job.case(planned.name)
        clear = at = case.dado_depth
        for line, bay in zip(upright_lines(case, planned, 1), planned.bays, strict=False):
            assert line.left == at + bay.inside.width
            at = line.right
            clear += bay.inside.width + line.right - line.left
        last = planned.bays[-1].inside.width
        assert board_length(case, planned) == at + last + case.dado_depth
        tops = [part for part in issue.option.parts if part.name in ("top", "bottom")]
        assert {part.length for part in tops} == {board_length(case, planned)}


def test_marks_on_an_upright_run_from_its_own_foot(issue: Issue) -> None:
    # butt joints: an upright is the side less bottom, what is below it, and top
    for group in alike_bays(issue.option):
        case = issue.job.case(group.case.name)
        floor = group.first.openings[0].floor - case.dado_depth
        for line in board_lines(case, group, issue.unit):
            shelf = line.board.startswith("shelf")
            assert line.on_upright == (line.underside - floor if shelf else None)


def test_every_mark_of_the_plan_is_on_the_marking_out_sheet(issue: Issue) -> None:
    found = " ".join(texts(one_pdf(issue, marking_out(issue)))).split()

    for case in issue.option.cases:
        for bay in case.bays:
            for shelf in bay.shelves:
                assert format_length(shelf.underside, issue.unit) in found
                assert format_length(shelf.top, issue.unit) in found


def test_each_part_and_each_stick_piece_has_one_label(issue: Issue) -> None:
    pieces = sum(len(stick.pieces) for stick in issue.option.mouldings)

    assert len(part_labels(issue).blocks[0]["labels"]) == len(issue.option.parts) + pieces


def test_the_contents_name_each_paper_with_the_page_it_starts_on(
    issue: Issue, papers: list[Paper]
) -> None:
    pages = texts(all_pdf(issue, papers))
    contents = {
        line.rsplit(" ", 1)[0].split("\t")[0]: line.rsplit(" ", 1)[1]
        for line in pages[0].splitlines()
        if line and line.rsplit(" ", 1)[-1].isdigit()
    }

    for paper in papers:
        (start,) = [int(at) for name, at in contents.items() if name.startswith(paper.title)]
        assert paper.title in pages[start - 1]
        assert start == 2 or paper.title not in pages[start - 2]
    for page, text in enumerate(pages, start=1):
        assert f"page {page}" in text


def test_every_kind_of_drawing_is_on_a_paper() -> None:
    assert sorted((*TO_APPROVE, *TO_MARK, *ON_SHEETS)) == sorted(KINDS)


def test_the_same_issue_gives_the_same_bytes(issue: Issue, papers: list[Paper]) -> None:
    assert all_pdf(issue, papers) == all_pdf(issue, every_paper(issue))


def test_a_date_is_printed_only_where_it_is_given(plan: Plan) -> None:
    dated = Issue(plan, plan.options[0], "1", DAY)
    without = Issue(plan, plan.options[0], "1", None)

    assert all("2026-11-25" in page for page in texts(one_pdf(dated, marking_out(dated))))
    assert not any(" 20" in page for page in texts(one_pdf(without, marking_out(without))))


def everything_priced(issue: Issue) -> PriceList:
    """A price list that leaves nothing without a price."""
    items = [line.named for line in issue.estimate.buying.lines]
    prices = [ListPrice(item=item, price=Decimal("3.00")) for item in dict.fromkeys(items)]
    return PriceList(prices=(*prices, ListPrice(item=HOUR, price=Decimal("60.00"))))


def test_the_proposal_prints_the_price_only_where_all_of_it_is_known(issue: Issue) -> None:
    priced = replace(issue, prices=everything_priced(issue))
    # materials, labour, extras and what comes on top, as the estimate adds them up
    total = amount(priced.estimate.total, priced.job.head.currency)

    known = " ".join(texts(one_pdf(priced, proposal(priced))))
    unknown = " ".join(texts(one_pdf(issue, proposal(issue))))

    assert set(priced.estimate.missing) <= {"tax"}
    assert total in known
    assert "without tax" in known
    assert issue.estimate.missing != ()
    assert not re.search(r"[€$£]\s?\d", unknown)


@pytest.mark.parametrize(
    ("handed_over", "again"),
    [("2026-01-31", "2026-02-28"), ("2026-12-18", "2027-01-18"), ("2028-01-30", "2028-02-29")],
)
def test_the_recheck_is_a_month_after_the_handover(
    plan: Plan, handed_over: str, again: str
) -> None:
    day = datetime.date.fromisoformat(handed_over)

    assert str(Issue(plan, plan.options[0], "1", DAY, day).recheck) == again


def test_limits_are_rounded_down() -> None:
    assert limit_text(round(43.9 * GRAMS_PER_POUND), "in") == "43 lb"
    assert limit_text(2499, "mm") == "2 kg"
    assert limit_text(2999, "mm") == "2.5 kg"


def test_ids_that_follow_each_other_are_drawn_together(issue: Issue) -> None:
    part = issue.option.parts[0]
    names = ["side-left", "shelf-1", "shelf-2", "shelf-3", "shelf-5", "back"]
    parts = [part.model_copy(update={"id": f"a/b/{name}"}) for name in names]

    assert ids_text(parts) == "side-left, shelf-1 to 3, shelf-5, back"


def renamed(plan: Plan, old: str, new: str) -> Plan:
    """The plan with a name of the job changed wherever it stands."""
    text = plan.to_json().replace(json.dumps(old)[1:-1], json.dumps(new)[1:-1])
    return Plan.model_validate_json(text)


def test_any_name_is_only_a_name(plan: Plan) -> None:
    names = [HOSTILE, "x" * 190, "אגרטל כחול", "🫖 pot", "a\u202eb\x07c"]
    case = plan.options[0].cases[0].name
    for old, new in zip((case, *(item.name for item in plan.job.items)), names, strict=False):
        plan = renamed(plan, old, new)
    issue = Issue(plan, plan.options[0], "1", None)

    pages = texts(all_pdf(issue, every_paper(issue)))

    whole = "".join("".join(pages).split())
    assert "".join(HOSTILE.split()) in whole
    assert "\x07" not in whole
    assert len(pages) < 40


def test_a_cell_longer_than_a_page_goes_on_on_the_next(issue: Issue) -> None:
    words = [f"thing{number}" for number in range(150)]
    block = grid(("what", "which"), [("left out", "\n".join(words))])
    long = Paper("long", "Long", "none", (block,))

    pages = texts(one_pdf(issue, long))

    found = " ".join(pages).split()
    assert [word for word in found if word.startswith("thing")] == words
    assert len(pages) > 1
    assert all(page.rstrip().endswith(f"of {len(pages)}") for page in pages)
