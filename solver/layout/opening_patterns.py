"""Patterns: what may stand in one opening together, listed where there are few of them.

A pattern says how many of each kind stand in an opening. Each opening holds one, and together
they hold everything but what is left out. Where all patterns can be listed, as of a few kinds in
narrow bays, this is a much stronger statement than widths and loads added up, since an opening
that is nearly full is seen to be full (Gilmore and Gomory 1961, A linear programming approach to
the cutting-stock problem). It rules out no layout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from solver.layout.constraints import too_heavy
from solver.layout.layout_problem import Form, Kind, LayoutProblem
from solver.layout.variables import LayoutVariables, Linear
from solver.units import Grams, Ticks

LISTED_MOST = 600
"""Sets of things in one opening, full or not, up to which they are listed [-]."""
ALWAYS = -1
"""The level of what may stand in an opening however low it is."""


@dataclass(frozen=True)
class Pattern:
    """What stands in an opening: how many of each kind, the level that it needs, what is free."""

    counts: tuple[int, ...]
    level: int
    room: Ticks
    load: Grams


Listed = tuple[Pattern, ...]


def one_pattern_each(v: LayoutVariables) -> None:
    """Every opening holds one pattern, and all together hold what is not left out.

    Bays alike, taken together, hold as many patterns as there are bays. Nothing is said where
    there are too many patterns.
    """
    kinds = [k for k, kind in enumerate(v.problem.kinds) if kind.forms and kind.count]
    patterns = _of_openings(v, kinds)
    if patterns is not None:
        _hold(v, kinds, patterns)
        v.linear = 2  # patterns prove nothing where the heights they need are not relaxed with them


def _of_openings(v: LayoutVariables, kinds: list[int]) -> dict[tuple[int, int], Listed] | None:
    """The patterns by class and opening; None where they are too many."""
    found: dict[tuple[int, int], Listed] = {}
    known: dict[tuple[object, ...], Listed | None] = {}
    for c, o in v.openings():
        shape = v.shape(c)
        forms = {
            form: v.level_of(form, c, o)
            for form in v.forms(c, o)
            if not too_heavy(v.problem, shape, o, form.kind)
        }
        key = (shape.run, shape.load_at(o), tuple(forms.items()))
        if key not in known:
            known[key] = listed(v.problem, kinds, forms, shape.run, shape.load_at(o))
        patterns = known[key]
        if patterns is None:
            return None
        found[c, o] = patterns
    return found


def listed(
    problem: LayoutProblem, kinds: Sequence[int], forms: dict[Form, int], run: Ticks, load: Grams
) -> Listed | None:
    """List the fullest patterns of some kinds in an opening; None where they are too many.

    `forms` gives the level that each needs; what stands takes at most the `run` [tick] with its
    gaps, and weighs no more than the `load` [g].
    """
    gap = problem.wishes.gap
    patterns = [Pattern((0,) * len(kinds), ALWAYS, run + gap, load)]
    for place, k in enumerate(kinds):
        of_kind = [(form, level) for form, level in forms.items() if form.kind == k]
        patterns += [more for one in patterns for more in _with(problem, one, place, of_kind)]
        if len(patterns) > LISTED_MOST:
            return None
    return tuple(one for one in patterns if not _holds_more(problem, kinds, one, forms))


def _with(
    problem: LayoutProblem, before: Pattern, place: int, forms: list[tuple[Form, int]]
) -> Iterator[Pattern]:
    """A pattern with any number of a kind that it has none of, in the forms given."""
    if not forms:
        return
    kind = problem.kinds[forms[0][0].kind]
    once = problem.wishes.gap - kind.gap  # its last gap is the one between kinds
    found = [replace(before, room=before.room - once)]
    for form, level in forms:
        for start in tuple(found):
            more = _and_one(start, place, form, level, kind)
            while more is not None:
                found.append(more)
                more = _and_one(more, place, form, level, kind)
    yield from found[1:]


def _and_one(one: Pattern, place: int, form: Form, level: int, kind: Kind) -> Pattern | None:
    counts = list(one.counts)
    counts[place] += form.things
    room, load = one.room - form.width - kind.gap, one.load - form.things * kind.mass
    if counts[place] > kind.count or load < 0 or room < 0:
        return None
    return Pattern(tuple(counts), max(one.level, level), room, load)


def _holds_more(
    problem: LayoutProblem, kinds: Sequence[int], one: Pattern, forms: dict[Form, int]
) -> bool:
    """Whether a thing more would go in, no higher than what stands there."""
    for place, k in enumerate(kinds):
        kind = problem.kinds[k]
        once = 0 if one.counts[place] else problem.wishes.gap - kind.gap
        for form, level in forms.items():
            if form.kind != k or level > one.level:
                continue
            many = one.counts[place] + form.things > kind.count
            width, mass = form.width + kind.gap + once, form.things * kind.mass
            if not many and width <= one.room and mass <= one.load:
                return True
    return False


def _hold(v: LayoutVariables, kinds: list[int], listed: dict[tuple[int, int], Listed]) -> None:
    held: dict[int, list[Linear]] = defaultdict(list)
    for (c, o), patterns in listed.items():
        times, of_level = v.classes[c].times, defaultdict(list)
        for number, one in enumerate(patterns):
            taken = v.model.new_int_var(0, times, f"pattern[class={c},opening={o},{number}]")
            of_level[one.level].append(taken)
            for k, count in zip(kinds, one.counts, strict=True):
                if count:
                    held[k].append(count * taken)
        v.model.add(sum(taken for level in of_level.values() for taken in level) == times)
        for level, reached in enumerate(v.levels[c, o].reached):
            over = [taken for at, all_ in of_level.items() if at >= level for taken in all_]
            if over:
                v.model.add(sum(over) <= times * reached)
    for k in kinds:
        v.model.add(sum(held[k]) + v.left[k] >= v.problem.kinds[k].count)
