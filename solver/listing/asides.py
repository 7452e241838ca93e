"""Lines that hold no thing: greetings, questions, remarks, signatures, rulings, totals.

A line is set aside only where it has plainly nothing to show; it keeps its reason. One that
changes another line ("those are four by now") is a problem.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from solver.listing.line_readings import GREETING, QUESTION, REMARK, SIGN_OFF, LineReading
from solver.listing.plain_lines import has_chain
from solver.listing.tokens import tokens_of


def _starts(words: str) -> re.Pattern[str]:
    return re.compile(rf"^(?:{words})(?![\w-])", re.IGNORECASE)


RULING = "a ruling"
_RULING = re.compile(r"^[-=_~*+|:.\s#>]+$")
_QUOTED = re.compile(r"^(?:on|am|le|el)\b.*\b(?:wrote|schrieb\b.*|a écrit|escribió)\s?:$", re.I)
_TOTAL = re.compile(
    r"^\s*(?:(?:grand\s+|sub-?\s*)?(?:totals?|sum|summe|gesamt|insgesamt)\b(?:[\W\d]|(?:items?|things?"
    r"|pieces?|pcs|objects?|lines?|kinds?|lbs?|kg|oz|g)\b)*$"
    r"|(?:that makes |makes )?\d+\s?(?:things?|items?|pieces?)?"
    r"\s?(?:in all|altogether|in total)\b)",
    re.IGNORECASE,
)
_GREETING = _starts(
    r"hi|hello|hey|dear|good (?:morning|day|afternoon|evening)|(?:morning|evening|afternoon) \w+,"
    r"|guten (?:tag|morgen|abend)|hallo|sehr geehrte[rs]?|liebe[r]? \w+,|bonjour|bonsoir|chère?s?"
    r"|hola|buen[ao]s (?:tardes|días|noches)|estimad[oa]s?|thanks|thank you"
)
_SIGN_OFF = _starts(
    r"(?:many )?thanks|thank you|thx|cheers|(?:kind |best |warm )?regards|best(?=,| wishes|$)"
    r"|warmly|warmest|yours(?= \w+$|,)|sincerely|love(?=,|$)|bye"
    r"|sent from|(?:she|he) sends (?:her|his)"
    r"|mit freundlichen|(?:viele|liebe|beste|herzliche) grüße|vielen dank"
    r"|merci|(?:bien )?cordialement"
    r"|gracias|(?:un )?saludos?|xx+|tel|phone|mobile|fax"
)
_QUESTION = re.compile(
    r"\b(?:how|what|which|who|where|when|why|can|could|would|will|do|does|did|is|are|should|shall"
    r"|passt|was|wie|wann|kann|können|wäre|pourriez|peut|combien|est-ce|cabe|cuánto|puede|you|u)\b",
    re.IGNORECASE,
)
_PLACE = re.compile(
    r"\b(?:alcove|recess|niche|nook|wall|opening|room|doorway|chimney|ceiling|case|nische|wand"
    r"|vitrine|vitrina)\b(?:\s(?:it)?self)?\s(?:is|are|has|measures|ist|est|mide)\b",
    re.IGNORECASE,
)
_OF_SIZES = _starts(
    r"(?:all |the |alle )?(?:sizes|dimensions|measurements|maße|medidas|mesures|everything|alles)"
)
_SPEAKS = _starts("i|we|you|she|he|they|my|our|some of|most of|all of|yes|no")
SENTENCE_WORDS = frozenset(
    [
        "i",
        "we",
        "you",
        "he",
        "she",
        "they",
        "it",
        "its",
        "them",
        "is",
        "are",
        "was",
        "were",
        "be",
        "am",
        "has",
        "have",
        "had",
        "do",
        "does",
        "will",
        "would",
        "can",
        "could",
        "please",
        "thanks",
        "thank",
        "hi",
        "hello",
        "hey",
        "dear",
        "regards",
        "sincerely",
        "cheers",
        "yours",
        "wishes",
        "morning",
        "afternoon",
        "evening",
        "here",
        "these",
        "below",
        "following",
        "attached",
        "let",
        "see",
        "want",
        "need",
        "came",
        "ours",
        "then",
        "how",
        "ich",
        "wir",
        "sie",
        "es",
        "ist",
        "sind",
        "habe",
        "haben",
        "anbei",
        "bitte",
        "wie",
        "passt",
        "voici",
        "que",
        "nous",
        "vous",
        "je",
        "est",
        "sont",
        "tengo",
        "esto",
        "tiene",
        "hope",
        "list",
    ]
)
"""Words that headings do without, and greetings and sentences do not."""
_CHANGES = re.compile(
    r"\b(?:another|instead|by now|make (?:that|it)|correction|one more|not \w+ but|forgot)\b", re.I
)
_HAS_THINGS = re.compile(
    r"\b(?:have|has|got|found|there (?:is|are))(?: also| still)?"
    r" (?:an?|\d+|two|three|four|five|six) ",
    re.IGNORECASE,
)
"""Words of one who names a thing in a sentence."""
_TO_MEASURE = re.compile(
    r"\b(?:to measure|measure (?:it|them)|measured? yet|messen|mesurer|to follow|see photo|tb[ac]"
    r"|folgen)\b",
    re.IGNORECASE,
)
_BULLETED = re.compile(r"^\s*(?:[-*•+▪·☐✓–—]|\d+[.)]|\[)\s?\S")
_NO_SIZES = "no sizes are found"
_SIZES = re.compile(
    r"\d\W{0,3}(?:in|cm|mm|ft)?\s*(?:[x×]|by)\s*\d"
    r"|\d\D{0,9}\b(?:wide|tall|high|deep|long|across|dia\w*|breit|hoch|tief)\b",
    re.IGNORECASE,
)
"""What a signature does not have: two sizes, or one with its side."""
_PHONE = re.compile(r"\bext\.?\s?\d|\bc/o\b", re.IGNORECASE)


def set_aside(readings: Sequence[LineReading]) -> list[LineReading]:
    """Give lines that hold no thing the reason to skip them."""
    last = max((n for n, one in enumerate(readings) if one.item is not None), default=-1)
    answer: list[LineReading] = []
    signed = False
    for at, reading in enumerate(readings):
        ends = at > last
        reason = _reason(reading, begins=at < _first(readings), ends=ends, signed=signed)
        signed = signed or (reason == SIGN_OFF and ends)
        answer.append(_skipped(reading, reason) if reason else _changed(reading))
    return answer


def _first(readings: Sequence[LineReading]) -> int:
    return next((n for n, one in enumerate(readings) if one.item is not None), len(readings))


def _skipped(reading: LineReading, reason: str) -> LineReading:
    return LineReading(reading.number, reading.text, skipped=reason)


def _changed(reading: LineReading) -> LineReading:
    if reading.problems and _corrects(reading.text):
        msg = "does this change another line? write it there"
        return replace(reading, problems=(msg,))
    return reading


def _corrects(text: str) -> bool:
    return bool(_CHANGES.search(text)) and any(t.kind == "number" for t in tokens_of(text[:1000]))


def _reason(reading: LineReading, *, begins: bool, ends: bool, signed: bool) -> str | None:
    """Why a line holds no thing; None where it may hold one."""
    text = reading.text.strip().lstrip("> ").strip()
    if reading.item is not None and reading.skipped is None:
        return REMARK if _PLACE.search(text) else None
    if not reading.problems:
        return None
    if _RULING.match(text) or not text:
        return RULING
    if _TOTAL.match(text.lstrip("\t ,;|#")):
        return "a total"
    if _QUOTED.match(text):
        return "a comment"
    if has_chain(text):
        return REMARK if _PLACE.search(text) else None
    return _said(text, begins=begins, ends=ends, signed=signed)


def _said(text: str, *, begins: bool, ends: bool, signed: bool) -> str | None:
    greets = _GREETING.match(text) and not _BULLETED.match(text)
    short = text.endswith((",", "!")) or len(text.split()) < 3
    if greets and (begins or (short and not _SIGN_OFF.match(text))):
        return GREETING
    if _PLACE.search(text):
        return QUESTION if text.endswith("?") else REMARK
    if "?" in text and _QUESTION.search(text) and not _BULLETED.match(text):
        return QUESTION
    has_number = any(char.isdigit() for char in text)
    thanks = bool(_SIGN_OFF.match(text)) and (ends or (short and not has_number))
    if not _SIZES.search(text) and (thanks or (ends and _PHONE.search(text))):
        return SIGN_OFF
    if _BULLETED.match(text) or _TO_MEASURE.search(text) or _corrects(text):
        return None
    if _HAS_THINGS.search(text):
        return None
    if re.fullmatch(r"\([^()]*\)", text):
        return REMARK
    if signed and not _SIZES.search(text):
        return SIGN_OFF
    of_sizes = _OF_SIZES.match(text) and not has_number
    return REMARK if of_sizes or _is_prose(text) else None


def _is_prose(text: str) -> bool:
    """Whether a line is a sentence: it speaks, or has words of sentences, and is no list entry."""
    words = [token for token in tokens_of(text[:1000]) if token.kind == "word"]
    said = sum(token.text in SENTENCE_WORDS for token in words)
    first = tokens_of(text[:1000])[0]
    starts_with_count = first.kind == "number"
    if starts_with_count:
        return False
    return len(words) >= 3 and (
        said >= 2
        or bool(_SPEAKS.match(text) and said)
        or (said >= 1 and text.endswith((".", "!", ":")))
    )
