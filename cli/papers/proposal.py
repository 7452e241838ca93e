"""What the client signs before the work: the proposal, and the drawing for approval.

The proposal says what is made, the options, the price and what is not in it; the drawing for
approval gives the sizes and the drawings at their scales.
"""

from __future__ import annotations

from collections.abc import Iterator

from cli.papers.client_price import included, not_included, payment_rows, price_rows, totals
from cli.papers.issue import OF_THE_WORK, Issue
from cli.papers.paper_blocks import (
    BOX,
    Block,
    Paper,
    boxed,
    checks,
    facts,
    fields,
    grid,
    heading,
    line,
    points,
    together,
)
from cli.papers.paper_drawings import TO_APPROVE, fronts, whole_pages
from cli.screen.option_comparison import client_rows
from cli.screen.wording import alike_bays, count, listed, triple
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.plan.built import CasePlan
from solver.plan.plan import Option
from solver.units import Unit, format_length, with_unit

OPTIONS_MOST = 4
"""Most options that stand side by side [-]."""
KINDS = {
    "hung": "hung in the doorway",
    "standing": "free-standing",
    "built-in": "built in",
    "wall": "hung on the wall",
}


def proposal(issue: Issue) -> Paper:
    """Return the proposal that the client signs."""
    drawn, files = fronts(issue, OPTIONS_MOST)
    blocks: list[Block] = [
        facts([("For", ""), ("At", ""), ("From", "")]),
        heading("What is made"),
        *points([_described(issue, planned) for planned in issue.option.cases]),
        *_options(issue),
        *drawn,
        together(heading("Price"), *_price(issue)),
        *_scope(issue),
        heading("Good to know"),
        *points(_cautions(issue)),
        _signatures(issue),
    ]
    use = "options, price and terms, for the client to sign"
    return Paper("proposal", "Proposal", use, tuple(blocks), shop=False, pictures=tuple(files))


def _described(issue: Issue, planned: CasePlan) -> str:
    """Say what a case is, in one sentence."""
    case, unit = issue.job.case(planned.name), issue.unit
    size = planned.outside
    outside = triple((size.width, size.height, size.depth), unit)
    back = "without a back" if case.back == "none" else f"back of {case.back}"
    return (
        f"{planned.name}: {KINDS[planned.kind]}, {outside} {unit} outside (width x height x depth),"
        f" {_shelves(planned, case)}, of {case.material}, {back}{_lip(case, unit)}."
    )


def _shelves(planned: CasePlan, case: Case) -> str:
    how = "fixed" if case.fixing == "fixed" else "adjustable"
    counts = [len(bay.shelves) for bay in planned.bays]
    if len(counts) == 1:
        kinds = f"{counts[0]} {how} {'shelf' if counts[0] == 1 else 'shelves'}"
        return f"{kinds}, {count(counts[0] + 1, 'opening')}"
    if len(set(counts)) == 1:
        return f"{len(counts)} bays of {counts[0]} {how} shelves"
    return f"{len(counts)} bays of {listed([str(n) for n in counts])} {how} shelves"


def _lip(case: Case, unit: Unit) -> str:
    if case.lip is None:
        return ""
    name = "lip" if unit == "in" else "lipping"
    return f", a {name} standing {format_length(case.lip.above, unit)} {unit} above each shelf"


def _options(issue: Issue) -> Iterator[Block]:
    """Yield the options side by side, with a box to choose one."""
    options = _options_shown(issue)
    star = " *" if len(options) > 1 else ""
    heads = [f"{option.name}{star if option == issue.option else ''}" for option in options]
    rows = client_rows(issue.plan, options)
    amounts = [totals(issue)[option.name] for option in options]
    if len(options) > 1 and None not in amounts:
        rows.append(("price", *(text or "" for text in amounts)))
    if len(options) > 1:
        rows.append(("chosen", *([BOX] * len(options))))
    yield heading("The options" if len(options) > 1 else "In figures")
    yield grid(("", *heads), rows, wide=heads)
    if len(options) > 1:
        yield line(f"* This proposal's drawing and price are of {issue.option.name}.")


def _options_shown(issue: Issue) -> list[Option]:
    options = [option for option in issue.plan.options if option.cases][:OPTIONS_MOST]
    return options if issue.option in options else [issue.option, *options[:-1]]


def _price(issue: Issue) -> list[Block]:
    rows = [*price_rows(issue), *payment_rows(issue)]
    held = f"This price holds for {issue.estimate.valid_days} days from the date above."
    return [facts(rows), line(held)]


def _scope(issue: Issue) -> Iterator[Block]:
    within = included(issue)
    if within:
        yield heading("In the price")
        yield from points([f"{listed(within)}."])
    yield heading("Not in the price")
    yield from points(not_included(issue))
    yield heading("Changes")
    yield from points(
        [
            "What is changed after signing is written down as a change order with its price, and"
            " signed before the work goes on; stock that is cut by then is part of it.",
            "Sizes are those measured on site; walls and floors are taken as found then.",
            "Wood moves with the seasons and boards differ in figure and tone: both are natural.",
        ]
    )


def _cautions(issue: Issue) -> list[str]:
    cautions = [one.text for one in issue.hanging.cautions if one.key not in OF_THE_WORK]
    heavy = [one.case for one in issue.hanging.cases if one.kind == "hung"]
    passage = [
        f"{case.name}: opened to 90°, the way past it is {with_unit(case.swing.passage_90, unit)}"
        " wide."
        for unit in (issue.unit,)
        for case in issue.option.cases
        if case.name in heavy and case.swing is not None
    ]
    loads = "Each shelf has a load limit; the care and load card lists them and is signed for."
    return [*passage, loads, *cautions, issue.hanging.defer]


def _signatures(issue: Issue) -> Block:
    named = issue.option.name
    which = f"as {named} or as ticked" if len(_options_shown(issue)) > 1 else f"with {named}"
    return together(
        heading("Agreed"),
        line(f"The work above, {which}, at the price and on the terms above."),
        fields(("client", "date")),
        fields(("maker", "date")),
    )


def approval(issue: Issue) -> Paper:
    """Return the drawing for approval: a page of sizes and signatures, then the drawings."""
    drawn = whole_pages(issue, "approval", TO_APPROVE)
    blocks: list[Block] = []
    for planned in issue.option.cases:
        blocks += [heading(planned.name), *_sizes(issue, planned)]
    blocks.append(_approval_box(len(drawn)))
    blocks += [block for block, _ in drawn]
    return Paper(
        "approval",
        "Drawing for approval",
        "the drawings, for the client to approve",
        tuple(blocks),
        shop=False,
        pictures=tuple(file for _, file in drawn),
    )


def _sizes(issue: Issue, planned: CasePlan) -> Iterator[Block]:
    unit, size = issue.unit, planned.outside
    case = issue.job.case(planned.name)
    outside = triple((size.width, size.height, size.depth), unit)
    rows = [("Outside, width x height x depth", f"{outside} {unit}")]
    if planned.above_floor:
        rows.append(("Bottom end above the floor", with_unit(planned.above_floor, unit)))
    rows.append(("Material", case.material if case.back == "none" else
                 f"{case.material}, back {case.back}"))  # fmt: skip
    doorway = next((one for one in issue.job.doorways if one.name == case.doorway), None)
    if doorway is not None:
        rows += _place(planned, doorway, unit)
    yield facts(rows)
    for group in alike_bays(issue.option):
        if group.case.name == planned.name:
            columns = ("opening, lowest first", f"clear height, {unit}", f"clear width, {unit}")
            widths = dict.fromkeys(format_length(bay.inside.width, unit) for bay in group.bays)
            yield grid(
                columns,
                [
                    (str(one.index), format_length(one.height, unit), " / ".join(widths))
                    for one in group.first.openings
                ],
                right=columns[1:],
                title=group.label(issue.option),
            )


def _place(planned: CasePlan, doorway: Doorway, unit: Unit) -> list[tuple[str, str]]:
    """Say what the place measures and how the case meets it."""
    wide = with_unit(doorway.clear_width, unit)
    high = with_unit(doorway.clear_height, unit)
    rows = [(f"{doorway.name}, least width and height", f"{wide} x {high}")]
    if planned.kind == "built-in":
        free = doorway.clear_width - planned.outside.width
        rows.append(("Left and right together, to be scribed", with_unit(free, unit)))
    if planned.kind == "hung":
        side = f", hinged {doorway.hinge_side}" if doorway.hinge_side else ""
        rows.append(("Swings", f"{doorway.swing or 'out'}{side}"))
    return rows


def _approval_box(drawings: int) -> Block:
    pages = f"the {drawings} drawings" if drawings > 1 else "the drawing"
    return boxed(
        line(f"Sizes are to finished faces. I have looked at these sizes and {pages} that follow:"),
        *checks(
            [
                "approved as drawn",
                "approved with the changes written on them",
                "to be changed and shown again",
            ]
        ),
        fields(("client", "date")),
    )
