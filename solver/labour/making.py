"""What is done to one case, task by task: in the shop, with the brush, and where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from solver.labour.areas import faces
from solver.labour.count import CaseWork, Counted, pin_holes
from solver.labour.lots import lots


def in_the_shop(work: CaseWork) -> Iterator[Counted]:
    """Yield what is done to a case in the shop."""
    jointed, sheets = work.jointed, tuple(part.id for part in work.parts)
    yield Counted("drawing", 1)
    yield Counted("marking out", len(jointed) + len(work.loose), (*jointed, *work.loose))
    if work.housed:
        yield Counted("dado", 2 * len(work.housed), work.housed)
    yield Counted("pilot holes", 2 * len(jointed), jointed)
    if holes := pin_holes(work):
        yield Counted("pin holes", holes, work.ids("side", "upright"))
    yield Counted("sanding", faces(work.parts), sheets)
    yield Counted("dry fit", 1)
    yield Counted("dry fit of a board", len(jointed), jointed)
    for lot in lots(work):
        yield Counted(
            "glue-up", lot.joints, (*(work.ids("side") if lot.sides else ()), *lot.boards)
        )
    yield Counted("squaring", 1)
    if back := work.ids("back"):
        yield Counted("back", len(back), back)
    if work.lips:
        yield Counted("lip", len(work.lips), work.lips)
    if work.hinges:
        yield Counted("hinge on the case", work.hinges)


def finishing(work: CaseWork) -> Iterator[Counted]:
    """Yield primer and coats, each by itself."""
    sheets = tuple(part.id for part in work.parts)
    area = faces(work.parts)
    yield Counted("priming", area, sheets)
    for _ in range(2):
        yield Counted("rubbing down", area, sheets)
        yield Counted("top coat", area, sheets)


def on_site(work: CaseWork) -> Iterator[Counted]:
    """Yield what is done to a case where it goes, by its kind."""
    kind, people = work.case.kind, work.lifters
    if kind == "hung":
        yield Counted("old door out", 1)
    if kind in ("hung", "built-in"):
        yield Counted("preparing the opening", 1)
    if kind == "wall":
        yield Counted("finding studs", 1)
        yield Counted("wall cleat", 1)
    yield Counted("carrying in", 1, people=people)
    if kind == "hung":
        yield Counted("hanging", work.hinges, people=people)
        yield Counted("open-test", 1)
        yield Counted("catches and pull", 1)
    else:
        yield Counted("levelling", 1, people=people if kind == "wall" else 1)
        yield Counted("fixing to the wall", 1)
    if kind == "built-in":
        yield Counted("scribing", 2)
    if work.loose:
        yield Counted("shelves in", len(work.loose), work.loose)
    yield Counted("loading", 1)
