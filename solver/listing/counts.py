"""How many of a thing a line says: before the name, after it, in brackets, in words.

Only tokens that nothing else has claimed are looked at. What may as well be part of the name is
left to `names`, and what may be either is a doubt.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from solver.job.inventory import COUNT_MOST
from solver.listing.draft import Draft, UnreadableError
from solver.listing.free_tokens import Line, owned
from solver.listing.line_readings import Choice, Doubt
from solver.listing.vocabulary import (
    ARTICLES,
    BEFORE_COUNT,
    COUNTERS,
    EITHER,
    GUESSES,
    JOINTS,
    LENSES,
    OF,
    ONE_PAIR,
    OURS,
    SETS,
    VAGUE,
    WORN_PAIRS,
)

COUNT_SURE_MOST = 99
"""A bare number before the name above this may be a year or a type, and is asked about [-]."""
_HALF = frozenset(("half", "media", "demi", "demie", "halbes"))
_KEPT_IN = ("case", "box", "frame", "rack")
_STRONG = frozenset(("off", "pcs", "pc", "pieces", "nos", "no", "nr", "stück", "stk"))


@dataclass
class Counted:
    """A count, what else it may be, and the tokens that say it."""

    number: int
    first: int
    after: int
    other: int | None = None
    asked: bool = False
    about: bool = False
    marked: bool = True


def read_count(line: Line, draft: Draft) -> None:
    """Read how many there are into `draft`; two different counts are asked about."""
    found: list[Counted] = []
    head = _leading(line, draft)
    if head:
        found.append(head)
    at = 0
    while at < len(line.tokens):
        counted = _elsewhere(line, at) or (None if head else _before_sizes(line, at))
        if counted:
            line.blank(counted.first, counted.after)
            found.append(counted)
        at = counted.after if counted else at + 1
    if draft.counted:
        found.append(Counted(draft.count, 0, 0))
    draft.counted = bool(found)
    if not found:
        _vague(line)
        return
    _settle(found, draft)


def _settle(found: list[Counted], draft: Draft) -> None:
    for one in found:
        if not 1 <= one.number <= COUNT_MOST:
            msg = f"the count '{one.number}' is not a whole number from 1 to {COUNT_MOST}"
            raise UnreadableError(msg)
    numbers = list(dict.fromkeys(one.number for one in found))
    first = found[0]
    draft.count = first.number
    if any(one.about for one in found):
        draft.notes.append(f"about {first.number} taken for {first.number}")
    if len(numbers) > 1:
        shown = " and ".join(map(str, sorted(numbers)))
        draft.doubts.append(_how_many(f"two counts are given: {shown}", numbers))
    elif first.other is not None:
        numbers = sorted({first.number, first.other}, reverse=True)
        draft.count = numbers[0]
        draft.doubts.append(_how_many(f"how many: {first.number} or {first.other}?", numbers))
    elif any(one.asked for one in found):
        draft.doubts.append(_how_many(f"{first.number}?: how many", [first.number, 1]))


def _how_many(question: str, numbers: Sequence[int]) -> Doubt:
    choices = (Choice(f"{number} of them", {"count": number}) for number in dict.fromkeys(numbers))
    return Doubt(question, tuple(choices))


def _vague(line: Line) -> None:
    """Ask how many `a few` are."""
    at = next((n for n in range(len(line.tokens)) if line.free(n)), 0)
    start = at
    at += line.word(at) == "a"
    word = line.word(at)
    is_set = word in ("set", "bunch", "lot", "group") and line.word(at + 1) == "of"
    if line.tokens and line.tokens[at].end <= line.sizes_at and (word in VAGUE or is_set):
        shown = line.scan.original[line.tokens[start].start : line.tokens[at + is_set].end]
        msg = f"how many are {shown!r}? write 2 x … or qty 1"
        raise UnreadableError(msg)


def _leading(line: Line, draft: Draft) -> Counted | None:
    """A count before the name: `3 x`, `two of the`, `half a dozen`, `a pair of`, `set of 4`."""
    at = next((n for n in range(len(line.tokens)) if line.free(n)), len(line.tokens))
    if at == len(line.tokens) or line.tokens[at].start >= line.sizes_at:
        return None
    start, about = at, False
    if line.word(at) in OURS and line.number(at + 1) is not None:
        at += 1
    while line.word(at) in GUESSES:
        about, at = True, at + 1 + (line.word(at + 1) == ".")
    if line.word(at) in ("both", "beide"):
        counted: Counted | None = Counted(2, start, at + 1)
    else:
        counted = _of_a_set(line, at) or _plain(line, at, draft)
    if counted is None:
        return None
    counted.first, counted.about = start, counted.about or about
    after = counted.after
    if line.word(after) in OF and (counted.marked or line.word(after) == "of"):
        after += 1
        after += line.word(after) in OF
    if not line.free(after) and line.sizes_at > 0 and not _name_elsewhere(line, after):
        return None
    line.blank(start, after)
    return counted


def _name_elsewhere(line: Line, after: int) -> bool:
    return any(
        line.free(n) and line.tokens[n].kind == "word" for n in range(after, len(line.tokens))
    )


def _of_a_set(line: Line, at: int) -> Counted | None:
    """`a pair of`, `half a dozen`, `2 dozen`, `set of 4`."""
    start, times, half = at, 1, False
    if line.word(at) in _HALF:
        half, at = True, at + 1
    number = line.number(at)
    if line.word(at) == "1/2":
        half, at = True, at + 1
    elif number is not None and not line.joined(at + 1):
        times, at = number, at + 1
    elif line.word(at) in ARTICLES:
        at += 1
    if line.word(at) in _HALF and not half:
        half, at = True, at + 1
        at += line.word(at) == "a"
    word = line.word(at)
    if word == "paar" and line.scan.original[line.tokens[at].start] == "p":
        msg = "how many are 'ein paar'? write 2 x … or qty 1"
        raise UnreadableError(msg)
    if word in ("set", "lot") and line.word(at + 1) == "of" and (many := line.number(at + 2)):
        return Counted(times * many, start, at + 3, other=times if _is_kept_in(line) else None)
    if word not in SETS:
        return None
    number = times * SETS[word] // (2 if half else 1)
    counted = Counted(number, start, at + 1)
    if SETS[word] == 2:
        return _pair(line, counted)
    return _after(line, counted)


def _is_kept_in(line: Line) -> bool:
    """Whether a set stands in a case of its own, which may be what was measured."""
    words = [token.text for token in line.tokens]
    return any(f"in {a}{b}" in " ".join(words) for a in ("", "a ", "its ") for b in _KEPT_IN)


def _pair(line: Line, counted: Counted) -> Counted:
    """A pair is two, but for glasses and the like; of shoes it is asked."""
    head = {t.text for n, t in enumerate(line.tokens) if line.free(n) and t.end <= line.sizes_at}
    if head & ONE_PAIR:
        counted.number //= 2
    elif head & WORN_PAIRS:
        counted.other = counted.number // 2
    return counted


def _plain(line: Line, at: int, draft: Draft) -> Counted | None:
    """A number before the name that is not part of it."""
    number = line.number(at)
    if number is None:
        _refuse_broken(line, at)
        return None
    counted = _after(line, Counted(number, at, at + 1, marked=False))
    if counted.marked or counted.other is not None or counted.asked:
        lens = line.tokens[at + 1].text in JOINTS and line.number(at + 2) is not None
        return None if lens and line.word(at + 3) in LENSES else counted
    if owned(line, at):
        return None
    is_title = _is_title(line, at) or line.scan.original[line.tokens[at].start :][:4] in (
        "elf ",
        "once",
    )
    is_large = number > COUNT_SURE_MOST and not line.tokens[at].spelled
    if is_large or is_title or (number > 1 and line.word(at + 1) in EITHER):
        name = line.scan.left(line.tokens[at].start, line.sizes_at)
        rest = line.scan.left(line.tokens[at].end, line.sizes_at)
        draft.doubts.append(
            Doubt(
                f"is {number} a count or part of the name?",
                (
                    Choice("part of the name"),
                    Choice(f"{number} of them", {"count": number, "name": rest or name}),
                ),
            )
        )
        draft.owned.add(line.tokens[at].start)
        return None
    return counted


def _is_title(line: Line, at: int) -> bool:
    """Whether a number in words may begin a title: `Three Graces statue`."""
    token, after = line.tokens[at], line.tokens[at + 1 : at + 2]
    if not token.spelled or token.text == "1" or not after:
        return False
    original = line.scan.original
    words = line.scan.left(token.end, line.sizes_at).split()
    english = re.match("t[whe]|f[oi]|s[ie][xv]|eig|nin|elev", original[token.start :], re.I)
    titled = original[after[0].start].isupper() and original[token.start].isupper()
    return bool(english) and titled and len(words) > 1 and not words[-1].endswith("s")


def _refuse_broken(line: Line, at: int) -> None:
    """A number that is not whole is no count: `1.5 x jug`."""
    if line.free(at) and line.tokens[at].kind == "number" and line.word(at + 1) in ("x", "×"):
        msg = f"the count {line.word(at)!r} is not a whole number from 1 to {COUNT_MOST}"
        raise UnreadableError(msg)


def _after(line: Line, counted: Counted) -> Counted:
    """What may follow a count: a range, `?`, `or so`, `x`, `off`, `pcs`, a dash."""
    at = counted.after
    tight = line.word(at) == "-" and line.joined(at) and line.joined(at + 1)
    if (line.word(at) in ("or", "oder", "to", "bis", "ou", "o") or tight) and (
        other := line.number(at + 1)
    ):
        counted.other, counted.marked, at = other, True, at + 2
    if line.word(at) == "or" and line.word(at + 1) == "so":
        counted.about, counted.marked, at = True, True, at + 2
    if line.word(at) == "+" and line.joined(at):
        counted.about, counted.marked, at = True, True, at + 1
    if line.word(at) == "?":
        counted.asked, counted.marked, at = True, True, at + 1
    word = line.word(at)
    after_range = counted.marked
    if (word in COUNTERS and not (word == "x" and line.joined(at + 1) and not line.joined(at))) or (
        word == "-" and not line.joined(at)
    ):
        name_unit = (
            word in ("piece", "st") and not after_range and line.word(at + 1) not in OF | {"."}
        )
        if not name_unit or word == "-":
            counted.marked, at = True, at + 1
            at += line.word(at) == "." and word != "-"
    if line.word(at) == "of" and counted.marked:
        at += 1
        at += line.word(at) in OF
    counted.after = at
    return counted


def _elsewhere(line: Line, at: int) -> Counted | None:
    """A count that begins at a token: marked, between signs, in brackets."""
    if line.word(at) in BEFORE_COUNT or (
        line.word(at) in ("number", "no") and line.word(at + 1) in (":", "=")
    ):
        marked = _marked(line, at)
        if marked:
            return marked
    number = line.number(at)
    if number is None:
        return _set_between(line, at)
    if not line.opens(at) or owned(line, at):
        last = _after(line, Counted(number, at, at + 1, marked=False))
        strong = line.word(at + 1) in _STRONG and not line.free(last.after)
        return last if strong else None
    counted = _after(line, Counted(number, at, at + 1, marked=False))
    while line.word(counted.after) in OF:
        counted.after, counted.marked = counted.after + 1, True
    bracket = line.word(at - 1) == "(" and line.word(counted.after) == ")"
    if bracket:
        counted.first, counted.after = at - 1, counted.after + 1
        return counted
    if line.closes(counted.after) and line.tokens[at].start < line.sizes_at:
        return counted
    if line.closes(counted.after) and counted.marked:
        return counted
    if line.closes(counted.after + 1) and line.word(counted.after) in SETS:
        times, counted.number = counted.number, counted.number * SETS[line.word(counted.after)]
        if SETS[line.word(counted.after)] == 2:
            counted.other = times
        counted.after += 1
        return counted
    return _of_the_name(line, counted) or _after_colon(line, counted)


def _marked(line: Line, at: int) -> Counted | None:
    """A count after a word for it: `qty: 3`, `@ 3`, `x 3`."""
    if line.number(at - 1) is not None and line.joined(at):
        return None
    step = at + 1 + (line.word(at + 1) in (".", ":", "="))
    step += line.word(step) in (":", "=")
    sign = line.word(step) == "-"
    if not line.free(step + sign) or line.tokens[step + sign].kind != "number":
        counted = _of_a_set(line, step)
        return Counted(counted.number, at, counted.after) if counted else None
    number = line.number(step)
    if sign or number is None:
        given = f"{'-' * sign}{line.word(step + sign)}"
        msg = f"the count {given!r} is not a whole number from 1 to {COUNT_MOST}"
        raise UnreadableError(msg)
    counted = _after(line, Counted(number, step, step + 1))
    counted.first = at
    return counted if line.word(at) not in ("x", "×") or line.closes(counted.after) else None


def _set_between(line: Line, at: int) -> Counted | None:
    """`a pair`, `half a dozen`, between signs or in brackets."""
    counted = _of_a_set(line, at) if line.opens(at) else None
    if counted is None:
        return None
    counted.after += line.word(counted.after) == "."
    if line.word(at - 1) == "(" and line.word(counted.after) == ")":
        counted.first, counted.after = at - 1, counted.after + 1
    return counted if line.closes(counted.after) else None


def _before_sizes(line: Line, at: int) -> Counted | None:
    """A number right before the sizes may be a count: `vases 3 5x11x5`."""
    if line.number(at) is None or line.opens(at):
        return None
    last = at + 1 < len(line.tokens) and line.tokens[at + 1].start >= line.sizes_at
    if last and line.tokens[at].start < line.sizes_at and not owned(line, at):
        return Counted(line.number(at) or 0, at, at + 1, other=1)
    return None


def _of_the_name(line: Line, counted: Counted) -> Counted | None:
    """`3 boxes` where boxes are in the name."""
    noun = line.word(counted.after)
    head = [t.text for t in line.tokens[: counted.first]]
    if (
        noun
        and noun in head
        and line.closes(counted.after + 1)
        and line.word(counted.first - 1) != "("
    ):
        return Counted(counted.number, counted.first, counted.after + 1)
    return None


def _after_colon(line: Line, counted: Counted) -> Counted | None:
    """`not in a group: three stands`: a count, or part of the name."""
    first = counted.first
    if line.word(first - 1) == ":" and line.tokens[first].start < line.sizes_at:
        counted.other = 1
        return counted
    return None
