"""What is left of a line: the name, remarks, and numbers that nothing has claimed.

A number is part of the name only where the name plainly owns it; any other is asked about.
"""

from __future__ import annotations

import re

from solver.listing.counts import COUNT_SURE_MOST
from solver.listing.draft import Draft, UnreadableError
from solver.listing.free_tokens import Line, owned
from solver.listing.line_readings import Choice, Doubt
from solver.listing.vocabulary import LEADING, MASS_UNITS, PRONOUNS, REPEATING, SETS
from solver.units import parse_mass

_MONEY = re.compile(
    r"[,;(-]?\s*[^,;(\0-]*(?:[$€£]\s?\d[\d.,]*|\d[\d.,]*\s?(?:dollars|euros?|pounds\ssterling)|"
    r"(?:paid|bought|cost)\s[^,;()\0]*\d)[^,;)\0]*\)?",
    re.IGNORECASE,
)
_OF_THINGS = re.compile(
    r"(?:[^\d]*(?<!\d)(?:\d{1,3}(?:st|nd|rd|th)?\s?[^\W\d_]{3,}|(?:1[4-9]|20)\d\ds?(?!\d)))+[^\d]*"
)
"""Numbers each before a word, or years: `missing 1 arm`, `6 cups, 6 saucers`, `from 1884`."""
_WITH_UNIT = re.compile(
    rf"\d\s?(?:{'|'.join((*MASS_UNITS, 'inch', 'inches', 'mm', 'cm'))})\b", re.I
)
_BRACKET = re.compile(r"\(([^()]*)\)")
_NESTED = re.compile(
    r"\b(?:nesting|nested|largest|smallest|biggest|and the|one is|the (?:others?|rest)|vary\w*"
    r"|(?:various|different|assorted|mixed) sizes|on average)\b",
    re.IGNORECASE,
)
_SEVERAL = re.compile(rf"(?<!of a )\b(?:{'|'.join(SETS)})\b(?! of )", re.IGNORECASE)
_SETS_OF = re.compile(r"^(?:sets?|boxes|cases|lots|groups|bundles) of (\d+)\b", re.IGNORECASE)
_STRAY_MASS = re.compile(r"^\s?(?:lbs?|pounds?|oz|ounces?|kgs?|kilos?|kilograms?|g|#)\b", re.I)


def read_name(line: Line, draft: Draft) -> None:
    """Take the name from before the sizes, else from after them; the rest is a remark."""
    scan = line.scan
    draft.name = scan.left(0, len(scan.rest))
    _take_money(line, draft)
    _take_brackets(line, draft)
    head = _tidy_head(scan.left(0, line.sizes_at), draft)
    tail = scan.left(line.sizes_at, len(scan.rest))
    tail = tail if "(" in tail else tail.strip(" )],;")
    draft.name = head or _tidy_head(tail, draft)
    if draft.name.lower() in PRONOUNS:
        draft.name = ""
    if _STRAY_MASS.match(tail):
        msg = f"which figure is the weight? part it from the sizes with a comma ({tail!r} is left)"
        raise UnreadableError(msg)
    _ask_of_numbers(line, draft, in_name=0 if head else line.sizes_at)
    _ask_of_leading_weight(line, draft)
    if head and tail:
        draft.notes.append(f"remark: {tail}")
        if re.match(r"(?:and|plus|und|et|y)\b", tail, re.IGNORECASE) and "and" in tail[:4]:
            msg = f"{tail!r}: is this another thing? give it a line of its own"
            raise UnreadableError(msg)
    if "stackable" in draft.name.lower() and draft.stack == 1:
        draft.stack = 2
        choices = tuple(Choice(f"{high} high", {"stack": high}) for high in (2, 3, 4, 1))
        draft.doubts.append(Doubt("stackable: how many on each other?", choices))
    if draft.count > 1 and _NESTED.search(scan.original):
        nested = Choice("one, as they stand", {"count": 1})
        each = Choice(f"{draft.count} of this size", {"count": draft.count})
        draft.count = 1
        draft.doubts.append(Doubt("several sizes or one in another: how many?", (nested, each)))
    if not draft.counted and (match := _SEVERAL.search(draft.name)):
        many = SETS[match[0].lower()]
        choices = Choice("one", {"count": 1}), Choice(f"{many} of them", {"count": many})
        draft.doubts.append(Doubt(f"{match[0]}: how many?", choices))
    if draft.counted and (match := _SETS_OF.match(draft.name)):
        many = draft.count * int(match[1])
        each = Choice(f"{draft.count} of them", {"count": draft.count})
        choices = each, Choice(f"{many} of them", {"count": many})
        draft.doubts.append(Doubt(f"{draft.count} {match[0]}: how many?", choices))


def _take_money(line: Line, draft: Draft) -> None:
    scan = line.scan
    while match := _MONEY.search(scan.rest):
        draft.notes.append(f"remark: {scan.original[match.start() : match.end()].strip(' ,;()-')}")
        scan.blank(*match.span())


def _take_brackets(line: Line, draft: Draft) -> None:
    """Brackets with words and numbers of things in them are a remark, or how many there are."""
    scan = line.scan
    for match in _BRACKET.finditer(scan.rest):
        inside = match[1].strip()
        digits, letters = re.search(r"\d", inside), re.search(r"[^\W\d_]", inside)
        if not digits or not letters or scan.rest[match.start() - 1 : match.start()].isalnum():
            continue
        given = scan.original[match.start(1) : match.end(1)].strip(" ,;\0")
        if not _OF_THINGS.fullmatch(inside) or _WITH_UNIT.search(inside):
            msg = f"({given}) is not understood; say what the figure is, as in qty 3 or 14 deep"
            raise UnreadableError(msg)
        number = re.match(r"(\d{1,2})\s?[^\W\d_]", inside)
        if number and "," not in inside and not draft.counted:
            many = int(number[1])
            choices = Choice("one"), Choice(f"{many} of them", {"count": many})
            draft.doubts.append(Doubt(f"({given}): is that how many there are?", choices))
        draft.notes.append(f"remark: {given}")
        scan.blank(*match.span())


def _tidy_head(head: str, draft: Draft) -> str:
    """Drop words that lead to the sizes, and parts that only say the name again."""
    head = re.sub(r"\(\s*[,;.]*\s*\)", "", head).strip(" ,;:-–—.(@")
    parts = re.split(r"([,;:.–—]\s|\s-\s)", head)
    while len(parts) > 2:
        words = re.findall(r"[^\W\d_]+", parts[-1].lower())
        earlier = set(re.findall(r"[^\W\d_]+", "".join(parts[:-2]).lower()))
        if any(word not in REPEATING | earlier for word in words):
            break
        if re.search(r"\d", parts[-1]):
            break
        parts = parts[:-2]
    words = "".join(parts).split()
    while len(words) > 1 and words[-1].lower().strip("(.,;:") in LEADING:
        words.pop()
    if words[1:] and words[0].lower() == "only,":
        words.pop(0)
    if words[-2:-1] and words[-2].lower() == "each" and words[-1].isalpha():
        words = words[:-2]
    return " ".join(words).strip(" ,;:-–—.")


def _ask_of_numbers(line: Line, draft: Draft, in_name: int) -> None:
    """Ask what each number is that nothing has claimed."""
    for at, token in enumerate(line.tokens):
        if not line.free(at) or token.kind != "number" or (token.spelled and token.text == "1"):
            continue
        in_tail = token.start >= line.sizes_at > in_name
        if token.start in draft.owned or (not in_tail and owned(line, at)):
            continue
        if in_tail and not token.spelled:
            tail = line.scan.left(line.sizes_at, len(line.scan.rest))
            msg = f"{tail!r} is not understood; say what the {token.text} is, as in qty 3 or 6 lb"
            raise UnreadableError(msg)
        _ask_of_number(line, draft, at)


def _ask_of_number(line: Line, draft: Draft, at: int) -> None:
    token = line.tokens[at]
    in_name = token.text in draft.name or not token.spelled
    choices = [Choice("part of the name" if in_name else "nothing that counts")]
    number = token.whole
    shown = line.scan.original[token.start : token.end]
    if number is not None and 1 <= number <= COUNT_SURE_MOST and not draft.counted:
        figure = re.escape(line.scan.original[token.start : token.end])
        bare = re.sub(rf"\s*(?<!\w){figure}(?!\w)", "", draft.name, count=1).strip(" ,;")
        if any(sign.isalpha() for sign in bare):
            choices.append(Choice(f"{number} of them", {"count": number, "name": bare}))
    draft.doubts.append(Doubt(f"what is the {shown}?", tuple(choices)))


def _ask_of_leading_weight(line: Line, draft: Draft) -> None:
    """`1.5 kg mortar`: the weight, or what it is called."""
    if mixed := re.match(r"(\d{1,2}) (\d/\d.*)$", draft.name):
        many = Choice(f"{mixed[1]} of them", {"count": int(mixed[1]), "name": mixed[2]})
        doubt = Doubt(f"is the {mixed[1]} how many there are?", (Choice("part of the name"), many))
        draft.doubts.append(doubt)
    match = re.match(r"([\d.,/ -]*\d)\s?(lbs?|pounds?|kgs?|kilos?)\s(.+)$", draft.name, re.I)
    if match and draft.weight is None and match[2].lower() in MASS_UNITS:
        grams = parse_mass(f"{match[1]} {match[2]}", "in")
        weight = Choice("its weight", {"weight": grams, "name": match[3]})
        choices = Choice("part of the name"), weight
        draft.doubts.append(Doubt(f"is {match[1]} {match[2]} its weight?", choices))
