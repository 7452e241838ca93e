"""The change order: what differs from the signed revision, its price, and a place to sign."""

from __future__ import annotations

from collections.abc import Iterator

from cli.papers.issue import Issue, short_id
from cli.papers.paper_blocks import (
    Block,
    Paper,
    boxed,
    facts,
    fields,
    grid,
    heading,
    line,
    of_screen,
)
from cli.screen.before_after import moved_tables
from cli.screen.wording import NONE, amount, listed
from solver.job.have import Have
from solver.plan.compared import Comparison
from solver.plan.signed import ChangeOrder


def change_paper(issue: Issue) -> list[Paper]:
    """Return the change order; none where nothing is signed, or nothing differs from it."""
    change = issue.change
    if change is None or change.is_empty:
        return []
    blocks: list[Block] = [
        line(f"Changes to revision {change.revision}, signed on {change.date.isoformat()}.")
    ]
    if change.asked:
        blocks.append(heading("What is asked for otherwise"))
        rows = [(_key_name(one.where, one.what), one.before or NONE, one.after or NONE)
                for one in change.asked]  # fmt: skip
        blocks.append(grid(("what", "as signed", "now"), rows))
    built, moved = _built(issue, change)
    if built:
        blocks += [heading("What is built otherwise"), *built]
    blocks += _cut(issue, change)
    blocks += [heading("Price"), facts(_price(issue, change))]
    if not change.complete:
        blocks.append(line("Prices are missing, so this is not the whole difference."))
    blocks.append(
        boxed(
            line("The work goes on with these changes once they are signed for."),
            fields(("client", "date", "maker", "date")),
        )
    )
    if moved:
        blocks += [heading("What stands elsewhere"), *moved]
    use = "what differs from the signed revision, with its price"
    return [Paper("change-order", "Change order", use, tuple(blocks), shop=False)]


def _key_name(where: str, what: str) -> str:
    return f"{where}: {what}" if what else where


def _built(issue: Issue, change: ChangeOrder) -> tuple[list[Block], list[Block]]:
    """Return what is made otherwise, and what only stands elsewhere, which nobody signs for."""
    cases = issue.option.cases
    single = len(cases) == 1 and len(cases[0].bays) == 1

    def tables(built: Comparison) -> list[Block]:
        return [of_screen(one) for one in moved_tables(built, issue.unit, single=single)]

    built_otherwise = tables(change.built.model_copy(update={"things": ()}))
    return built_otherwise, tables(change.built.model_copy(update={"marks": (), "parts": ()}))


def _cut(issue: Issue, change: ChangeOrder) -> Iterator[Block]:
    """Yield the stock that is cut already, with what of it still serves."""
    if not change.cut:
        return
    yield heading("Stock that is cut already")
    rows = [
        (
            f"{one.number}: {one.stock}",
            NONE if one.price is None else amount(one.price, issue.job.head.currency),
            _parts(one.serve),
            _parts(one.lost),
        )
        for one in change.cut
    ]
    columns = ("sheet or stick", "price", "serves as it is", "no longer")
    yield grid(columns, rows, right=("price",), wide=columns[2:])
    if bought_again(issue, change):
        yield line(
            "The parts that serve are bought again in this price, since the plan was made without"
            f" them. Planned around them: casewright plan JOB --have {_signed(issue)}; or with"
            " already-cut.csv, beside these papers, where something in it is not so."
        )


def _signed(issue: Issue) -> str:
    """Name the file of the signed revision as far as it is known: its job is not on paper."""
    return f"JOB.signed-{issue.signed.revision}.json" if issue.signed else "the signed revision"


def bought_again(issue: Issue, change: ChangeOrder) -> bool:
    """Whether parts that are there are not known to the plan, so that it buys them anew."""
    known = {have.name for have in issue.job.have}
    return any(not {ident, _any_such(ident)} & known for one in change.cut for ident in one.serve)


def _any_such(ident: str) -> str:
    """Name any part of the kind, as somebody may list it: alcove/shelf for alcove/shelf-2."""
    part = Have(what="cut", name=ident)
    return f"{part.part_case}/{part.part_kind}"


def _parts(ids: tuple[str, ...]) -> str:
    return listed([short_id(one) for one in ids]) or NONE


def _price(issue: Issue, change: ChangeOrder) -> list[tuple[str, str]]:
    currency = issue.job.head.currency
    sign = "−" if change.difference < 0 else "+"
    rows = [("As signed", amount(change.before, currency))]
    rows.append(("Now, still to be bought and made", amount(change.now, currency)))
    if change.cut:
        rows.append(("Stock that is cut already, and its work", amount(change.spent, currency)))
    most = ", at most" if bought_again(issue, change) else ""
    rows.append((f"Difference{most}", f"{sign}{amount(abs(change.difference), currency)}"))
    return rows
