"""Drawings: true scale, escaping, the same bytes, and what a PDF reader is told."""

from __future__ import annotations

import ctypes
import re
from xml.etree import ElementTree

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from scipy import optimize

from cli.drawings.drawing_kinds import Subject, scenes
from cli.drawings.fonts import printable
from cli.drawings.front_elevation import elevation
from cli.drawings.keys import key_marks, key_scene, letter_of, wrapped
from cli.drawings.pages import INCH, METRIC, Sheets, drawings_pdf, drawings_png, to_fit
from cli.drawings.pdf import pdf
from cli.drawings.running import running, spread
from cli.drawings.scene import Scene
from cli.drawings.shapes import Text, rectangle
from cli.drawings.svg import svg
from solver.plan.plan import Plan
from solver.units import Unit, mm, to_mm
from tests.pdf_reading import lines, text
from tests.sample_plans import good_plan

HOSTILE = "<script>alert(\"1\")</script> & 'b' =cmd() ]]> #x"


def scene_of(*shapes: Text, scale: int = 10) -> Scene:
    return Scene("x", "x", scale, shapes)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


def test_lettering_is_moved_apart_as_little_as_can_be() -> None:
    assert spread([0, 10, 20], 5) == [0, 10, 20]
    assert spread([0, 1, 20], 5) == [0.5 - 2.5, 0.5 + 2.5, 20]
    assert spread([0, 0, 0], 4) == [-4, 0, 4]


def test_moving_apart_is_isotonic_regression() -> None:
    """Outside check: SciPy's isotonic regression of the places less their least distances."""
    from random import Random

    random = Random(7)
    for _ in range(50):
        wished = sorted(random.uniform(0, 60) for _ in range(random.randint(1, 15)))
        apart = [5.0 * number for number in range(len(wished))]
        shifted = [place - off for place, off in zip(wished, apart, strict=True)]
        best = optimize.isotonic_regression(shifted).x
        expected = [place + off for place, off in zip(best, apart, strict=True)]
        assert spread(wished, 5) == pytest.approx(expected)


def test_letters_go_on_after_the_alphabet() -> None:
    assert [letter_of(n) for n in (0, 25, 26, 27, 26 + 26 * 26)] == ["A", "Z", "AA", "AB", "AAA"]


def test_a_rectangle_is_as_large_in_the_pdf_as_its_scale_says() -> None:
    scene = Scene("x", "x", 10, (rectangle((0, 1000), (0, 500), "outline"),))
    wide = scene.paper_size[0]
    source = f'#set page(margin: 20mm)\n#image("a.svg", width: {wide}mm)'

    document = pypdfium2.PdfDocument(pdf(source, {"a.svg": svg(scene).encode()}))

    left, bottom, right, top = path_bounds(document)
    assert (right - left) / 72 * 25.4 == pytest.approx(1000 / 10, abs=0.001)
    assert (top - bottom) / 72 * 25.4 == pytest.approx(500 / 10, abs=0.001)


def path_bounds(document: pypdfium2.PdfDocument) -> tuple[float, float, float, float]:
    """Bounds of the page's one path [pt], its line width taken off."""
    path = next(iter(document[0].get_objects([pdfium.FPDF_PAGEOBJ_PATH], max_depth=8)))
    width = ctypes.c_float()
    pdfium.FPDFPageObj_GetStrokeWidth(path.raw, width)
    matrices = [path.get_matrix()]
    container = path.container
    while container is not None:
        matrices.append(container.get_matrix())
        container = container.container
    count = pdfium.FPDFPath_CountSegments(path.raw)
    points = []
    for number in range(count):
        x, y = ctypes.c_float(), ctypes.c_float()
        pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path.raw, number), x, y)
        at = x.value, y.value
        for matrix in matrices:
            at = matrix.on_point(*at)
        points.append(at)
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def test_a_reader_is_told_to_print_at_actual_size() -> None:
    document = pypdfium2.PdfDocument(pdf("hello"))

    assert not pdfium.FPDF_VIEWERREF_GetPrintScaling(document.raw)  # false: /None
    assert document[0].get_textpage().get_text_range().strip() == "hello"


def test_names_are_escaped_and_stay_searchable(plan: Plan) -> None:
    scene = scene_of(Text((0, 0), HOSTILE))
    texts = [e.text for e in ElementTree.fromstring(svg(scene)).iter() if e.tag.endswith("text")]
    document = pypdfium2.PdfDocument(drawings_pdf([scene], Sheets(HOSTILE, "", "in", "a4")))

    assert texts == [HOSTILE]
    assert document[0].get_textpage().get_text_range().count("=cmd()") == 2


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("tea ☕️ pot", "tea ☕ pot"),
        ("a\u202eb\nc", "a?b c"),
        ("שעון", "\u2068שעון\u2069"),
        ("ящик ½ é", "ящик ½ é"),
    ],
)
def test_no_sign_becomes_an_empty_box(name: str, shown: str) -> None:
    assert printable(name) == shown


def test_a_long_name_in_the_key_is_wrapped(plan: Plan) -> None:
    assert wrapped("aa bb", 1000) == ["aa bb"]
    assert len(wrapped("very long name " * 20, 60)) > 5
    assert "".join(wrapped("x" * 300, 60)) == "x" * 300
    assert key_scene(plan.job, 120).paper_size[0] <= 122


def test_running_dimensions_close_on_the_height(plan: Plan) -> None:
    case = plan.options[0].cases[0]
    shape = running((0, 0), "y", -80, [0, mm("500"), case.outside.height], "mm", 10)

    assert [mark.value for mark in shape.marks] == [0, mm("500"), case.outside.height]


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    case, marks = plan.options[0].cases[0], key_marks(plan.job)
    sheets = Sheets("job", "option", plan.unit, "letter")

    made = [drawings_pdf([elevation(case, plan.unit, 12, marks)], sheets) for _ in range(2)]

    assert made[0] == made[1]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_largest_scale_that_fits_is_taken(unit: Unit) -> None:
    scales = tuple(INCH) if unit == "in" else METRIC
    for size in (50, 300, 1234, 2440, 5000, 90_000):

        def make(scale: int, size: int = size) -> Scene:
            return Scene("x", "x", scale, (rectangle((0, size), (0, size / 2), "outline"),))

        found = to_fit(make, [(200, 250), (250, 200)], unit)
        fitting = [scale for scale in scales if size / scale + 2 <= 250]
        assert found.scale == min(fitting, default=scales[-1])


@pytest.mark.parametrize("paper", ["a4", "letter", "tabloid"])
def test_the_scale_that_a_page_states_is_the_scale_that_it_has(plan: Plan, paper: str) -> None:
    case = plan.options[0].cases[0]
    (scene, *_) = scenes(Subject(plan, plan.options[0], paper, {}), ("front",))

    document = pypdfium2.PdfDocument(drawings_pdf([scene], Sheets("x", "", plan.unit, paper)))

    stated = re.search(r"Scale 1 : (\d+)", text(document))
    assert stated
    width = to_mm(case.outside.width) / int(stated[1])
    inside = to_mm(case.outside.width - 2 * case.bays[0].x) / int(stated[1])
    lengths = [abs(a[0] - b[0]) for a, b in lines(document[0]) if abs(a[1] - b[1]) < 1e-6]
    assert any(length == pytest.approx(width, abs=0.001) for length in lengths)
    assert any(length == pytest.approx(inside, abs=0.001) for length in lengths)


def test_pictures_of_pages_repeat_byte_for_byte(plan: Plan) -> None:
    scene = elevation(plan.options[0].cases[0], plan.unit, 20, key_marks(plan.job))
    sheets = Sheets("x", "", plan.unit, "a4")

    assert drawings_png([scene], sheets, 60) == drawings_png([scene], sheets, 60)
