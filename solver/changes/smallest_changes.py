"""The smallest changes that let everything fit: one length, two together, or no length at all.

Without lengths: a shelf more or fewer, things lying, stacked or in rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.changes.change_words import change_text
from solver.changes.levers import Lever, described, growths, looks
from solver.changes.situation import Situation, altered
from solver.changes.stronger import stronger
from solver.changes.trials import Fitter, sag_felt
from solver.job.case import SHELVES_MOST
from solver.job.inventory import Item
from solver.job.job import Job
from solver.outcome import Limits, Verdict
from solver.plan.plan import Change
from solver.plan.slack_and_advice import Alteration, Binding

FittingChanges = list[tuple[tuple[Alteration, ...], bool]]
"""Changes that let everything fit, and whether less of them is proven not to."""

LENGTHS_MOST, PAIRS_MOST = 6, 3
"""Most changes of one length, and most pairs of changes, that are shown [-]."""


def smallest_changes(
    job: Job, asked: Situation, limits: Limits, binds: Sequence[Binding]
) -> tuple[Change, ...]:
    """Return the changes that would let everything fit, the cheapest in money and work first.

    `asked` is the job with its sizes decided, in which not everything fits; `binds` says why.
    What costs nothing comes first: less headroom or gap, things that lie, are stacked or stand in
    rows. Then a shelf fewer or a lip, thicker boards, an upright, a shelf more, and sizes, the
    least by itself in whole steps; where none of these suffices, two lengths together. A change
    is proven where one step less is proven not to suffice. Empty where nothing reasonable helps.
    """
    fitter = Fitter(limits)
    strong: FittingChanges = [((one,), False) for one in stronger(asked, fitter, binds)]
    lengths = _lengths(asked, fitter)
    found = [*lengths, *strong, *other_counts(asked, fitter), *other_forms(asked, fitter)]
    if not found:
        found = smallest_pairs(asked, fitter)[:PAIRS_MOST]
    found.sort(key=lambda one: _dear(one[0]))
    return tuple(_change(job, asked, changes, proven=proven) for changes, proven in found)


_DEAR = (
    *("headroom", "gap", "end margin"), *("lying", "stacking", "rows"), *("fewer", "lip"),
    *("thickness", "uprights", "shelves"), *("depth", "height", "width"),
)  # fmt: skip
"""Changes from the cheapest in money and work to the dearest: common practice, no source."""


def _dear(changes: tuple[Alteration, ...]) -> int:
    return max(
        _DEAR.index("fewer" if one.what == "shelves" and (one.number or 0) < 0 else one.what)
        for one in changes
    )


def _lengths(asked: Situation, fitter: Fitter) -> FittingChanges:
    """Return changes of one length that let everything fit, the smallest first."""
    found: FittingChanges = []
    for lever in [*looks(asked.job), *growths(asked.job)]:
        least = fitter.least(asked, lever)
        if least is not None:
            found.append(((lever.change(least.steps),), least.proven))
    found.sort(key=lambda one: (one[0][0].by or 0, one[0][0].case or ""))
    return [one for one in found if not _covers_more_than_needed(one[0][0], found)][:LENGTHS_MOST]


def _covers_more_than_needed(change: Alteration, found: FittingChanges) -> bool:
    """Whether all cases are changed where one of them alone, by no more, would do."""
    return change.case is None and any(
        other.what == change.what and other.case is not None and other.by == change.by
        for (other, *_), _ in found
    )


def _change(job: Job, asked: Situation, changes: tuple[Alteration, ...], *, proven: bool) -> Change:
    alters = described(job, altered(asked, changes), changes)
    return Change(
        what=alters[0].what if len(alters) == 1 else "several",
        by=alters[0].by if len(alters) == 1 else None,
        alters=alters,
        proven=proven,
        text=change_text(asked.job, alters),
    )


def shelves_changes(asked: Situation) -> Iterator[Alteration]:
    """Yield one shelf fewer and one more, in all bays of all cases, and of each case."""
    cases = asked.job.cases
    names: list[str | None] = [None] if len(cases) == 1 else [None, *(c.name for c in cases)]
    for name in names:
        bays = [n for case, ns in asked.counts.items() if name in (None, case) for n in ns]
        for more in (-1, 1):
            change = Alteration(what="shelves", case=name, number=more)
            if min(bays) + more >= 0 and max(bays) + more <= SHELVES_MOST:
                yield change


def is_asked(asked: Situation, change: Alteration) -> bool:
    """Whether the job as it is already compares the shelf counts after a change."""
    counts = altered(asked, [change]).counts
    return all(set(counts[case.name]) <= set(case.shelf_counts) for case in asked.job.cases)


def other_counts(asked: Situation, fitter: Fitter) -> FittingChanges:
    """Return shelf counts one fewer or more with which everything fits.

    All cases together are changed only where no case alone will do.
    """
    found: FittingChanges = []
    for change in sorted(shelves_changes(asked), key=lambda one: one.case is None):
        alone = any(one.number == change.number for (one, *_), _ in found)
        if (change.case is None and alone) or is_asked(asked, change):
            continue
        if fitter.fits(altered(asked, [change])) is Verdict.YES:
            found.append(((change,), True))  # there is no change less than one shelf
    return found


FORMS_MOST, KINDS_MOST = 2, 6
"""Most changes of how a kind stands that are shown, and most kinds tried [-]."""

STACK_MOST, ROWS_MOST = 3, 3
"""Most things stacked on each other, and most rows, that are proposed [-]."""


def other_forms(asked: Situation, fitter: Fitter) -> FittingChanges:
    """Return kinds of things that lie, are stacked or stand in rows, where everything then fits."""
    found: FittingChanges = []
    for item in sorted(asked.job.items, key=_bulk, reverse=True)[:KINDS_MOST]:
        for changes in _forms(item):
            for change in changes:  # the least that does
                if fitter.fits(altered(asked, [change])) is Verdict.YES:
                    found.append(((change,), _is_least(asked, fitter, change)))
                    break
        if len(found) >= FORMS_MOST:
            break
    return found[:FORMS_MOST]


def _bulk(item: Item) -> tuple[int, str]:
    return item.width * item.height * item.count, item.name


def _forms(item: Item) -> Iterator[list[Alteration]]:
    """Yield other ways for a kind to stand than as asked, each with its amounts, least first."""
    if not item.may_lie:
        yield [Alteration(what="lying", item=item.name)]
    stacks = range(item.stack + 1, min(STACK_MOST, item.count) + 1)
    yield [Alteration(what="stacking", item=item.name, number=n) for n in stacks]
    rows = range(item.rows + 1, min(ROWS_MOST, item.count) + 1)
    yield [Alteration(what="rows", item=item.name, number=n) for n in rows]


def _is_least(asked: Situation, fitter: Fitter, change: Alteration) -> bool:
    """Whether one fewer on each other, or one row fewer, is proven not to let everything fit."""
    item = asked.job.item(change.item or "")
    now = {"lying": None, "stacking": item.stack, "rows": item.rows}[change.what]
    if now is None or change.number == now + 1:
        return True  # less is the job as asked, in which not everything fits
    less = change.model_copy(update={"number": (change.number or 0) - 1})
    return fitter.fits(altered(asked, [less])) is Verdict.NO


TRIED_MOST = 5
"""Most pairs whose least amounts are looked for [-]."""


def smallest_pairs(asked: Situation, fitter: Fitter) -> FittingChanges:
    """Return pairs of length changes that let everything fit, the least in sum first.

    Neither length of a pair suffices by itself. One change is made as small as it can be with the
    other at its most, then the other as small as it can be with that; both orders are tried.
    Proven where a step less of either is proven not to suffice.
    """
    levers = [*looks(asked.job), *(one for one in growths(asked.job) if one.case is None)]
    together = asked
    for lever in levers:
        together = lever.at(together, lever.most)
    if fitter.fits(together) is not Verdict.YES:
        return []
    sufficient = [
        pair for pair in combinations(levers, 2) if fitter.fits(_both(asked, *pair)) is Verdict.YES
    ]
    found = []
    for pair in sufficient[:TRIED_MOST]:
        tries = [one for order in (pair, pair[::-1]) if (one := _least(asked, fitter, *order))]
        if tries:
            found.append(min(tries, key=lambda one: sum(c.by or 0 for c in one[0])))
    return sorted(found, key=lambda one: sum(c.by or 0 for c in one[0]))


def _both(asked: Situation, one: Lever, other: Lever) -> Situation:
    return other.at(one.at(asked, one.most), other.most)


def _least(
    asked: Situation, fitter: Fitter, one: Lever, other: Lever
) -> tuple[tuple[Alteration, ...], bool] | None:
    """Return the least of the first lever, then of the other; None where either fails."""
    first = fitter.least(other.at(asked, other.most), one, known=one.most)
    if first is None:
        return None
    second = fitter.least(one.at(asked, first.steps), other, known=other.most)
    if second is None:
        return None
    changes = (one.change(first.steps), other.change(second.steps))
    proven = first.proven and second.proven
    if proven and sag_felt(asked, other):
        # `first` was the least at the most width, which need not be the best of them
        less = other.at(one.at(asked, first.steps - 1), second.steps)
        proven = fitter.fits(less) is Verdict.NO
    return changes, proven
