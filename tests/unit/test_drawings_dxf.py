"""DXF: no audit errors, closed outlines, dimensions that measure what they say."""

from __future__ import annotations

import io

import ezdxf
import pytest
from ezdxf.document import Drawing
from ezdxf.entities.dimension import Dimension as DXFDimension
from ezdxf.entities.lwpolyline import LWPolyline

from cli.drawings.drawing_kinds import KINDS, Subject, scenes
from cli.drawings.dxf import dxf
from cli.drawings.fonts import REGULAR
from cli.drawings.front_elevation import elevation
from cli.drawings.keys import key_marks
from cli.drawings.line_styles import STYLES
from cli.drawings.scene import Scene
from cli.drawings.shapes import Path, Text
from solver.plan.plan import Plan
from solver.units import format_length, from_mm
from tests.mutations_swing import hung
from tests.sample_plans import good_plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


@pytest.fixture(scope="module")
def document(plan: Plan) -> Drawing:
    case = plan.options[0].cases[0]
    return read(dxf(elevation(case, plan.unit, 12, key_marks(plan.job))))


def read(data: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))  # type: ignore[attr-defined]


def test_lettering_is_in_the_open_typeface_that_drawings_are_lettered_with(
    document: Drawing,
) -> None:
    named = {style.dxf.font for style in document.styles}

    assert REGULAR.name in named
    assert not any("arial" in name.lower() for name in named)


def test_the_audit_finds_nothing(document: Drawing) -> None:
    auditor = document.audit()

    assert (auditor.errors, auditor.fixes) == ([], [])
    assert document.units == ezdxf.units.MM


def test_outlines_are_closed(document: Drawing) -> None:
    outlines = document.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')

    assert len(outlines) > 4
    assert all(isinstance(one, LWPolyline) and one.closed for one in outlines)


def test_every_dimension_has_the_text_of_what_it_measures(document: Drawing, plan: Plan) -> None:
    found = document.modelspace().query("DIMENSION")

    assert len(found) > 5
    for one in found:
        assert isinstance(one, DXFDimension)
        assert one.dxf.text == format_length(from_mm(one.dxf.actual_measurement), plan.unit)
        measured = one.get_measurement()
        value = measured if isinstance(measured, float) else measured[1]
        assert value == pytest.approx(one.dxf.actual_measurement, abs=0.001)


def test_codes_in_names_are_taken_apart() -> None:
    made = read(dxf(Scene("x", "x", 1, (Text((0, 0), "100 %%c ^J"),))))

    assert [one.dxf.text for one in made.modelspace().query("TEXT")] == ["100 % %c ^ J"]


def test_the_same_scene_gives_the_same_bytes(plan: Plan) -> None:
    scene = elevation(plan.options[0].cases[0], plan.unit, 12, key_marks(plan.job))

    assert dxf(scene) == dxf(scene)


def test_every_kind_of_drawing_passes_the_audit(plan: Plan) -> None:
    hanging = hung(plan)
    found = scenes(Subject(hanging, hanging.options[0], "a3", {}), tuple(KINDS))

    assert len(found) > 6
    for scene in found:
        made = read(dxf(scene))
        auditor = made.audit()
        assert (scene.name, auditor.errors, auditor.fixes) == (scene.name, [], [])
        closed = [one for one in scene.shapes if isinstance(one, Path) and one.closed]
        lines = made.modelspace().query("LWPOLYLINE")
        assert sum(isinstance(one, LWPolyline) and one.closed for one in lines) == len(closed)
        assert {one.dxf.layer for one in made.modelspace()} <= {name.upper() for name in STYLES}
