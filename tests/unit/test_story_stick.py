"""The story stick: every mark read back from the PDF, exact to 0.01 mm."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from cli.drawings.marks import HingeMark, MarkedFace, MetBoard, marked_faces
from cli.drawings.stick import BAR, OVERLAP, TILE, WIDTH, Stick, long_pdf, sticks, tiled_pdf, tiles
from solver.plan.plan import Plan
from solver.units import format_length, inches, mm, to_mm
from tests.pdf_reading import level, lines, text
from tests.sample_plans import good_plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


def marks_of(face: MarkedFace) -> list[float]:
    """Heights of all boards, and of both ends [mm]."""
    heights = {mark for board in face.boards for mark in (board.underside, board.top)}
    return sorted(to_mm(mark) for mark in heights | {0, face.height})


def test_every_mark_is_where_it_should_be(plan: Plan) -> None:
    made = sticks(plan, plan.options[0])
    data = long_pdf(plan, made)
    assert data is not None

    document = pypdfium2.PdfDocument(data)

    assert len(document) == len(made) > 1
    for page, one in zip(document, made, strict=True):
        # fastener lines are as long: they lie half way between two marks
        wished = marks_of(one.face)
        middles = [
            to_mm(board.underside + board.top) / 2 for board in one.face.boards if board.fastened
        ]
        found = level(page, WIDTH)
        assert len(found) == len(wished + middles)
        for height, expected in zip(found, sorted(wished + middles), strict=True):
            assert height - found[0] == pytest.approx(expected - wished[0], abs=0.01)


def test_the_check_bar_measures_what_it_says(plan: Plan) -> None:
    made = sticks(plan, plan.options[0])
    length = to_mm(BAR[plan.unit])
    for data in (long_pdf(plan, made), tiled_pdf(plan, made, "letter")):
        assert data is not None
        for page in pypdfium2.PdfDocument(data):
            ends = level(page, 14.0)
            assert ends[-1] - ends[0] == pytest.approx(length, abs=0.01)


def test_pieces_join_at_the_register_marks(plan: Plan) -> None:
    made = sticks(plan, plan.options[0])[:1]
    document = pypdfium2.PdfDocument(tiled_pdf(plan, made, "a4"))
    windows = tiles(made[0].face, plan.unit)

    assert len(document) == len(windows) == -(-(made[0].face.height) // TILE[plan.unit])
    for before, after in pairwise(windows):
        assert before.above == after.below
        assert before.high - after.low == pytest.approx(OVERLAP)
    crosses = level(document[1], 12.0)
    assert crosses[-1] - crosses[0] == pytest.approx(to_mm(TILE[plan.unit]), abs=0.01)


def test_all_figures_are_written_once_and_can_be_searched(plan: Plan) -> None:
    made = sticks(plan, plan.options[0])[:1]

    words = text(pypdfium2.PdfDocument(tiled_pdf(plan, made, "a4")))

    for board in made[0].face.boards:
        assert f"{board.name}, underside" in words
        assert format_length(board.top, plan.unit) in words


def test_it_asks_to_be_printed_at_actual_size(plan: Plan) -> None:
    document = pypdfium2.PdfDocument(tiled_pdf(plan, sticks(plan, plan.options[0])[:1], "a4"))

    assert not pdfium.FPDF_VIEWERREF_GetPrintScaling(document.raw)


def test_hinge_mortises_are_marked_on_the_hinge_side(plan: Plan) -> None:
    hinge = HingeMark(1, inches("10"), inches("14-1/2"), old=True)
    shelf = MetBoard("shelf 1", "shelf", inches("8"), inches("8-3/4"), fastened=False)
    face = MarkedFace("left side", "foot", inches("20"), inches("6"), False, (shelf,), (hinge,))
    data = long_pdf(plan, [Stick("left side", face)])
    assert data is not None

    document = pypdfium2.PdfDocument(data)

    ends = level(document[0], WIDTH - 24.0)
    assert ends[1] - ends[0] == pytest.approx(4.5 * 25.4, abs=0.01)
    assert ends[0] - level(document[0], WIDTH)[0] == pytest.approx(10 * 25.4, abs=0.01)
    assert "hinge 1 (old), lower end" in text(document)


def test_a_stick_too_long_for_a_page_is_in_pieces_only(plan: Plan) -> None:
    face = MarkedFace("left side", "foot", mm("5200"), mm("300"), False, ())

    assert long_pdf(plan, [Stick("left side", face)]) is None
    assert long_pdf(plan, [Stick("left side", replace(face, height=mm("4800")))]) is not None


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    made = sticks(plan, plan.options[0])

    assert long_pdf(plan, made) == long_pdf(plan, made)


def test_uprights_are_marked_on_both_faces(plan: Plan) -> None:
    case = plan.options[0].cases[0]

    names = [face.name for face in marked_faces(plan, plan.options[0], case)]

    assert names == ["left side", "upright 1, left face", "upright 1, right face", "right side"]


def test_lines_are_read_back() -> None:
    """The reader itself: a square of 10 mm made by typst's own path."""
    from cli.drawings.pdf import pdf

    document = pypdfium2.PdfDocument(
        pdf("#set page(margin: 0mm)\n#rect(width: 10mm, height: 10mm)")
    )

    sides = [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in lines(document[0])]
    assert sides[:3] == pytest.approx([10, 10, 10], abs=0.001)
