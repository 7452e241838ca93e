"""Headings of a plain list: what stands under one is wished together.

A heading ends in a colon, or stands by itself between two blank lines; things follow it. Greetings
and sentences are none, nor is a title, under which everything stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from solver.listing.asides import RULING, SENTENCE_WORDS
from solver.listing.line_readings import REMARK, LineReading
from solver.listing.wishes_in_words import keep_said

WORDS_MOST = 6
"""Most words of a heading [-]."""
HEADING = "a heading"
"""Why a line that ends in a colon holds no thing."""
_UNNUMBERED = re.compile(r"^\d{1,2}[.)]\s")
_MARKED = re.compile(r"^(?:[=*_-]{2,}\s?([^\d]+?)\s?[=*_-]{2,}|#{2,}\s?([^#]+?)\s?#*)$")
"""Headings between signs: `== Toys ==`, `## Toys`."""
_BULLET = re.compile(r"^\s*(?:[-*•+▪·–—]|\d+[.)])\s")
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")
_SIGNS = re.compile(r"[^\w\s'’&+/(),-]")


def with_headings(readings: Sequence[LineReading]) -> list[LineReading]:
    """Give the things of plain lines the heading that they stand under, and say so.

    Where one with a colon stands over everything it is a title; without a colon it may as well
    be a thing whose sizes are missing, and stays unread. A heading of its own that a thing has is
    kept.
    """
    named = {at: heading for at in range(len(readings)) if (heading := _heading(readings, at))}
    things = [at for at, reading in enumerate(readings) if reading.item is not None]
    if len(named) == 1 and min(named) < things[0]:
        return [_title(one) if at in named else _said(one) for at, one in enumerate(readings)]
    answer: list[LineReading] = []
    heading = None
    for at, reading in enumerate(readings):
        if at in named:
            heading = named[at]
            answer.append(
                _skipped(reading, HEADING, f"things under {heading!r} are wished together")
            )
        else:
            answer.append(_said(_under(reading, heading)))
    return answer


def _said(reading: LineReading) -> LineReading:
    """A line with a colon that is no heading is a remark: "here is the list:"."""
    is_heading = reading.skipped == HEADING and not reading.notes
    return _skipped(reading, REMARK) if is_heading else reading


def _title(reading: LineReading) -> LineReading:
    return reading if reading.problems else _skipped(reading, "a title")


def _skipped(reading: LineReading, reason: str, *notes: str) -> LineReading:
    return LineReading(reading.number, reading.text, notes=notes, skipped=reason)


def _under(reading: LineReading, heading: str | None) -> LineReading:
    item = reading.item
    if item is None or heading is None or item.heading is not None:
        return reading
    said = keep_said(heading.replace("’", "'"))
    if said and item.keep == "should":
        return replace(reading, item=item.model_copy(update={"heading": heading, "keep": said}))
    return replace(reading, item=item.model_copy(update={"heading": heading}))


def _heading(readings: Sequence[LineReading], at: int) -> str | None:
    """The heading that a line is; None where it is none."""
    reading = readings[at]
    if reading.item is not None or not _followed_by_thing(readings[at + 1 :]):
        return None
    text = _UNNUMBERED.sub("", reading.text)
    if reading.skipped == HEADING:
        text = text.rstrip(" :").strip("#= ")
        return text if reading.notes or _is_name(text) or keep_said(text) else None
    if not reading.problems:
        return None
    if marked := _MARKED.match(text):
        return marked[1] or marked[2]
    if at + 1 < len(readings) and readings[at + 1].skipped == RULING:
        return text
    before, after = _blank(readings, at - 1), readings[at + 1 : at + 2]
    alone = before and (_blank(readings, at + 1) or _is_bullet(after[0].text, text))
    is_words = _is_name(text) and "," not in text
    return text if alone and is_words else None


def _is_bullet(below: str, text: str) -> bool:
    return bool(_BULLET.match(below)) and not _BULLET.match(text)


def _is_name(text: str) -> bool:
    """Whether a line may be the name of a group: a few words, no figures, no sentence."""
    words = _WORD.findall(text)
    few = 1 <= len(words) <= WORDS_MOST
    plain = not _SIGNS.search(text) and not any(char.isdigit() for char in text)
    return few and plain and SENTENCE_WORDS.isdisjoint(word.lower() for word in words)


def _blank(readings: Sequence[LineReading], at: int) -> bool:
    """Whether a line is blank; before the first one and after the last one all is."""
    return not 0 <= at < len(readings) or readings[at].skipped == "blank"


def _followed_by_thing(readings: Iterable[LineReading]) -> bool:
    following = (one for one in readings if one.skipped not in ("blank", "comment", RULING))
    first = next(following, None)
    return first is not None and first.item is not None
