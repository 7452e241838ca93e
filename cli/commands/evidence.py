"""`casewright evidence`: what others have printed, beside what this program works out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from cli.options import Force, JsonBeside

if TYPE_CHECKING:
    from solver.evidence.check import Outcome


def evidence(
    json: JsonBeside = None,
    csv: Annotated[
        str | None,
        typer.Option("--csv", metavar="FILE", help="Write it as CSV; - for standard output."),
    ] = None,
    force: Force = False,
) -> None:
    """List every published figure that this program is held against, and its own beside it.

    Each of ours is worked out anew, by the functions that plans are made with. A figure that is
    off ends the command with exit code 70.
    """
    from cli.tables.evidence import evidence_rows
    from solver.errors import SelfCheckError
    from solver.evidence.check import made
    from solver.evidence.every import CHECKS

    outcomes = made(CHECKS)
    rows = evidence_rows(outcomes)
    if json is not None:
        from json import dumps

        from cli.output import write_text

        data = {"schema": "casewright/evidence/1", "checks": rows}
        write_text(json, dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)
    if csv is not None:
        from pandas import DataFrame

        from cli.export import guarded_cell
        from cli.output import write_text

        text = DataFrame(rows).map(guarded_cell).to_csv(index=False, lineterminator="\n")
        write_text(csv, text, force=force)
    if json is None and csv is None:
        _show(outcomes)
    off = [row["question"] for row in rows if not row["holds"]]
    if off:
        msg = f"a figure is off what others have printed: {'; '.join(off)}"
        raise SelfCheckError(msg)


def _show(outcomes: tuple[Outcome, ...]) -> None:
    from cli.console import console
    from cli.tables.evidence import evidence_tables, summary

    out = console()
    for titled in evidence_tables(outcomes, out.width):
        out.print(titled.title, style="bold")
        out.print(titled.table)
        out.print()
    out.print(summary(outcomes))
