"""The buy list: errand by errand, to be ticked off; and what the sheets measure once there."""

from __future__ import annotations

from cli.papers.issue import Issue
from cli.papers.paper_blocks import Block, Paper, grid, heading, of_screen, points, together
from cli.screen.buying_tables import buy_lines, buy_tables
from solver.units import caliper


def buy(issue: Issue) -> Paper:
    """Return the buy list."""
    bought = issue.estimate.buying
    blocks: list[Block] = [
        of_screen(table, ticked="got") for table in buy_tables(bought, issue.job)
    ]
    blocks += points(buy_lines(bought))
    blocks.append(together(heading("Before anything is cut"), *_measured(issue)))
    use = "what to buy, errand by errand"
    return Paper("buy-list", "Buy list", use, tuple(blocks), shop=False)


def _measured(issue: Issue) -> list[Block]:
    """Return a table to write the sheets' thickness in, as calipers show it."""
    used = dict.fromkeys((part.material, part.thickness) for part in issue.option.parts)
    rows = [(material, caliper(thick, issue.unit), "", "") for material, thick in used]
    columns = ("sheet", "planned for", "measured", "and at another corner")
    table = grid(columns, rows, wide=columns[2:], rules="written")
    return [
        table,
        *points(
            [
                "Thickness by calipers, away from the factory edge. Where it is another than"
                " planned, casewright plan --thickness works marks and parts out again before the"
                " first cut."
            ]
        ),
    ]
