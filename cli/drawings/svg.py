"""A scene as SVG at true scale: its numbers are millimetres on paper.

Each kind of line is a group with that kind's name as its class, so that a page can style it;
the presentation attributes alone print right.
"""

from __future__ import annotations

import base64
from collections.abc import Iterator
from hashlib import sha256
from html import escape
from math import cos, radians, sin

from cli.drawings.dimensioned import dimension_shapes
from cli.drawings.fonts import BOLD_WEIGHT, CAPITAL, FAMILIES
from cli.drawings.line_styles import STYLES
from cli.drawings.scene import EDGE, Scene
from cli.drawings.shapes import Arc, Dimension, Layer, Path, Picture, Point, Running, Strokes, Text

FONTS = ", ".join(f"'{name}'" if " " in name else name for name in FAMILIES) + ", sans-serif"
HALO = 0.8
"""How wide a halo is kept free round lettering, both sides together [mm]."""


def svg(scene: Scene) -> str:
    """Return a scene as an SVG document.

    The same scene gives the same text. Names are escaped, whatever they hold. Lengths are
    written to 0.0001 mm.
    """
    return _Writer(scene).document()


def _number(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class _Writer:
    """Turns millimetres of the thing, y up, to millimetres on paper, y down."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.left, _, _, self.top = scene.bounds
        self.size = scene.paper_size
        self.pictures: set[str] = set()

    def document(self) -> str:
        wide, high = map(_number, self.size)
        title = escape(self.scene.title)
        return "\n".join(
            [
                f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm"'
                f' viewBox="0 0 {wide} {high}" role="img" font-family="{FONTS}">',
                f"<title>{title}</title>",
                *self._groups(),
                "</svg>\n",
            ]
        )

    def _groups(self) -> Iterator[str]:
        layer: Layer | None = None
        for kind, element in self._elements():
            if kind != layer:
                if layer is not None:
                    yield "</g>"
                layer = kind
                yield _opening(kind)
            yield element
        if layer is not None:
            yield "</g>"

    def _elements(self) -> Iterator[tuple[Layer, str]]:
        for shape in self.scene.shapes:
            parts = (
                dimension_shapes(shape, self.scene.scale)
                if isinstance(shape, Dimension | Running)
                else (shape,)
            )
            for part in parts:
                yield ("item" if isinstance(part, Picture) else part.layer), self._element(part)

    def _element(self, part: Path | Arc | Strokes | Text | Picture) -> str:
        match part:
            case Path():
                return self._path(part)
            case Arc():
                return self._arc(part)
            case Strokes():
                return self._strokes(part)
            case Text():
                return self._text(part)
            case Picture():
                return self._picture(part)

    def _at(self, point: Point) -> Point:
        scale = self.scene.scale
        return (point[0] - self.left) / scale + EDGE, (self.top - point[1]) / scale + EDGE

    def _pair(self, point: Point) -> str:
        x, y = self._at(point)
        return f"{_number(x)} {_number(y)}"

    def _path(self, part: Path) -> str:
        points = "L".join(self._pair(point) for point in part.points)
        return f'<path d="M{points}{"Z" if part.closed else ""}"{_filled(part.filled)}/>'

    def _arc(self, part: Arc) -> str:
        radius = _number(part.radius / self.scene.scale)
        if part.end - part.start >= 360:
            x, y = map(_number, self._at(part.centre))
            return f'<circle cx="{x}" cy="{y}" r="{radius}"{_filled(part.filled)}/>'
        (cx, cy), r = part.centre, part.radius
        first, last = (
            self._pair((cx + r * cos(radians(a)), cy + r * sin(radians(a))))
            for a in (part.start, part.end)
        )
        large = int(part.end - part.start > 180)
        return f'<path d="M{first}A{radius} {radius} 0 {large} 0 {last}"/>'

    def _strokes(self, part: Strokes) -> str:
        strokes = "".join(f"M{self._pair(a)}L{self._pair(b)}" for a, b in part.strokes)
        return f'<path d="{strokes}"/>'

    def _text(self, part: Text) -> str:
        x, y = map(_number, self._at(part.at))
        more = "" if part.align == "start" else f' text-anchor="{part.align}"'
        more += f' font-weight="{BOLD_WEIGHT}"' if part.bold else ""
        if part.halo:
            more += (
                f' stroke="white" stroke-width="{HALO}" stroke-linejoin="round"'
                ' paint-order="stroke" class="halo"'
            )
        else:
            more += ' stroke="none"'
        size = _number(part.height / CAPITAL)
        place = f'x="{x}" y="{y}" font-size="{size}" fill="black"'
        return f"<text {place}{more}>{escape(part.text)}</text>"

    def _picture(self, part: Picture) -> str:
        """Return a picture that stands in its place; the second of the kind only points to it."""
        x, y = map(_number, self._at((part.at[0], part.at[1] + part.height)))
        wide, high = (_number(size / self.scene.scale) for size in (part.width, part.height))
        name = f"p-{sha256(part.data).hexdigest()[:16]}-{wide}-{high}"
        use = f'<use href="#{name}" x="{x}" y="{y}"/>'
        if name in self.pictures:
            return use
        self.pictures.add(name)
        data = base64.b64encode(part.data).decode("ascii")
        return (
            f'<defs><image id="{name}" width="{wide}" height="{high}"'
            f' preserveAspectRatio="xMidYMax meet" href="data:image/{part.kind};base64,{data}">'
            f"<title>{escape(part.says)}</title></image></defs>{use}"
        )


def _filled(filled: bool) -> str:
    return ' fill="white" class="filled"' if filled else ""


def _opening(layer: Layer) -> str:
    """Return the start of a group; lettering is filled, everything else is stroked."""
    style = STYLES[layer]
    dashes = ""
    if style.dashes:
        dashes = f' stroke-dasharray="{" ".join(map(_number, style.dashes))}"'
    return (
        f'<g class="{layer}" stroke="{style.colour}" stroke-width="{_number(style.width)}"'
        f' fill="none"{dashes}>'
    )
