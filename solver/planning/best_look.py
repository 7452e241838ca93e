"""Which of several options looks best, and why, in the figures that decide it.

Fewest places parted; of those openings that fall to one end; of those the rows nearest to mirror
images; of those the fullest emptiest shelf. Headroom and steps are shown, and decide nothing.
"""

from __future__ import annotations

from solver.plan.plan import Option, Scores

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def look_of(option: Option) -> tuple[int, bool, int, float]:
    """What an option with a layout is compared by, the best-looking least [-, -, %, -]."""
    assert option.scores is not None
    one = option.scores
    return one.places_parted, rises(option), _seen(one.outline_missed), -one.fill_least


SEEN = 4
"""Less of an outline without mirror image than this counts as none [%]: as the
composition of rows counts it."""


def _seen(outline_missed: float) -> int:
    """Outline without mirror image in steps that are seen [-]."""
    return int(outline_missed // SEEN)


def rises(option: Option) -> bool:
    """Whether an opening is higher than the one below it, where the tallest is wished lowest."""
    return any(stage.name == "rises" and stage.value for stage in option.stages)


def reason(better: Option, other: Option) -> str:
    """Say in what `better` looks better than `other`; "" where nothing tells them apart."""
    assert better.scores is not None
    assert other.scores is not None
    one, two, name = better.scores, other.scores, other.name
    if one.places_parted != two.places_parted:
        return f"{together(one)}, where {name} {_verb(name, 'part')} {_number(two.places_parted)}"
    if rises(better) != rises(other):
        return f"its openings fall to one end, those of {name} do not"
    if _seen(one.outline_missed) != _seen(two.outline_missed):
        return (
            f"rows a mirror image but for {one.outline_missed:g} %, "
            f"where {name} {_verb(name, 'miss')} {two.outline_missed:g} %"
        )
    if one.fill_least != two.fill_least:
        least, theirs = (f"{share * 100:.0f} %" for share in (one.fill_least, two.fill_least))
        return f"its emptiest shelf is {least} full, that of {name} {theirs}"
    return ""


def together(scores: Scores) -> str:
    """Say whether every kind stands on one shelf, or how many places are parted."""
    if not scores.places_parted:
        return "every kind on one shelf"
    one = scores.places_parted == 1
    return f"{_number(scores.places_parted)} place{'' if one else 's'} parted"


def _number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def _verb(name: str, verb: str) -> str:
    """Agree a verb with the name of an option, "5 shelves" or "1 shelf"."""
    if name.endswith("shelves"):
        return verb
    return f"{verb}es" if verb.endswith("s") else f"{verb}s"
