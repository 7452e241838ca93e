"""All papers of a job into one folder: complete or not at all, nothing replaced unasked.

Papers become PDFs by one template, which takes what is on them as data and never as markup.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from importlib.resources import files
from pathlib import Path
from shlex import quote
from typing import Any

import typer

from cli.drawings.fonts import printable
from cli.drawings.pdf import pdf
from cli.drawings.pictures import read_pictures
from cli.files.export import csv_text, frames
from cli.files.output import make_folder, write_all
from cli.files.price_file import read_prices
from cli.files.signed_files import already_cut_csv, last_signed, named_after, signed_path
from cli.files.workbooks import workbook
from cli.papers.assembly_hanging import assembly, hanging
from cli.papers.care_card import care_card
from cli.papers.change_order_paper import bought_again, change_paper
from cli.papers.client_price import is_priced
from cli.papers.cutting_papers import buy_list_paper, cut_list, part_labels, sheet_pages
from cli.papers.gaps import gap_record
from cli.papers.issue import Issue, make_issue
from cli.papers.marking_out import marking_out
from cli.papers.paper_blocks import Paper
from cli.papers.proposal import approval, proposal
from cli.run.plan_of import option_named, plan_of
from cli.screen.wording import plain_name
from solver.errors import InputError

ALL = "papers.pdf"
"""Name of the file with all papers."""
NAMED_MOST = 3
"""Most things without a price that are named on the screen [-]; casewright price names all."""
ALREADY_CUT = "already-cut.csv"
"""Name of the list of parts that are cut already, as `casewright plan --have` reads it."""


@dataclass(frozen=True)
class PapersRequest:
    """What is asked for, as on the command line."""

    job: str
    output: str | None = None
    option: str | None = None
    date: str | None = None
    handover: str | None = None
    prices: str | None = None
    force: bool = False
    seconds: float = 60.0

    @property
    def folder(self) -> str:
        """Where to: the folder that is given, else one beside the job, named after it."""
        return self.output if self.output is not None else str(named_after(self.job))


def write_papers(asked: PapersRequest) -> Path:
    """Write the papers, list them, and return the file that holds all of them."""
    date, handover = day(asked.date, "--date"), day(asked.handover, "--handover")
    prices = read_prices(asked.prices)
    plan = plan_of(asked.job, asked.seconds, prices)
    signed = last_signed(asked.job)
    issue = make_issue(plan, option_named(plan, asked.option), signed, date, handover, prices)
    issue = replace(issue, pictures=read_pictures(plan.job, asked.job))
    contents = files_of(issue)
    folder = make_folder(asked.folder)
    make_folder(str(folder / "tables"))
    write_all(
        asked.folder,
        {name: partial(bytes, data) for name, data in contents.items()},
        force=asked.force,
    )
    typer.echo(f"{plain_name(issue.job.head.title)}, {plain_name(issue.option.name)}: {folder}")
    for name in contents:
        typer.echo(f"  {name}")
    if issue.change is not None and bought_again(issue, issue.change):
        _tell_around(asked.job)
    if not is_priced(issue.estimate):
        missing = [plain_name(one) for one in issue.estimate.missing]
        more = f" and {len(missing) - NAMED_MOST} more" if len(missing) > NAMED_MOST else ""
        named = ", ".join(missing[:NAMED_MOST])
        typer.echo(f"The proposal has lines to write the price on: no price of {named}{more}.")
    return folder / ALL


def _tell_around(path: str) -> None:
    """Say how to plan around what is cut, which these papers buy again."""
    signed = last_signed(path)
    assert signed is not None
    job = "JOB.toml" if path.endswith(".json") else quote(path)
    have = quote(str(signed_path(path, signed.revision)))
    typer.echo(
        "Parts that are cut already are bought again here. To plan around them:"
        f"\n  casewright plan {job} --have {have}\n  casewright papers {job} --force"
    )


def files_of(issue: Issue) -> dict[str, bytes]:
    """Return the content of each file by its name, all papers together first."""
    papers = every_paper(issue)
    each = {
        f"{number:02}-{paper.key}.pdf": one_pdf(issue, paper)
        for number, paper in enumerate(papers, start=1)
    }
    contents = {ALL: all_pdf(issue, papers), **each}
    contents |= tables_of(issue)
    change = issue.change
    if change is not None and change.cut and not change.is_empty:
        assert issue.signed is not None
        contents[ALREADY_CUT] = already_cut_csv(issue.signed, issue.job).encode("utf-8")
    return contents


def tables_of(issue: Issue) -> dict[str, bytes]:
    """Return every table of the option that is built, as a workbook and as CSV."""
    one = issue.plan.model_copy(update={"options": (issue.option,)})
    tables = frames(one, issue.prices)
    texts = {f"tables/{name}.csv": csv_text(frame).encode() for name, frame in tables.items()}
    return {"tables.xlsx": workbook(tables, issue.unit), **texts}


def day(text: str | None, option: str) -> datetime.date | None:
    """Read a day; InputError says which form is wanted."""
    if text is None:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        msg = f"{text!r} is not a day; write it as 2026-11-25"
        raise InputError(msg, option) from None


MAKERS = (
    proposal,
    approval,
    buy_list_paper,
    cut_list,
    sheet_pages,
    part_labels,
    marking_out,
    assembly,
    hanging,
    gap_record,
    care_card,
)
"""From the proposal to the hung case."""


def every_paper(issue: Issue) -> list[Paper]:
    """Return all papers of the issue."""
    return [*change_paper(issue), *(make(issue) for make in MAKERS)]


def one_pdf(issue: Issue, paper: Paper) -> bytes:
    """Return one paper as a PDF."""
    return _set(issue, [paper], contents=False)


def all_pdf(issue: Issue, papers: Sequence[Paper]) -> bytes:
    """Return all papers as one PDF, contents first, pages numbered through."""
    return _set(issue, papers, contents=True)


def page_data(issue: Issue, papers: Sequence[Paper], *, contents: bool) -> dict[str, Any]:
    """Return what the template is given."""
    return {
        "page": issue.paper_size,
        "job": printable(issue.job.head.title),
        "option": printable(issue.option.name),
        "revision": issue.revision,
        "date": "" if issue.date is None else issue.date.isoformat(),
        "mark": f"casewright {issue.plan.version}, job {issue.plan.job_hash[:8]}",
        "contents": contents,
        "papers": [
            {
                "key": paper.key,
                "title": paper.title,
                "use": paper.use,
                "shop": paper.shop,
                "blocks": list(paper.blocks),
            }
            for paper in papers
        ],
    }


def _set(issue: Issue, papers: Sequence[Paper], *, contents: bool) -> bytes:
    source = (files("cli.papers") / "papers.typ").read_text("utf-8")
    return pdf(source, pictures(papers), page_data(issue, papers, contents=contents))


def pictures(papers: Sequence[Paper]) -> dict[str, bytes]:
    """Return the drawings on the papers by the names under which the template reads them."""
    return {name: data for paper in papers for name, data in paper.pictures}
