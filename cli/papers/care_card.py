"""The care and load card: what each shelf may carry, what to look at and when, signed for."""

from __future__ import annotations

from cli.papers.issue import OF_THE_WORK, Issue, limit_text
from cli.papers.paper_blocks import (
    Block,
    Paper,
    boxed,
    facts,
    fields,
    grid,
    heading,
    line,
    points,
    together,
)
from cli.screen.wording import alike_bays, mass_text
from solver.plan.built import CasePlan


def care_card(issue: Issue) -> Paper:
    """Return the card that stays with the client."""
    blocks: list[Block] = []
    for planned in issue.option.cases:
        blocks += _loads(issue, planned)
    blocks.append(
        boxed(
            line(
                "I have been shown the load limits above and will keep to them; heavier things,"
                " or books where none were planned, are asked about first."
            ),
            fields(("client", "date", "maker", "date")),
        )
    )
    blocks += [heading("Living with it"), *points(_living(issue))]
    blocks.append(_looks(issue))
    cautions = [one.text for one in issue.hanging.cautions if one.key not in OF_THE_WORK]
    blocks += [heading("Cautions"), *points([*cautions, issue.hanging.defer])]
    return Paper(
        "care-card", "Care and load card", "stays with the client, who signs it", tuple(blocks),
        shop=False,
    )  # fmt: skip


def _loads(issue: Issue, planned: CasePlan) -> list[Block]:
    unit = issue.unit
    blocks: list[Block] = [heading(planned.name)]
    for group in alike_bays(issue.option):
        if group.case.name != planned.name:
            continue
        rows = [
            (
                "bottom" if not index else f"shelf {index}",
                limit_text(min(bay.openings[index].load_limit for bay in group.bays), unit),
                ", ".join(
                    dict.fromkeys(mass_text(bay.openings[index].load, unit) for bay in group.bays)
                ),
            )
            for index in reversed(range(len(group.first.openings)))
        ]
        title = group.label(issue.option)
        columns = ("shelf, top one first", "holds at most", "planned on it")
        blocks.append(grid(columns, rows, right=columns[1:], title=title))
    whole = issue.hanging.of(planned.name)
    blocks.append(
        facts(
            [
                ("The case by itself weighs", mass_text(whole.empty, unit)),
                ("What is planned in it", mass_text(whole.contents, unit)),
            ]
        )
    )
    return blocks


def _living(issue: Issue) -> list[str]:
    hung = any(case.kind == "hung" for case in issue.option.cases)
    moving = [
        "Open and close it slowly, by its pull; nothing hangs on its open edge and nobody stands"
        " or swings on it. Fill it from the bottom up, empty it from the top down.",
        "Keep fingers out of the hinge side and the closing latch side.",
    ]
    return [
        "The limits are for things spread over the shelf, not for one heavy thing in the middle.",
        "Nobody climbs on it; heavy things stand low.",
        *(moving if hung else []),
        "Wipe with a damp cloth, dry at once; no wet pots, no heater in front of it.",
        "Touch-up paint or finish, by name and batch, is written on the drawing you keep.",
    ]


def _looks(issue: Issue) -> Block:
    hung = any(case.kind == "hung" for case in issue.option.cases)
    what = (
        "screws of hinges and catches, gaps against the record, latch foot clear of the floor"
        if hung
        else "fixings to the wall, shelves straight, joints tight"
    )
    month = "" if issue.recheck is None else issue.recheck.isoformat()
    rows = [
        ("at the handover", "" if issue.handed_over is None else issue.handed_over.isoformat()),
        ("after one month", month),
        ("after a year, then every year", ""),
    ]
    columns = ("when", "due on", "done on", "by", "found")
    table = grid(columns, [(*row, "", "", "") for row in rows], wide=columns[1:], rules="written")
    return together(heading("Looking after it"), line(f"Each time: {what}."), table)
