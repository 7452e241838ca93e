"""Sizes in running text: `9-1/2" w x 12 h x 5-1/2 d`, `150 x 120 x 90 mm`, `5 wide, 36 high`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from solver.units import VULGAR

NUMBER = (
    r"(?:\d+\s?[- ]\s?\d+\s?/\s?\d+|\d+\s?/\s?\d+"
    rf"|\d+\s?-?\s?[{VULGAR}]|[{VULGAR}]|\d+(?:[.,]\d+)+|(?<![\d.,])\.\d+|\d+\.?)"
)
_FOOT = r"(?:'(?!')|(?:ft\.?|feet|foot)(?![a-z]))"
LENGTH_UNIT = (
    r"""(?:"|''|'|(?:inches|inch|ins|in\.?|ft\.?|feet|foot|mm|cm|m|milli(?:met(?:re|er)s?)"""
    r"|centi(?:met(?:re|er)s?)|met(?:re|er)s?)(?![a-z]))"
)
_GUESS = r"(?:~|≈|(?<![a-z])(?:about|approximately|approx\.?|roughly|circa|ca\.?)\s)"
_LABEL = (
    r"(?:width|wide|w|breadth|broad|across|height|high|tall|h|depth|deep|d"
    r"|diameter|diam\.?|dia\.?|ø|⌀|length|long|l)(?![a-z])"
)
LABELS = {
    **dict.fromkeys(("width", "wide", "w", "breadth", "broad", "across"), "width"),
    **dict.fromkeys(("height", "high", "tall", "h"), "height"),
    **dict.fromkeys(("depth", "deep", "d"), "depth"),
    **dict.fromkeys(("diameter", "diam", "dia", "ø", "⌀"), "diameter"),
    **dict.fromkeys(("length", "long", "l"), "length"),
}
"""What each label of a size means."""


def _measure(*, before: str, after: str) -> str:
    """Pattern of one size, with groups pre, value, suf and the marks of guesses."""
    return (
        rf"(?:(?<![a-z\d])(?P<pre>{before})\s?[:=]?\s?)?(?P<guess>{_GUESS}\s?)?(?P<minus>(?<!\S)-)?"
        rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
        rf"\s?(?P<doubt>\?)?\s?(?:(?:in\s)?(?P<suf>{after}))?(?P<doubt2>\s?\?)?"
    )


def _bare(pattern: str) -> str:
    """The same pattern without group names, so that it can be repeated."""
    return re.sub(r"\?P<\w+>", "?:", pattern)


_PART_TEXT = _measure(before=_LABEL, after=_LABEL)
_JOINT = r"\s?(?:[x×✕*]|by(?![a-z]))\s?"
_PART = re.compile(_PART_TEXT, re.IGNORECASE)
_CHAIN = re.compile(
    rf"(?<![\w/]){_bare(_PART_TEXT)}(?:{_JOINT}{_bare(_PART_TEXT)})+(?![\w/]|[.,]\d)",
    re.IGNORECASE,
)
_UNIT_AFTER = re.compile(rf"\s?(?:\(\s?({LENGTH_UNIT})\s?\)|({LENGTH_UNIT}))", re.IGNORECASE)
_PREFIXED = re.compile(
    rf"(?<![a-z\d])(?P<pre>{_LABEL})\s?[:=]?\s?(?P<guess>{_GUESS}\s?)?(?P<minus>-)?"
    rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
    r"(?P<suf>)(?P<doubt>\s?\?)?(?P<doubt2>)",
    re.IGNORECASE,
)
_SUFFIXED = re.compile(
    rf"(?<![\w./])(?P<pre>)(?P<guess>{_GUESS}\s?)?(?P<minus>-)?"
    rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
    rf"\s?(?P<doubt>\?)?\s?(?:in\s)?(?P<suf>{_LABEL})(?P<doubt2>\s?\?)?",
    re.IGNORECASE,
)
_UNIT_AT_END = re.compile(rf"\s?({LENGTH_UNIT})$", re.IGNORECASE)
_SINGLE = re.compile(r"[whdl]", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """One size of a line: its number, unit word, label, and whether it is guessed or negative."""

    number: str
    unit: str
    label: str | None
    guessed: bool
    negative: bool


@dataclass(frozen=True)
class Found:
    """The sizes found in a text, and where they stand in it."""

    parts: tuple[Part, ...]
    start: int
    end: int
    spans: tuple[tuple[int, int], ...]


def find_sizes(text: str) -> list[Found]:
    """Return every run of sizes in `text` (plain marks): joined by x first, else labelled ones."""
    chains = [_chain(match, text) for match in _CHAIN.finditer(text)]
    if chains:
        return chains
    labelled = max((list(p.finditer(text)) for p in (_SUFFIXED, _PREFIXED)), key=len)
    if not labelled:
        return []
    spans = tuple(match.span() for match in labelled)
    parts = tuple(_part(match) for match in labelled)
    return [Found(parts, spans[0][0], spans[-1][1], spans)]


def _chain(match: re.Match[str], text: str) -> Found:
    parts, start, end = list(_split(match[0])), match.start(), match.end()
    first = next(_PART.finditer(match[0]))
    if _stray_letter(first, parts):
        start += first.end("pre")
        parts[0] = Part(parts[0].number, parts[0].unit, None, parts[0].guessed, parts[0].negative)
    unit = _UNIT_AFTER.match(text, end)
    if unit and not parts[-1].unit:
        last = parts[-1]
        word = unit[1] or unit[2]
        parts[-1] = Part(last.number, word, last.label, last.guessed, last.negative)
        end = unit.end()
    return Found(tuple(parts), start, end, ((start, end),))


def _stray_letter(first: re.Match[str], parts: list[Part]) -> bool:
    """Whether a single letter before the first size belongs to the name, as in `vitamin D 5 x 4`.

    It is a label only where every other size has one too.
    """
    alone = bool(first["pre"]) and bool(_SINGLE.fullmatch(first["pre"]))
    return alone and not all(part.label for part in parts[1:])


def _split(chain: str) -> Iterator[Part]:
    joint = re.compile(_JOINT, re.IGNORECASE)
    at = 0
    while match := _PART.match(chain, at):
        yield _part(match)
        gap = joint.match(chain, match.end())
        if not gap:
            return
        at = gap.end()


def _part(match: re.Match[str]) -> Part:
    value = match["value"].strip()
    unit = _UNIT_AT_END.search(value)
    word = (match["suf"] or match["pre"] or "").lower().rstrip(".")
    return Part(
        number=value[: unit.start()] if unit else value,
        unit=unit[1] if unit else "",
        label=LABELS.get(word),
        guessed=bool(match["guess"] or match["doubt"] or match["doubt2"]),
        negative=bool(match["minus"]),
    )
