"""Which small changes save a sheet or money: tried, confirmed by cutting, the best shown."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from solver.advice.changes import Change, What, blade, in_two, resize, trim, turn
from solver.advice.lots import Lot
from solver.advice.room import kept
from solver.advice.trial import Tester, Trial, together
from solver.advice.words import nothing, text_of
from solver.cutting.problem import CuttingProblem
from solver.cutting.solve import CuttingAnswer
from solver.outcome import Limits
from solver.plan import Part, money
from solver.remarks import Advice
from solver.units import Ticks, Unit

SHOWN_MOST, ALIKE_MOST = 5, 2
"""Most pieces of advice that are shown, in all and of one kind [-]."""

LISTS_MOST = 60
"""Most changed lists that are cut [-]."""

CHANGES_MOST = 40
"""Most changes of one kind that are looked at, those of the largest parts first [-]."""

ORDER: tuple[What, ...] = ("shorter", "narrower", "kerf", "edge trim", "grain", "two pieces")
"""Kinds by how much they disturb, the least first."""


@dataclass(frozen=True)
class Asked:
    """What advice may be about.

    Attributes
    ----------
    parts
        The parts by id.
    margin
        Kept with every piece [tick].
    resize
        Whether parts may be made smaller.
    turn, split
        Whether the grain of a part may be turned, and whether it may be in two pieces.
    """

    parts: Mapping[str, Part]
    unit: Unit
    margin: Ticks
    resize: bool = True
    turn: Callable[[Part], bool] = lambda _: True
    split: Callable[[Part], bool] = lambda _: True


@dataclass(frozen=True)
class Advised:
    """The advice, or what is known where there is none."""

    advice: tuple[Advice, ...]
    note: str | None


def advise(lots: Sequence[Lot], asked: Asked, limits: Limits) -> Advised:
    """Find the small changes that save stock, each confirmed by cutting the changed parts.

    Parameters
    ----------
    lots
        What is cut now, by material.
    asked
        The parts, and which changes make sense.
    limits
        Work of each changed list, and the time for all of them.

    Returns
    -------
    Advised
        Least disturbance first; every changed list keeps room with every piece, the
        margin or a little, so that no advice is a near miss.
    """
    whole = [lot for lot in lots if lot.bought.count]
    if not whole:
        return Advised((), None)
    tester = Tester(kept(asked.margin, asked.unit), limits, LISTS_MOST)
    found: list[Advice] = []
    doubtful: set[What] = set()
    tried: set[What] = set()
    for change in _changes(whole, asked):
        tried.add(change.what)
        advice = _try(whole, change, asked, tester, doubtful)
        found += [advice] if advice else []
    if found:
        return Advised(chosen(found), None)
    proven = [what for what in ORDER if what in tried - doubtful]
    searched = [what for what in ORDER if what in doubtful]
    note = nothing(proven, searched, kind_of(whole[0]), tester.over and bool(searched))
    return Advised((), note)


def kind_of(lot: Lot) -> Literal["sheet", "stick"]:
    """Return what a lot is cut from."""
    return "sheet" if isinstance(lot.problem, CuttingProblem) else "stick"


def _changes(lots: list[Lot], asked: Asked) -> Iterator[Change]:
    """All changes that make sense, the least disturbing kinds first."""
    yield from blade(lots, asked.unit)
    yield from trim(lots, asked.unit)
    for index, lot in enumerate(lots):
        if asked.resize:
            yield from resize(index, lot, asked.parts, asked.unit)[:CHANGES_MOST]
    for index, lot in enumerate(lots):
        yield from turn(index, lot, _groups(asked, asked.turn))[:CHANGES_MOST]
    for index, lot in enumerate(lots):
        yield from in_two(index, lot, _groups(asked, asked.split), asked.unit)[:CHANGES_MOST]


def _groups(asked: Asked, may: Callable[[Part], bool]) -> list[list[Part]]:
    """Parts that go by one name in one case, and are of one size."""
    groups: dict[tuple[str, str, str, int, int], list[Part]] = {}
    for part in asked.parts.values():
        if may(part):
            key = part.case, part.name, part.material, part.length, part.width
            groups.setdefault(key, []).append(part)
    return sorted(groups.values(), key=lambda some: -some[0].length * some[0].width)


def _try(
    lots: list[Lot], change: Change, asked: Asked, tester: Tester, doubtful: set[What]
) -> Advice | None:
    """Try a change: at most, then by halving the least of it that saves as much."""
    last = _trials(lots, change, change.amounts[-1], tester)
    verdict = together(last)
    if verdict == "not found":
        doubtful.add(change.what)
    if verdict != "saves":
        return None
    low, high, best, below = -1, len(change.amounts) - 1, last, "cannot"
    while high - low > 1:
        middle = (low + high) // 2
        now = _trials(lots, change, change.amounts[middle], tester)
        if together(now) == "saves":
            high, best = middle, now
        else:
            low, below = middle, together(now)
    return _advice(lots, change, change.amounts[high], best, asked, tester, below == "cannot")


def _trials(lots: list[Lot], change: Change, amount: int, tester: Tester) -> list[Trial]:
    return [
        tester.trial(lots[i], change.apply(lots[i].problem, amount))
        if i in change.lots
        else Trial("cannot", lots[i].bought)
        for i in range(len(lots))
    ]


def _advice(
    lots: list[Lot],
    change: Change,
    amount: int,
    trials: list[Trial],
    asked: Asked,
    tester: Tester,
    smallest: bool,
) -> Advice:
    change = _as_cut(change, amount, trials)
    pairs = [(lot, t) for lot, t in zip(lots, trials, strict=True) if t.verdict == "saves"]
    now = _now(lots, change)
    sized = change.what in ("shorter", "narrower")
    return Advice(
        what=change.what,
        material=pairs[0][0].material if change.parts else None,
        parts=change.parts,
        by=amount if sized else now - amount if now else None,
        to=_to(change, amount, asked, sized=sized, saw=bool(now)),
        stock=kind_of(pairs[0][0]),
        sheets_saved=sum(lot.bought.count - t.bought.count for lot, t in pairs),
        saves=_money(pairs),
        slack=tester.room,
        smallest=smallest and (sized or bool(now)),
        text=text_of(change, amount, now, asked.parts, asked.unit),
    )


def _as_cut(change: Change, amount: int, trials: list[Trial]) -> Change:
    """Name only the parts that the changed plan turns, or that are in two pieces."""
    if change.what == "two pieces":
        return replace(change, parts=change.parts[:amount])
    answer = next((t.answer for t in trials if t.verdict == "saves"), None)
    if change.what == "grain" and isinstance(answer, CuttingAnswer):
        turned = {p.part for sheet in answer.sheets for p in sheet.pieces if p.turned}
        return replace(change, parts=tuple(ident for ident in change.parts if ident in turned))
    return change


def _now(lots: list[Lot], change: Change) -> Ticks:
    """The kerf or the trim as it is; 0 where the change is of neither [tick]."""
    if change.what == "kerf":
        return max(lot.problem.kerf for lot in lots)
    if change.what == "edge trim":
        problems = [lot.problem for lot in lots]
        return max(p.edge_trim for p in problems if isinstance(p, CuttingProblem))
    return 0


def _to(change: Change, amount: int, asked: Asked, *, sized: bool, saw: bool) -> Ticks | None:
    if sized:
        part = asked.parts[change.parts[0]]
        return (part.length if change.side == "length" else part.width) - amount
    return amount if saw else None


def _money(pairs: list[tuple[Lot, Trial]]) -> Decimal | None:
    """What is saved in money, where all that is saved has a price."""
    if not all(lot.priced for lot, _ in pairs):
        return None
    return money(sum(lot.bought.price - t.bought.price for lot, t in pairs))


def chosen(found: Sequence[Advice]) -> tuple[Advice, ...]:
    """Return the advice that is shown: least disturbance first, then what saves most."""
    ordered = sorted(found, key=_rank)
    shown: list[Advice] = []
    for one in ordered:
        alike = [other for other in shown if other.what == one.what]
        if len(alike) < ALIKE_MOST and not any(_covers(other, one) for other in alike):
            shown.append(one)
    return tuple(shown[:SHOWN_MOST])


def _rank(one: Advice) -> tuple[int, Decimal, int, int, int]:
    saved = one.saves or Decimal(0)
    return ORDER.index(one.what), -saved, -one.sheets_saved, one.by or 0, len(one.parts)


def _covers(kept_one: Advice, other: Advice) -> bool:
    """Whether `other` changes all that `kept_one` does and more, and saves no more."""
    return (
        set(kept_one.parts) <= set(other.parts)
        and (kept_one.by or 0) <= (other.by or 0)
        and (kept_one.saves or 0) >= (other.saves or 0)
        and kept_one.sheets_saved >= other.sheets_saved
    )
