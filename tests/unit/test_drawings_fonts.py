"""Signs that our fonts lack: set in a font of the system where it has one, else named."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTCollection, TTFont

import cli.drawings.fonts as lettering
from cli.drawings.fonts import CAPITAL, printable, system_font_files, text_width, widths
from cli.drawings.pdf import FONT_LIST, pdf

TEA, POT, DAY = "\u8336", "\u58fa", "\u65e5"
PER_EM = 1000


def font(advances: dict[str, int]) -> TTFont:
    """A font with a box for each sign."""
    pen = TTGlyphPen(None)
    for point in ((100, 0), (100, 700), (900, 700), (900, 0)):
        (pen.lineTo if point != (100, 0) else pen.moveTo)(point)
    pen.closePath()
    box, names = pen.glyph(), {ord(sign): f"u{ord(sign):x}" for sign in advances}
    made = FontBuilder(PER_EM, isTTF=True)
    made.setupGlyphOrder([".notdef", *names.values()])
    made.setupCharacterMap(names)
    made.setupGlyf(dict.fromkeys([".notdef", *names.values()], box))
    wide = {names[ord(sign)]: (wide, 100) for sign, wide in advances.items()}
    made.setupHorizontalMetrics({".notdef": (500, 100), **wide})
    made.setupHorizontalHeader(ascent=800, descent=-200)
    made.setupNameTable({"familyName": "Boxes", "styleName": "Regular", "psName": "Boxes"})
    made.setupOS2()
    made.setupPost()
    return made.font


@pytest.fixture(autouse=True)
def _forgotten(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Nothing is remembered of the fonts of this system, before or after."""

    def forget() -> None:
        lettering.system_font.cache_clear()
        lettering._advance.cache_clear()

    forget()
    yield
    monkeypatch.undo()
    forget()


@pytest.fixture
def boxes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A system with one file that is no font, and one that has two, the second with tea."""
    both, broken = TTCollection(), tmp_path / "broken.ttf"
    both.fonts = [font({"a": 600}), font({TEA: 1000, POT: 900})]
    path = tmp_path / "boxes.ttc"
    both.save(str(path))
    broken.write_bytes(b"no font")
    monkeypatch.setattr(lettering, "_system_fonts", lambda: ((broken, 0), (path, 0), (path, 1)))
    return path


def test_what_a_font_of_the_system_has_is_lettered_as_wide_as_it_is(boxes: Path) -> None:
    assert printable(f"{TEA}{POT} a") == f"{TEA}{POT} a"
    assert printable(f"{TEA}{DAY}") == f"{TEA}[U+65E5]"  # that one it lacks
    assert text_width(f"{TEA}{POT}", CAPITAL) == pytest.approx((1000 + 900) / PER_EM)
    assert widths(boxes, 1) == {TEA: 1.0, POT: 0.9}


def test_without_such_a_font_it_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lettering, "_system_fonts", tuple)
    assert printable(f"{TEA} a") == "[U+8336] a"
    assert printable("\N{TEAPOT}") == "[teapot]"
    assert system_font_files({TEA, "a", "\n"}) == []


def test_only_what_our_fonts_lack_is_looked_for(boxes: Path) -> None:
    assert system_font_files({"a", "é", "\u05e9"}) == []
    assert system_font_files({"a", TEA, POT, DAY}) == [boxes]


@pytest.mark.usefixtures("boxes")
def test_a_pdf_carries_the_font_of_the_system_and_its_text_is_found() -> None:
    source = f'#set text(font: {FONT_LIST})\n#json("data.json")'
    with_it, without = (pdf(source, data=text) for text in (f"{TEA}{POT} pot", "tea pot"))
    assert b"Boxes" in with_it
    assert b"Boxes" not in without
    page = pypdfium2.PdfDocument(with_it)[0].get_textpage()
    assert f"{TEA}{POT} pot" in page.get_text_bounded()
    assert pdf(source, data=f"{TEA}{POT} pot") == with_it


def test_the_fonts_of_this_system_are_upright_regular_and_not_coloured() -> None:
    for path, index in lettering._system_fonts():
        assert path.is_file()
        assert index >= 0
        assert "emoji" not in path.name.lower()
