"""A scene as DXF for CAD: full size in millimetres, a layer for each kind of line.

Outlines are closed LWPOLYLINEs, dimensions are DIMENSION entities: their text is the one of the
drawing, what they measure stays in them. Lettering and dashes are as large as on paper at the
scene's scale, kept in the dimension style's own scale.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from cli.drawings.dimensioned import BEYOND, GAP, STROKE
from cli.drawings.fonts import REGULAR
from cli.drawings.line_styles import STYLES, LineStyle
from cli.drawings.scene import Scene
from cli.drawings.shapes import (
    FIGURES,
    Arc,
    Dimension,
    Path,
    Picture,
    Running,
    RunningMark,
    Strokes,
    Text,
    rectangle,
)
from solver.units import TICKS_PER_MM

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

DIMENSIONS = "CASEWRIGHT"
"""Name of the dimension style."""
LETTERING = "LETTERING"
"""Name of the text style."""


def dxf(scene: Scene) -> bytes:
    """Return a scene as a DXF document of release 2010; the same scene gives the same bytes.

    Pictures become their outlines: DXF can only point to other files.
    """
    with _always_alike():
        from ezdxf import units
        from ezdxf.filemanagement import new

        document = new("R2010", units=units.MM)
        document.header["$LTSCALE"] = 1.0
        _layers(document, scene.scale)
        _styles(document, scene.scale)
        for shape in scene.shapes:
            _add(document.modelspace(), shape, scene.scale)
        out = io.StringIO()
        document.write(out)
    return out.getvalue().encode(document.output_encoding, errors="dxfreplace")


@contextmanager
def _always_alike() -> Iterator[None]:
    """Let documents be made and written without dates and random identifiers."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _layers(document: Drawing, scale: int) -> None:
    for name, style in STYLES.items():
        if style.dashes:
            document.linetypes.add(
                f"CASEWRIGHT_{name.upper()}", _dashes(style, scale), description=name
            )
        document.layers.add(
            name.upper(),
            color=style.dxf_colour,
            lineweight=round(style.width * 100),
            linetype=f"CASEWRIGHT_{name.upper()}" if style.dashes else "CONTINUOUS",
        )


def _dashes(style: LineStyle, scale: int) -> list[float]:
    """Total length, then dashes above 0 and gaps below [mm of the thing]."""
    lengths = [length * scale for length in style.dashes]
    signed = [length if n % 2 == 0 else -length for n, length in enumerate(lengths)]
    return [sum(lengths), *signed]


def _styles(document: Drawing, scale: int) -> None:
    document.styles.add(LETTERING, font=REGULAR.name)
    style = document.dimstyles.add(DIMENSIONS)
    style.dxf.dimtxsty = LETTERING
    for name, value in {
        "dimscale": float(scale), "dimtxt": FIGURES, "dimtsz": STROKE, "dimexo": GAP,
        "dimexe": BEYOND, "dimgap": GAP, "dimtad": 0, "dimtih": 1, "dimtoh": 1, "dimrnd": 0.0,
        "dimdec": 4, "dimzin": 8, "dimlunit": 2, "dimtmove": 2, "dimtix": 1,
        "dimclrd": 256, "dimclre": 256, "dimclrt": 256,
    }.items():  # fmt: skip
        style.set_dxf_attrib(name, value)


def _add(space: Modelspace, shape: object, scale: int) -> None:
    match shape:
        case Path():
            space.add_lwpolyline(shape.points, close=shape.closed, dxfattribs=_on(shape.layer))
        case Arc() if shape.end - shape.start >= 360:
            space.add_circle(shape.centre, shape.radius, dxfattribs=_on(shape.layer))
        case Arc():
            space.add_arc(
                shape.centre, shape.radius, shape.start, shape.end, dxfattribs=_on(shape.layer)
            )
        case Strokes():
            for start, end in shape.strokes:
                space.add_line(start, end, dxfattribs=_on(shape.layer))
        case Text():
            _add_text(space, shape, scale)
        case Picture():
            x = shape.at[0], shape.at[0] + shape.width
            y = shape.at[1], shape.at[1] + shape.height
            _add(space, rectangle(x, y, "item"), scale)
        case Dimension():
            _add_dimension(space, shape)
        case Running():
            for mark in shape.marks:
                _add_ordinate(space, shape, mark)


def _on(layer: str) -> dict[str, str]:
    return {"layer": layer.upper()}


def _add_text(space: Modelspace, shape: Text, scale: int) -> None:
    from ezdxf.enums import TextEntityAlignment as Align

    align = {"start": Align.LEFT, "middle": Align.CENTER, "end": Align.RIGHT}[shape.align]
    text = space.add_text(
        _plain(shape.text),
        height=shape.height * scale,
        dxfattribs={**_on(shape.layer), "style": LETTERING},
    )
    text.set_placement(shape.at, align=align)


def _plain(text: str) -> str:
    """Return lettering with what DXF would read as a code (`%%c`, `^J`) taken apart."""
    return text.replace("%%", "% %").replace("\\U+", "\\ U+").replace("^", "^ ")


def _add_dimension(space: Modelspace, shape: Dimension) -> None:
    from ezdxf.math import Vec2

    base = (shape.start[0], shape.across) if shape.axis == "x" else (shape.across, shape.start[1])
    dimension = space.add_linear_dim(
        base,
        shape.start,
        shape.end,
        text=shape.text,
        angle=0 if shape.axis == "x" else 90,
        dimstyle=DIMENSIONS,
        override={"dimtxt": shape.height},
        dxfattribs=_on("dimension"),
    )
    if shape.text_at is not None:
        at = (shape.text_at, shape.across) if shape.axis == "x" else (shape.across, shape.text_at)
        dimension.set_location(Vec2(at))
    dimension.render()
    dimension.dimension.dxf.actual_measurement = shape.value / TICKS_PER_MM


def _add_ordinate(space: Modelspace, shape: Running, mark: RunningMark) -> None:
    value = mark.value / TICKS_PER_MM
    across, along = shape.across - mark.start, shape.along(mark.value)
    if shape.axis == "y":
        feature = (mark.start, along)
        offset = (across, mark.text_at - feature[1])
        ordinate = space.add_ordinate_y_dim(
            feature, offset, origin=shape.origin, text=mark.text, dimstyle=DIMENSIONS,
            override={"dimtxt": shape.height}, dxfattribs=_on("dimension"),
        )  # fmt: skip
    else:
        feature = (along, mark.start)
        offset = (mark.text_at - feature[0], across)
        ordinate = space.add_ordinate_x_dim(
            feature, offset, origin=shape.origin, text=mark.text, dimstyle=DIMENSIONS,
            override={"dimtxt": shape.height}, dxfattribs=_on("dimension"),
        )  # fmt: skip
    ordinate.render()
    ordinate.dimension.dxf.actual_measurement = value
