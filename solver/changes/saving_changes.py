"""Small changes that would save stock: candidates tried, confirmed by cutting, the best shown.

`with_room` states the slack of an option's sheets, `with_advice` adds the advice.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from solver.carcass.settled_job import depths_of, settled_job
from solver.changes.candidates import (
    all_smaller,
    all_turned,
    blade_changes,
    halving_changes,
    more_of_a_size,
    size_changes,
    trim_changes,
    turn_changes,
)
from solver.changes.change_models import Change, Lot, What, lot_of
from solver.changes.change_words import no_saving_text
from solver.changes.confirm import Confirmer, Tester, kind_of, room_kept
from solver.cutting.slack import least_slack, stick_with_slack, with_slack
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option
from solver.plan.slack_and_advice import Advice
from solver.plan.stocked import Part
from solver.sizing.purchase import Buyer
from solver.units import Ticks, Unit

SHOWN_MOST, ALIKE_MOST = 5, 2
"""Most pieces of advice that are shown, in all and of one kind [-]."""

CHANGES_MOST = 40
"""Most changes of one kind and one material that are looked at [-]."""

ORDER: tuple[What, ...] = (
    "shorter",
    "narrower",
    "kerf",
    "edge trim",
    "grain",
    "two pieces",
    "more of a size",
)
"""Kinds by how much they disturb, the least first."""

WORK_SHARE, TIME_SHARE = 0.05, 0.1
"""Share of the work for each changed list, and of the time for all of them [-]."""


@dataclass(frozen=True)
class AdviceScope:
    """Which changes advice may propose.

    Attributes
    ----------
    parts
        The parts by id.
    unit
        Unit of lengths in the words.
    margin
        Margin of the job, kept with every piece; 0 is none [tick].
    resize
        Whether parts may be made smaller.
    turn, split
        Whether the grain of a part may be turned, and whether it may be in two pieces.
    alike
        Whether all parts of one name in one case are turned or joined, or none of them.
    """

    parts: Mapping[str, Part]
    unit: Unit
    margin: Ticks
    resize: bool = True
    turn: Callable[[Part], bool] = lambda _: True
    split: Callable[[Part], bool] = lambda _: True
    alike: bool = False


@dataclass(frozen=True)
class Advised:
    """The advice, or a note on what is proven where there is none."""

    advice: tuple[Advice, ...]
    note: str | None


def advise(lots: Sequence[Lot], asked: AdviceScope, limits: Limits) -> Advised:
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
        Least disturbance first; every changed list keeps the margin, or a little room in
        every strip, so that no advice is a near miss.
    """
    bought = [lot for lot in lots if lot.bought.count]
    if not bought:
        return Advised((), None)
    tester = Tester(room_kept(asked.margin, asked.unit), limits)
    confirmer = Confirmer(bought, asked.parts, asked.unit, tester)
    tried = [confirmer.confirm(change) for change in _changes(bought, asked, confirmer)]
    confirmed = [advice for advice in tried if advice is not None]
    if confirmed:
        return Advised(chosen(confirmed), None)
    proven = [what for what in ORDER if what in confirmer.tried - confirmer.open]
    searched = [what for what in ORDER if what in confirmer.open]
    over = tester.over and bool(searched)
    return Advised((), no_saving_text(proven, searched, kind_of(bought[0]), over=over))


def _changes(lots: Sequence[Lot], asked: AdviceScope, confirmer: Confirmer) -> Iterator[Change]:
    """Yield all changes that make sense, except those that save nothing even all together."""
    yield from blade_changes(lots, asked.unit)
    yield from trim_changes(lots, asked.unit)
    numbered = list(enumerate(lots))
    for index, lot in numbered if asked.resize else []:
        sizes = size_changes(index, lot, asked.parts, asked.unit)
        if confirmer.may_help(index, sizes, all_smaller(lot, asked.parts, asked.unit)):
            yield from sizes[:CHANGES_MOST]
    turnable, joinable = _groups(asked, asked.turn), _groups(asked, asked.split)
    for index, lot in numbered:
        turns = turn_changes(index, lot, turnable, alike=asked.alike)
        if turns and confirmer.may_help(index, turns, all_turned(lot, turnable)):
            yield from turns[:CHANGES_MOST]
        yield from more_of_a_size(index, lot)
    for index, lot in numbered:
        halves = halving_changes(index, lot, joinable, asked.unit, alike=asked.alike)
        yield from halves[:CHANGES_MOST]


def _groups(asked: AdviceScope, may: Callable[[Part], bool]) -> list[list[Part]]:
    """Parts of one name and size in one case, the largest first."""
    groups: dict[tuple[object, ...], list[Part]] = {}
    for part in asked.parts.values():
        if may(part):
            key = part.case, part.name, part.material, part.thickness, part.length, part.width
            groups.setdefault(key, []).append(part)
    return sorted(groups.values(), key=lambda some: -some[0].length * some[0].width)


def chosen(found: Sequence[Advice]) -> tuple[Advice, ...]:
    """Return the advice that is shown: least disturbance first, then what saves most."""
    shown: list[Advice] = []
    for one in sorted(found, key=_rank):
        alike = [other for other in shown if other.what == one.what]
        if len(alike) < ALIKE_MOST and not any(_covers(other, one) for other in alike):
            shown.append(one)
    return tuple(shown[:SHOWN_MOST])


def _rank(one: Advice) -> tuple[object, ...]:
    return ORDER.index(one.what), *(-gain for gain in _gains(one)), one.by or 0, len(one.parts)


def _gains(one: Advice) -> tuple[float, int]:
    return float(one.saves or 0), one.sheets_saved


def _covers(better: Advice, other: Advice) -> bool:
    """Whether `other` changes all that `better` does, by as much or more, and saves no more."""
    return (
        set(better.parts) <= set(other.parts)
        and (better.by or 0) <= (other.by or 0)
        and _gains(better) >= _gains(other)
    )


def with_advice(job: Job, option: Option, limits: Limits) -> Option:
    """Return an option with the small changes that would save stock.

    Only changes that leave the cases as they are: blade, edge trim, the grain of backs, all sides
    of a case or its back in two pieces. Lengths of shelves follow from the sizes of the cases.
    """
    if not option.sheets or limits.over or job.have:
        return option
    parts = {part.id: part for part in option.parts}
    scope = AdviceScope(
        parts,
        job.unit,
        job.shop.margin,
        resize=False,
        turn=_is_back,
        split=_may_be_joined,
        alike=True,
    )
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    share = Limits(limits.seed, limits.work * WORK_SHARE, seconds, limits.stopper)
    advised = advise(lots_of(job, option, limits), scope, share)
    return option.model_copy(update={"advice": advised.advice, "advice_note": advised.note})


def _is_back(part: Part) -> bool:
    return part.name == "back"


def _may_be_joined(part: Part) -> bool:
    return part.name in ("side", "back")


def lots_of(job: Job, option: Option, limits: Limits) -> list[Lot]:
    """Return what is cut for an option, by material, then by moulding."""
    by_material: dict[str, list[Part]] = defaultdict(list)
    for part in option.parts:
        by_material[part.material].append(part)
    buyer = Buyer(settled_job(job, option), limits)
    sheets = [
        lot_of(
            material,
            buyer.problem(material, parts),
            [sheet for sheet in option.sheets if sheet.material == material],
        )
        for material, parts in by_material.items()
    ]
    sticks = [
        lot_of(
            problem.sticks[0].stock,
            problem,
            [stick for stick in option.mouldings if stick.stock == problem.sticks[0].stock],
        )
        for problem in buyer.stick_problems(option.shelf_counts, depths_of(option))
    ]
    return [*sheets, *sticks]


def with_room(option: Option) -> Option:
    """Return the option with the slack of its sheets and sticks stated."""
    return option.model_copy(
        update={
            "sheets": tuple(with_slack(sheet) for sheet in option.sheets),
            "mouldings": tuple(stick_with_slack(stick) for stick in option.mouldings),
            "least_slack": least_slack(option.sheets, option.mouldings),
        }
    )
