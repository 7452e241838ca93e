"""Part labels: a sticker for each piece that is cut, to go on as it comes off the saw."""

from __future__ import annotations

from cli.drawings.fonts import printable
from cli.papers.issue import Issue
from cli.papers.naming import short_id
from cli.papers.paper_blocks import Block, Paper
from solver.stocked import Part
from solver.trade_words import word
from solver.units import Unit, format_length

UPRIGHT = ("side", "upright", "back")
"""Parts whose grain runs up and down in the case."""


def labels(issue: Issue) -> Paper:
    """Return a label for each part and each piece of moulding."""
    stickers = [_part(issue, part) for part in issue.option.parts]
    for stick in issue.option.mouldings:
        case = [(piece.part.rpartition("/")[0], piece) for piece in stick.pieces]
        stickers += [
            {
                "name": printable(short_id(piece.part)),
                "size": f"{format_length(piece.length, issue.unit)} {issue.unit} long",
                "from": printable(f"{stick.stock}, {name}"),
                "arrow": "none",
                "top": "front edge",
            }
            for name, piece in case
        ]
    block: Block = {"kind": "labels", "labels": stickers}
    return Paper("labels", "Part labels", "one for each piece, as it comes off the saw", (block,))


def _part(issue: Issue, part: Part) -> Block:
    unit = issue.unit
    sizes = (part.length, part.width, part.thickness)
    upright = part.name in UPRIGHT
    return {
        "name": printable(short_id(part.id)),
        "size": f"{' x '.join(format_length(size, unit) for size in sizes)} {unit}",
        "from": printable(f"{part.material}, {part.case}"),
        "arrow": "none" if part.grain == "any" else "up" if upright else "along",
        "top": "TOP end" if upright else f"TOP face{_lip(part, unit)}",
    }


def _lip(part: Part, unit: Unit) -> str:
    """Say which edge takes the lip."""
    has = any(one.what == "lip" for one in part.allowances)
    return f", {word('lip', unit)} in front" if has else ""
