"""Rules on held decisions, and on what a plan says has changed since the one before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checking.findings import Code, Finding, finding
from solver.checking.holding import speaks_of
from solver.checking.places import places
from solver.checking.rows import is_noted
from solver.checking.structure import option_where
from solver.checking.views import OptionView, same, same_length
from solver.plan.compared import ComparedFigures, Comparison, OpeningPlace
from solver.plan.plan import Option, Plan


def marks(view: OptionView) -> Iterator[Finding]:
    """A shelf that is held has its underside at the mark it is held at, exactly."""
    for hold in view.job.holds:
        if hold.mark is None:
            continue
        where = f"{view.where}, hold {hold.text(view.unit)}"
        shelves = [
            shelf
            for bay in view.bays
            if speaks_of(hold, bay)
            for shelf in bay.bay.shelves
            if shelf.index == hold.shelf
        ]
        if not shelves:
            yield finding(Code.HELD_MARK, where, "the shelf", "in the plan", "missing")
        for shelf in shelves:
            yield from same_length(
                Code.HELD_MARK, where, "underside", hold.mark, shelf.underside, view.unit
            )


def things(view: OptionView) -> Iterator[Finding]:
    """Of a kind that is held as many stand in openings of that number as are held there."""
    for hold in view.job.holds:
        if hold.item is None:
            continue
        needs = hold.count or view.job.item(hold.item).count
        has = sum(
            thing.item == hold.item
            for bay in view.bays
            if speaks_of(hold, bay)
            for opening in bay.bay.openings
            if opening.index == hold.opening
            for thing in opening.items
        )
        if has < needs:
            where = f"{view.where}, hold {hold.text(view.unit)}"
            yield finding(Code.HELD_THINGS, where, "things there", f"at least {needs}", str(has))


def place(view: OptionView) -> Iterator[Finding]:
    """A kind that is held to a place in its row stands there, counted from 1 at the left.

    Where it cannot, a note of the option says so: it names the kind, and "place 2 of its row".
    """
    for hold in view.job.holds:
        if hold.place is None:
            continue
        if is_noted(view, f"place {hold.place} of its row", str(hold.item)):
            continue
        rows = [
            [one.item for one in places(opening)]
            for bay in view.bays
            if speaks_of(hold, bay)
            for opening in bay.openings
            if opening.opening.index == hold.opening
        ]
        if not any(row[hold.place - 1 : hold.place] == [hold.item] for row in rows):
            where = f"{view.where}, hold {hold.text(view.unit)}"
            has = "; ".join(", ".join(row) for row in rows) or "nothing"
            what = f"place {hold.place} of the row"
            yield finding(Code.HELD_PLACE, where, what, f"{hold.item!r}", f"another of: {has}")


def empty(view: OptionView) -> Iterator[Finding]:
    """Nothing stands in an opening that is kept empty."""
    for hold in view.job.holds:
        if not hold.empty:
            continue
        where = f"{view.where}, hold {hold.text(view.unit)}"
        count = sum(
            len(opening.opening.items)
            for bay in view.bays
            if speaks_of(hold, bay)
            for opening in bay.openings
            if opening.opening.index == hold.opening
        )
        yield from same(Code.HELD_EMPTY, where, "things there", 0, count)


OPTION_RULES = (marks, things, place, empty)
"""Rules on an option that leaves nothing out."""


def compared_figures(plan: Plan) -> Iterator[Finding]:
    """The figures that a plan is compared with another by are those of its option."""
    if plan.comparison is None or not plan.options:
        return
    option = plan.options[0]
    scores = option.scores
    needs = ComparedFigures(
        price=None if option.cost is None else option.cost.total,
        sheets=option.sheet_count,
        places_parted=None if scores is None else scores.places_parted,
        steps_range=None if scores is None else scores.steps_range,
        headroom_least=None if scores is None else scores.headroom_least,
        headroom_spread=None if scores is None else scores.headroom_spread,
        left_out=sum(left.count for left in option.left_out),
    )
    yield from same(
        Code.COMPARED_FIGURES, option_where(option), "figures now", needs, plan.comparison.after
    )


def compared_moved(plan: Plan) -> Iterator[Finding]:
    """What is said to have moved stands where that says; moved and kept together are everything."""
    compared = plan.comparison
    if compared is None or not plan.options:
        return
    option = plan.options[0]
    where, code = option_where(option), Code.COMPARED_MOVED
    under = {
        (case.name, bay.number, shelf.index): shelf.underside
        for case in option.cases
        for bay in case.bays
        for shelf in bay.shelves
    }
    for one in compared.marks:
        place = f"{where}, {one.case}/{one.bay} shelf {one.shelf}"
        now = under.get((one.case, one.bay, one.shelf))
        if now != one.after or one.before == one.after:
            yield finding(code, place, "mark", f"moved to {one.after}", f"{now}")
    whole = len(compared.marks) + compared.marks_kept
    yield from same(code, where, "shelves moved and kept", len(under), whole)
    yield from _things_moved(compared, option, where)


def _things_moved(compared: Comparison, option: Option, where: str) -> Iterator[Finding]:
    code = Code.COMPARED_MOVED
    stand = Counter(
        (thing.item, _key(OpeningPlace(case=case.name, bay=bay.number, opening=opening.index)))
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
        for thing in opening.items
    )
    come: Counter[tuple[str, tuple[str, int, int]]] = Counter()
    for one in compared.things:
        if one.to is not None:
            come[one.item, _key(one.to)] += one.count
    for key, count in come.items():
        if stand[key] < count:
            yield finding(
                code, f"{where}, {key[0]}", "things come to", f"at most {stand[key]}", str(count)
            )
    whole = sum(come.values()) + compared.things_kept
    yield from same(code, where, "things moved and kept", sum(stand.values()), whole)


def _key(where: OpeningPlace) -> tuple[str, int, int]:
    return where.case, where.bay, where.opening


PLAN_RULES = (compared_figures, compared_moved)
"""Rules on a plan that starts from another."""
