"""Papers to PDF: the data goes to the one template, as data and never as markup."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files
from typing import Any

from cli.drawings.fonts import printable
from cli.drawings.pdf import pdf
from cli.papers.issue import Issue
from cli.papers.paper_blocks import Paper


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
