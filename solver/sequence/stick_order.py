"""The order of cuts of mouldings: one stop setting after the other, over all sticks.

All pieces of one length are cut with the stop set once, from whichever stick they come, the
longest first: those can still be recut shorter. The end of the stick lies against the stop, so
each stick is cut from one end, and what was sawn is the next piece's end.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.plan.saw_cuts import StickCut
from solver.plan.stocked import Stick, StickPiece
from solver.units import Ticks


def sequence_sticks(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """Return the sticks with their cuts, stops batched over all of them.

    Parameters
    ----------
    sticks
        Of all mouldings of a job; the stop does not mind which one it is.

    Returns
    -------
    tuple of Stick
        Pieces lie longest first from the end that the cuts begin at, so that each stick's cuts
        keep the order of the stops.
    """
    laid = [_longest_first(stick) for stick in sticks]
    lengths = sorted({p.length for stick in laid for p in stick.pieces if _comes_off(stick, p)})
    batches = {length: n for n, length in enumerate(reversed(lengths), start=1)}
    return tuple(stick.model_copy(update={"cuts": _cuts(stick, batches)}) for stick in laid)


def _longest_first(stick: Stick) -> Stick:
    """Lay the pieces longest first, a kerf apart; those of one length stay as they are."""
    pieces, at = [], 0
    for piece in sorted(stick.pieces, key=lambda piece: (-piece.length, piece.start)):
        pieces.append(piece.model_copy(update={"start": at}))
        at += piece.length + stick.kerf
    return stick.model_copy(update={"pieces": tuple(pieces)})


def _comes_off(stick: Stick, piece: StickPiece) -> bool:
    """Whether a piece must be cut off: not where it is all that is left."""
    return piece.start + piece.length < stick.length


def _cuts(stick: Stick, batches: Mapping[Ticks, int]) -> tuple[StickCut, ...]:
    cut = [piece for piece in stick.pieces if _comes_off(stick, piece)]
    return tuple(
        StickCut(
            number=number,
            batch=batches[piece.length],
            setting=piece.length,
            at=piece.start + piece.length,
            measured_from="factory end" if number == 1 else "sawn end",
            part=piece.part,
        )
        for number, piece in enumerate(cut, start=1)
    )
