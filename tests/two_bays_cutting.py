"""Parts, sheets and sticks of the hand-made plan of two bays."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TypeAlias

from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Allowance, Part, Piece, Sheet, Stick, StickPiece
from tests.two_bays_job import (
    BACK,
    BAY,
    DADO,
    HEIGHT,
    INSIDE_DEPTH,
    INSIDE_HEIGHT,
    INSIDE_WIDTH,
    KERF,
    LIP_THICK,
    MARGIN,
    TOE,
    TRIM,
    WIDTH,
    T,
    mm,
)

Row: TypeAlias = tuple[str, str, int, int, int, int]
"""Kind, direction, where the cut lies, where it starts and ends, what the saw is set to."""
BOTH_DADOES = Allowance(what="dado", length=mm(2 * DADO))


def parts() -> tuple[Part, ...]:
    """All sheet parts of the case."""
    lip = Allowance(what="lip", length=0, width=mm(-LIP_THICK))
    shelf = BAY + 2 * DADO, INSIDE_DEPTH - LIP_THICK
    across = INSIDE_WIDTH + 2 * DADO, INSIDE_DEPTH
    return (
        _part("side-left", "side", (HEIGHT, INSIDE_DEPTH)),
        _part("side-right", "side", (HEIGHT, INSIDE_DEPTH)),
        _part("top", "top", across, BOTH_DADOES),
        _part("bottom", "bottom", across, BOTH_DADOES),
        _part("upright-1", "upright", (INSIDE_HEIGHT + 2 * DADO, INSIDE_DEPTH), BOTH_DADOES),
        _part("toe", "toe", (INSIDE_WIDTH, TOE)),
        *(
            _part(f"bay-{bay}-shelf-{k}", "shelf", shelf, BOTH_DADOES, lip)
            for bay in (1, 2)
            for k in (1, 2)
        ),
        Part(
            id="hall/back",
            name="back",
            case="hall",
            material="birch ply 6",
            length=mm(WIDTH - 3),  # no grain: the longer side is the length
            width=mm(HEIGHT - 3),
            thickness=mm(BACK),
            grain="any",
            allowances=(Allowance(what="planted back inset", length=mm(-3), width=mm(-3)),),
        ),
    )


def _part(ident: str, name: str, size: tuple[int, int], *allowances: Allowance) -> Part:
    return Part(
        id=f"hall/{ident}",
        name=name,
        case="hall",
        material="birch ply 18",
        length=mm(size[0]),
        width=mm(size[1]),
        thickness=mm(T),
        grain="length",
        allowances=allowances,
    )


NEXT = MARGIN + KERF
"""From the end of a piece to the start of the next: its margin, then a saw cut."""
STRIPS = (
    # (width of the strip, the parts in it with their lengths and widths)
    (212, (("side-left", 1000, 212), ("side-right", 1000, 212))),
    (212, (("top", 1230, 212), ("upright-1", 916, 212))),
    (212, (("bottom", 1230, 212), ("bay-1-shelf-1", 612, 204))),
    (204, (("bay-1-shelf-2", 612, 204), ("bay-2-shelf-1", 612, 204), ("bay-2-shelf-2", 612, 204))),
    (60, (("toe", 1218, 60),)),
)


EDGES = (
    ("trim", "rip", TRIM - KERF, 0, 2440, TRIM),
    ("trim", "crosscut", TRIM - KERF, TRIM, 1220, TRIM),
)
"""A long factory edge and an end are trimmed; the far ones come off with what is left."""


def board_sheet() -> Sheet:
    """Five strips ripped, each crosscut; one shelf is trimmed to width once more."""
    pieces: list[Piece] = []
    rips: list[Row] = []
    crosscuts: list[Row] = []
    trims: list[Row] = []
    y = TRIM
    for strip, row in STRIPS:
        x = TRIM
        rips.append(("rip", "rip", y + strip + MARGIN, TRIM, 2440, strip))
        for name, length, width in row:
            pieces.append(_piece(name, x, y, length, width))
            end = x + length + MARGIN
            crosscuts.append(("crosscut", "crosscut", end, y, y + strip + MARGIN, length))
            if width < strip:
                trims.append(("rip", "rip", y + width + MARGIN, x, end, width))
            x += length + NEXT
        y += strip + NEXT
    return _sheet(18, "92.00", tuple(pieces), [*EDGES, *rips, *crosscuts, *trims])


def back_sheet() -> Sheet:
    """The back alone."""
    length, width = WIDTH - 3, HEIGHT - 3
    cuts = [
        *EDGES,
        ("rip", "rip", TRIM + width + MARGIN, TRIM, 2440, width),
        ("crosscut", "crosscut", TRIM + length + MARGIN, TRIM, TRIM + width + MARGIN, length),
    ]
    return _sheet(BACK, "31.50", (_piece("back", TRIM, TRIM, length, width),), cuts)


def _piece(name: str, x: int, y: int, length: int, width: int) -> Piece:
    return Piece(
        part=f"hall/{name}",
        x=mm(x),
        y=mm(y),
        length=mm(length),
        width=mm(width),
        turned=False,
    )


def _sheet(thick: int, price: str, pieces: tuple[Piece, ...], cuts: list[Row]) -> Sheet:
    return Sheet(
        stock=f"birch ply {thick}, 2440 x 1220",
        material=f"birch ply {thick}",
        length=mm(2440),
        width=mm(1220),
        edge_trim=mm(TRIM),
        kerf=mm(KERF),
        margin=mm(MARGIN),
        price=Decimal(price),
        on_hand=False,
        first_cut="rip",
        pieces=pieces,
        cuts=cuts_of(cuts),
    )


def cuts_of(rows: Sequence[tuple[str, str, float, float, float, float]]) -> tuple[Cut, ...]:
    """Cuts in order; lengths in mm."""
    return tuple(
        Cut.model_validate(
            {
                "number": number,
                "kind": kind,
                "direction": direction,
                **dict(zip(("at", "start", "end", "setting"), map(mm, lengths), strict=True)),
            }
        )
        for number, (kind, direction, *lengths) in enumerate(rows, start=1)
    )


def sticks() -> tuple[Stick, ...]:
    """Two lips on the stick that is on hand, two on one that is bought."""
    return tuple(
        Stick(
            stock="lip 8 x 30",
            length=mm(1800),
            price=price,
            on_hand=price is None,
            kerf=mm(KERF),
            pieces=(
                StickPiece(part=f"hall/lip-bay-{bay}-shelf-1", start=0, length=mm(BAY)),
                StickPiece(
                    part=f"hall/lip-bay-{bay}-shelf-2", start=mm(BAY + KERF), length=mm(BAY)
                ),
            ),
        )
        for bay, price in ((1, None), (2, Decimal("7.40")))
    )
