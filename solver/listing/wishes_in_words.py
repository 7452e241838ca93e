"""Words of a plain line that say what a thing is to the client.

How dear it is, hero, fragile, its number in a series, on one shelf, what it stands apart from, the
heading that it belongs under.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

from solver.listing.draft import Draft, UnreadableError, whole_count
from solver.listing.scan import Scan

Keep = Literal["must", "should", "optional"]
KEEPS: Mapping[str, Keep] = {
    **dict.fromkeys(("must", "essential", "unbedingt", "imprescindible", "indispensable"), "must"),
    "should": "should",
    **dict.fromkeys(("optional", "opcional", "optionnel", "facultatif"), "optional"),
}
"""How dear a thing is, in words."""
_SAID: Mapping[Keep, str] = {
    "must": (
        r"(?:(?:it|this one|these|they)\s)?(?:must|has to|have to)\s"
        r"(?:go in|be (?:in|shown|there|included)|fit|keep|have)|must keep"
        r"|muss (?:unbedingt )?(?:hinein|rein|mit)"
    ),
    "should": r"should fit",
    "optional": (
        r"(?:only )?if (?:there(?: is|'?s) )?(?:any )?room|nice to have"
        r"|(?:I )?(?:don'?t|do not) (?:care|mind) if (?:it|they) (?:doesn'?t|don'?t|does not) fit"
        r"|(?:nur )?(?:wenn|falls) (?:noch )?platz ist|(?:solo )?si (?:hay|queda) sitio"
        r"|s'il (?:y a|reste) de la place"
    ),
}
"""How dear a thing is, as people say it."""
ORDER_MOST = 9999
"""Highest number in a series [-]."""
ANY_WORD = (
    "must|muss|has to|have to|essential|unbedingt|indispensable|imprescindible|option|opcional"
    "|facult|care|mind|platz|sitio|place|zerbrechlich|frágil|keep|kept|should|room|nice|hero"
    "|fragile|order|series|one shelf|apart|beside|next to|heading|section"
)
"""Without one of these there is nothing of this in a line."""


def _after_the_start(text: str) -> re.Pattern[str]:
    """A pattern that does not begin the line: there it is the name."""
    return re.compile(rf"(?<!^)(?<![a-z]){text}(?![a-z])", re.IGNORECASE)


_KEEP = _after_the_start(rf"keep\s?[:=]?\s?({'|'.join(KEEPS)})")
_KEEP_ALONE = _after_the_start(rf"({'|'.join(KEEPS)})(?:\s(?:please|pls))?")
_KEEP_SAID = {
    keep: _after_the_start(rf"(?<!not )(?<!n't )(?<!never )(?:{words})(?:\s(?:please|pls))?")
    for keep, words in _SAID.items()
}
_HERO = _after_the_start(r"hero")
_FRAGILE = _after_the_start(r"(?:(?:very|sehr|très|muy)\s)?(?:fragile|zerbrechlich|frágil)")
_ORDER = _after_the_start(
    r"(?:order\s?[:=]?\s?(\d+)|(?:no\.?|number|\#)\s?(\d+)\s(?:in|of)\s(?:the\s|its\s|a\s)?series)"
)
_TOGETHER = _after_the_start(r"(?:(?:all\s)?on\sone\sshelf|(?:keep|kept)\stogether)")
_APART = _after_the_start(
    r"(?:(?:keep\s|kept\s|stand\s)?apart\sfrom|not\s(?:beside|next\sto))\s([^,;|\0]+)"
)
_HEADING = _after_the_start(r"(?:heading|section)\s?[:=]\s?([^,;|\0]+)")


def read_what_it_is(scan: Scan, draft: Draft, sizes_at: int) -> None:
    """Read what a thing is to the client; before the sizes only between commas or brackets."""
    if match := scan.take(_HEADING):
        draft.heading = match[1].strip()
    if match := scan.take(_ORDER, sizes_at):
        draft.order = read_order(match[1] or match[2])
    while match := scan.take(_APART, sizes_at):
        draft.apart = (*draft.apart, match[1].strip())
    draft.together = bool(scan.take(_TOGETHER, sizes_at)) or draft.together
    alone = len(scan.rest)
    draft.hero = bool(scan.take(_HERO, alone)) or draft.hero
    draft.fragile = bool(scan.take(_FRAGILE, alone)) or draft.fragile
    if match := scan.take(_KEEP, sizes_at) or scan.take(_KEEP_ALONE, alone):
        draft.keep = read_keep(match[1])
    for keep, words in _KEEP_SAID.items():
        if scan.take(words, sizes_at):
            draft.keep = keep


def read_keep(text: str) -> Keep:
    """Read how dear a thing is: must, should or optional."""
    if keep := keep_said(text):
        return keep
    msg = f"keep is {text.strip()!r}; write must, should or optional"
    raise UnreadableError(msg)


def keep_said(text: str) -> Keep | None:
    """Return how dear a thing is where a text says this and nothing else."""
    word = text.strip().lower()
    said = (keep for keep, words in _SAID.items() if re.fullmatch(words, word, re.IGNORECASE))
    return KEEPS.get(word) or next(said, None)


def read_order(text: str) -> int:
    """Read a number in a series, from 0 to 9999 [-]."""
    return whole_count(text, "number in the series", ORDER_MOST, least=0)
