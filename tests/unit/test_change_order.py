"""Change orders: exactly what differs from the signed revision, and exactly what that costs."""

from __future__ import annotations

import datetime
import re
from decimal import Decimal

import pytest

from cli.files.have_file import parse_have
from cli.files.signed_files import already_cut, already_cut_csv
from cli.papers.change_order_paper import bought_again, change_paper
from cli.papers.issue import Issue, make_issue
from solver.costing.revision_changes import change_order
from solver.job.assumed import site_of
from solver.job.case_fittings import Glass, GlassLoad
from solver.job.have import Have
from solver.plan.plan import Option, Plan
from solver.plan.signed import ChangeOrder, Signed
from solver.units import mm
from tests.sample_plans import good_plan

DAY = datetime.date(2026, 11, 20)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


@pytest.fixture(scope="module")
def signed(plan: Plan) -> Signed:
    return Signed(revision=1, date=DAY, option=plan.options[0].name, plan=plan)


def altered(plan: Plan, **fields: object) -> Plan:
    """The plan with fields of its job changed."""
    return plan.model_copy(update={"job": plan.job.model_copy(update=fields)})


def asked(change: ChangeOrder) -> list[tuple[str, str, str, str]]:
    return [(one.where, one.what, one.before, one.after) for one in change.asked]


def test_the_same_plan_has_no_change_order(plan: Plan, signed: Signed) -> None:
    change = change_order(signed, plan, plan.options[0])
    issue = make_issue(plan, plan.options[0], signed, None)

    assert change.is_empty
    assert change.difference == 0
    assert (issue.revision, issue.date) == ("1", DAY)
    assert change_paper(issue) == []


def test_what_is_asked_for_otherwise_is_said_field_by_field(plan: Plan, signed: Signed) -> None:
    first, *others = plan.job.items
    taller = first.model_copy(update={"height": first.height + mm(10), "count": first.count + 1})
    look = plan.job.look.model_copy(update={"headroom": mm(31)})

    change = change_order(
        signed, altered(plan, items=(taller, *others), look=look), plan.options[0]
    )

    where = f"item {first.name!r}"
    assert asked(change) == [
        ("look", "headroom", f"{plan.job.look.headroom / mm(1):g} mm", "31 mm"),
        (where, "height", f"{first.height / mm(1):g} mm", f"{first.height / mm(1) + 10:g} mm"),
        (where, "count", str(first.count), str(first.count + 1)),
    ]
    assert (change.built.marks, change.built.things, change.built.parts) == ((), (), ())


def test_a_weight_that_is_asked_for_otherwise_is_said_as_a_weight(
    plan: Plan, signed: Signed
) -> None:
    site = site_of("mm")
    more = site.model_copy(update={"abuse_load": site.abuse_load + 1000})
    light, heavy = (
        plan.job.cases[0].model_copy(
            update={"glass": Glass(shelves=True, table=(GlassLoad(span=mm(600), load=grams),))}
        )
        for grams in (4000, 5500)
    )
    before = signed.model_copy(update={"plan": altered(plan, site=site, cases=(light,))})

    change = change_order(before, altered(plan, site=more, cases=(heavy,)), plan.options[0])

    assert [row for row in asked(change) if row[0] == "site"] == [
        ("site", "abuse load", "27.2 kg", "28.2 kg")
    ]
    (glass,) = (row for row in asked(change) if row[0] != "site")
    assert "4.0 kg" in glass[2]
    assert "5.5 kg" in glass[3]


def test_a_thing_that_is_new_or_gone_is_said_whole(plan: Plan, signed: Signed) -> None:
    first, *others = plan.job.items
    new = first.model_copy(update={"name": "=cmd() <b>", "count": 3})

    change = change_order(signed, altered(plan, items=(*others, new)), plan.options[0])

    sizes = " x ".join(f"{size / mm(1):g} mm" for size in (first.width, first.height, first.depth))
    assert asked(change) == [
        (f"item {first.name!r}", "", f"{first.count} of {sizes}", ""),
        ("item '=cmd() <b>'", "", "", f"3 of {sizes}"),
    ]


def test_only_the_shelf_that_moved_is_listed(plan: Plan, signed: Signed) -> None:
    option = plan.options[0]
    case = option.cases[0]
    bay = case.bays[0]
    shelf = bay.shelves[0]
    moved = shelf.model_copy(
        update={"underside": shelf.underside + mm(5), "top": shelf.top + mm(5)}
    )
    bays = (bay.model_copy(update={"shelves": (moved, *bay.shelves[1:])}), *case.bays[1:])
    cases = (case.model_copy(update={"bays": bays}), *option.cases[1:])

    change = change_order(signed, plan, option.model_copy(update={"cases": cases}))

    (mark,) = change.built.marks
    assert (mark.bay, mark.shelf, mark.after - mark.before) == (bay.number, shelf.index, mm(5))
    assert not change.asked
    assert not change.is_empty


def with_another_sheet(option: Option) -> Option:
    return option.model_copy(update={"sheets": (*option.sheets, option.sheets[0])})


def at_cost(plan: Plan) -> Plan:
    """The plan without anything on top of its materials."""
    nothing = Decimal(0)
    terms = plan.job.terms.model_copy(
        update={"overhead": nothing, "profit": nothing, "contingency": nothing}
    )
    return altered(plan, price=terms)


def test_the_difference_is_the_new_price_and_what_is_cut_less_the_signed_price(plan: Plan) -> None:
    plain = at_cost(plan)
    option = plain.options[0]
    signed = Signed(revision=1, date=DAY, option=option.name, plan=plain)
    cut = signed.model_copy(update={"cut_sheets": (1,)})
    sheet = option.sheets[0].price
    assert sheet is not None

    change = change_order(signed, plain, with_another_sheet(option))
    spent = change_order(cut, plain, with_another_sheet(option))

    assert change.difference == sheet
    assert spent.difference == sheet + sheet
    assert [one.number for one in spent.cut] == [1]


def test_what_is_cut_counts_with_what_is_put_on_it_and_adds_nothing_where_the_plan_knows(
    plan: Plan, signed: Signed
) -> None:
    """A sheet that is there and not bought again leaves the price as it was signed."""
    option = plan.options[0]
    cut = signed.model_copy(update={"cut_sheets": (1,)})
    around = option.model_copy(update={"sheets": option.sheets[1:]})
    price = option.sheets[0].price
    assert price is not None

    known, unknown = change_order(cut, plan, around), change_order(cut, plan, option)

    assert known.difference == 0
    assert unknown.difference == unknown.spent
    assert unknown.spent > price  # overhead and the work of its cuts
    assert known.is_empty
    assert unknown.is_empty  # it is the plan that was signed
    assert not change_order(cut, plan, with_another_sheet(option)).is_empty


def test_parts_that_are_not_known_to_the_plan_are_bought_again(plan: Plan, signed: Signed) -> None:
    cut = signed.model_copy(update={"cut_sheets": (1,)})
    parts = [piece.part for piece in plan.options[0].sheets[0].pieces]

    def again(names: list[str]) -> bool:
        there = tuple(Have(what="cut", name=name) for name in names)
        job = plan.job.model_copy(update={"have": there})
        now = plan.model_copy(update={"job": job})
        issue = Issue(now, with_another_sheet(now.options[0]), "draft of 2", None, signed=cut)
        assert issue.change is not None
        return bought_again(issue, issue.change)

    kinds = {re.sub(r"(-(left|right|\d+))+$", "", re.sub(r"/bay-\d+-", "/", one)) for one in parts}
    assert again([])
    assert again(parts[1:])
    assert not again(parts)
    assert not again(sorted(kinds))


def test_parts_that_are_cut_serve_once_each_in_the_same_size(plan: Plan, signed: Signed) -> None:
    option = plan.options[0]
    cut = signed.model_copy(update={"cut_sheets": (1,)})
    gone = option.sheets[0].pieces[0].part
    fewer = option.model_copy(
        update={"parts": tuple(part for part in option.parts if part.id != gone)}
    )
    same = {part.id: (part.length, part.width, part.material) for part in option.parts}

    change = change_order(cut, plan, fewer)

    (stock,) = change.cut
    assert len(stock.lost) == 1
    assert same[stock.lost[0]] == same[gone]
    assert sorted((*stock.serve, *stock.lost)) == sorted(p.part for p in option.sheets[0].pieces)


def test_what_is_cut_is_listed_for_planning_around_it(plan: Plan, signed: Signed) -> None:
    cut = signed.model_copy(update={"cut_sheets": (1,)})
    option = with_another_sheet(plan.options[0])
    text = already_cut_csv(cut, plan.job)
    there = parse_have(text, "already-cut.csv", plan.job).have
    assert there == already_cut(cut, plan.job)

    sizes = {part.id: (part.length, part.width) for part in option.parts}
    parts = {one.name: (one.length, one.width) for one in there if one.what == "cut"}
    assert parts == {piece.part: sizes[piece.part] for piece in option.sheets[0].pieces}
    offcuts = [(one.length, one.width) for one in there if one.what == "offcut"]
    assert offcuts == [(one.length, one.width) for one in option.sheets[0].offcuts]


def test_what_is_cut_for_a_case_that_is_gone_is_a_piece_of_its_size(
    plan: Plan, signed: Signed
) -> None:
    cut = signed.model_copy(update={"cut_sheets": (1,), "cut_sticks": (1,)})
    (case,) = plan.job.cases
    renamed = case.model_copy(update={"name": "attic"})
    as_signed = already_cut(cut, plan.job)
    gone = already_cut(cut, altered(plan, cases=(renamed,)).job)

    assert {one.what for one in gone} == {"offcut"}
    assert [(one.length, one.width) for one in gone] == [
        (one.length, one.width) for one in as_signed
    ]
    assert {one.clean for one in gone if one.width} == {True, None}  # sawn parts, and offcuts
    other = tuple(s.model_copy(update={"material": "mdf", "name": "mdf"}) for s in plan.job.sheets)
    bare = altered(plan, cases=(renamed,), sheets=other, mouldings=())
    assert already_cut(cut, bare.job) == ()  # no such material any more
