"""The weight of one thing among the tokens of a line."""

from __future__ import annotations

from solver.errors import CasewrightError
from solver.listing.draft import Draft, UnreadableError
from solver.listing.free_tokens import Line
from solver.listing.line_readings import Choice, Doubt
from solver.listing.vocabulary import GUESSES, MASS_UNITS
from solver.units import TICKS_PER_MM, Unit, parse_mass

_NAMES = frozenset(["weight", "weighs", "wt", "mass", "poids", "gewicht", "peso"])
_EACH = frozenset(["each", "ea", "apiece", "je", "stück", "chacun", "chacune", "cada", "pièce"])
_ALL = (
    *(("total",), ("in", "all"), ("altogether",), ("together",), ("the", "lot"), ("all",)),
    *(("zusammen",), ("en", "tout"), ("en", "total")),
)
_DENSE = 8000
"""Heavier for its box than this, several things were weighed together: steel is 7850 [g/L]."""


def read_weight(line: Line, draft: Draft, unit: Unit) -> None:
    """Read the weight of one into `draft`; a weight of all is divided, two are asked about."""
    found = [at for at in range(len(line.tokens)) if _is_weight(line, at)]
    found = [at for at in found if not _of_name(line, at)]
    if not found:
        return
    first = found[0]
    text, after = _text(line, first)
    if any(at >= after for at in found):
        msg = "two weights are given"
        raise UnreadableError(msg)
    grams = read_mass(text, unit)
    start = first
    while line.word(start - 1) in GUESSES | _NAMES | {":", "=", "."} and not (
        line.word(start - 1) == "." and line.word(start - 2) not in GUESSES | _NAMES
    ):
        start -= 1
    each = after + (line.word(after) in ("je", "par"))
    is_each = line.word(each) in _EACH or line.word(start - 1) == "je"
    words: tuple[str, ...] = next(
        (w for w in _ALL if [line.word(after + n) for n in range(len(w))] == [*w]), ()
    )
    if line.word(start - 1) in ("total", "together", "altogether", "zusammen"):
        start, words = start - 1, words or ("",)
    after = each + 1 if line.word(each) in _EACH else after + len("".join(words) and words)
    line.blank(start, after)
    draft.weight, draft.weight_text = grams, text
    draft.weight_said = "all" if words else "each" if is_each else ""


def share_weight(draft: Draft) -> None:
    """Divide a weight of all by the count, and ask where one would be too heavy for its size."""
    if draft.weight is None or draft.count == 1 or len(draft.sizes) < 3:
        return
    shared = max(1, round(draft.weight / draft.count))
    if draft.weight_said == "all":
        draft.notes.append(f"{draft.weight_text}, the weight of all {draft.count}, divided")
        draft.weight = shared
        return
    mm3 = 1
    for size in draft.sizes.values():
        mm3 *= size // TICKS_PER_MM
    if not draft.weight_said and draft.weight * 1_000_000 > _DENSE * mm3:
        one = Choice("of one", {"weight": draft.weight})
        draft.weight = shared
        together = Choice("of all together")
        draft.doubts.append(
            Doubt(f"{draft.weight_text} is heavy for its size: is it of one?", (together, one))
        )


def _is_weight(line: Line, at: int) -> bool:
    if not line.free(at) or line.tokens[at].kind != "number":
        return False
    named = line.word(at - 1) in _NAMES or (
        line.word(at - 1) in (":", "=", ".") and line.word(at - 2) in _NAMES
    )
    return named or (
        line.word(at + 1) in MASS_UNITS and (line.word(at + 1) != "#" or line.joined(at + 1))
    )


def _of_name(line: Line, at: int) -> bool:
    """Whether a weight before the sizes belongs to the name: `12 oz bottle`."""
    if line.tokens[at].start >= line.sizes_at:
        return False
    _, after = _text(line, at)
    start = at
    while line.word(start - 1) in GUESSES | _NAMES:
        start -= 1
    each = line.word(after) in _EACH
    return not (line.opens(start) and line.closes(after + each))


def _text(line: Line, at: int) -> tuple[str, int]:
    """The weight as written, ounces after pounds too, and the place after it."""
    text, after = line.word(at), at + 1
    while line.word(after) in MASS_UNITS:
        unit = MASS_UNITS[line.word(after)]
        text, after = f"{text} {unit}", after + 1
        after += line.word(after) == "." and unit in ("lb", "oz")
        smaller = MASS_UNITS.get(line.word(after + 1), "")
        if line.number(after) is None or (unit, smaller) not in (("lb", "oz"), ("kg", "g")):
            break
        text, after = f"{text} {line.word(after)}", after + 1
    return text, after


def read_mass(text: str, unit: Unit) -> int:
    """Read the weight of one [g]; UnreadableError where there is none, or it is 0."""
    try:
        grams = parse_mass(text, unit)
    except CasewrightError as error:
        raise UnreadableError(str(error)) from None
    if grams < 1:
        msg = f"the weight {text.strip()!r} is nothing; leave it out where it is not known"
        raise UnreadableError(msg)
    return grams
