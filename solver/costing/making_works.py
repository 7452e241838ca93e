"""What is done to one case, task by task: in the shop, with the brush, and where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from solver.costing.glue_lots import lots
from solver.costing.labour_count import CaseWork, Counted
from solver.plan.trimming import TrimPiece

SIDES = 2
"""A built-in case without strips of its own is scribed at both sides all the same [-]."""


def _ids(pieces: tuple[TrimPiece, ...]) -> tuple[str, ...]:
    return tuple(piece.id for piece in pieces)


def in_the_shop(work: CaseWork) -> Iterator[Counted]:
    """Yield what is done to a case in the shop."""
    jointed, sheets = work.jointed, tuple(part.id for part in work.parts)
    yield Counted("drawing", 1)
    yield Counted("marking out", len(jointed) + len(work.loose), (*jointed, *work.loose))
    if work.housed:
        yield Counted("dado", 2 * len(work.housed), work.housed)
    if work.screwed:
        yield Counted("pilot holes", 2 * len(work.screwed), work.screwed)
    if holes := sum(bay.total for bay in work.pin_holes):
        yield Counted("pin holes", holes, work.ids("side", "upright"))
    if work.bands:
        yield Counted("banding", len(work.bands), _ids(work.bands))
    yield Counted("sanding", work.area, sheets)
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
    if work.fluted:
        assert work.trim.flutes is not None
        yield Counted("flute", work.trim.flutes.count * len(work.fluted), _ids(work.fluted))
    if travels := work.trimmed(travels=True):
        yield Counted("trim that travels", len(travels), _ids(travels))
    if work.hinges:
        yield Counted("hinge on the case", work.hinges)
    if work.trim.light is not None:
        yield Counted("light strip", len(work.trim.light.runs))


def finishing(work: CaseWork) -> Iterator[Counted]:
    """Yield primer and coats, each by itself, a rubbing down before each but the first."""
    sheets = tuple(part.id for part in work.parts)
    area, before, after = work.area, *coats(work)
    for number in range(before + after):
        if number:
            yield Counted("rubbing down", area, sheets)
        primer = work.job.finished.kind == "paint" and number < before
        yield Counted("priming" if primer else "top coat", area, sheets)


def coats(work: CaseWork) -> tuple[int, int]:
    """Return how many coats go on before assembly and after it [-].

    Primer goes on before; of a clear finish without primer the first coat does.
    """
    finish = work.job.finished
    if finish.kind == "none":
        return 0, 0
    if finish.kind == "paint":
        return finish.primer, finish.coats
    return min(1, finish.coats), max(0, finish.coats - 1)


def on_site(work: CaseWork) -> Iterator[Counted]:
    """Yield what is done to a case where it goes, by its kind."""
    kind, people = work.case.kind, work.people
    if kind == "hung" and work.opens:
        yield Counted("old door out", 1)
    if kind in ("hung", "built-in") and work.opens:
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
    if work.scribes:
        yield Counted("scribing", len(work.scribes), _ids(work.scribes))
    elif kind == "built-in":
        yield Counted("scribing", SIDES)
    if stays := work.trimmed(travels=False):
        yield Counted("trim on the wall", len(stays), _ids(stays))
    if work.loose:
        yield Counted("shelves in", len(work.loose), work.loose)
    yield Counted("loading", 1)
