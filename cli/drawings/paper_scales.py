"""Standard scales, papers, and the largest scale at which a drawing fits."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence

from cli.drawings.running import small_figures
from cli.drawings.scene import Scene
from solver.units import Unit

METRIC = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""ISO 5455."""
INCH = {
    1: "full size",
    2: "half size",
    4: "3 in = 1 ft",
    8: "1-1/2 in = 1 ft",
    12: "1 in = 1 ft",
    16: "3/4 in = 1 ft",
    24: "1/2 in = 1 ft",
    32: "3/8 in = 1 ft",
    48: "1/4 in = 1 ft",
    96: "1/8 in = 1 ft",
    192: "1/16 in = 1 ft",
}
"""Scales that an architect's rule has (ASME Y14.1 names them by inches to the foot)."""

PAPERS: dict[str, tuple[float, float]] = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
}
"""Width and height, upright [mm]: ISO 216, ASME Y14.1 A and B."""


def usual_paper(unit: Unit) -> str:
    """Return the paper of a job's unit."""
    return "letter" if unit == "in" else "a4"


def scale_text(scale: int, unit: Unit) -> str:
    """Return a scale as drawings state it: ``1 : 10``, ``1-1/2 in = 1 ft (1 : 8)``."""
    plain = f"1 : {scale}"
    return f"{INCH[scale]} ({plain})" if unit == "in" and scale in INCH else plain


def to_fit(
    make: Callable[[int], Scene],
    rooms: Sequence[tuple[float, float]],
    unit: Unit,
    smaller: Callable[[int], Scene] | None = None,
) -> Scene:
    """Return the scene at the largest standard scale at which it fits one of the rooms.

    Figures of dimensions are small where they would cost a scale otherwise.

    Parameters
    ----------
    make
        Makes the scene for a scale [-].
    rooms
        Width and height on paper [mm], each that may be used.
    unit
        Whose standard scales are used.
    smaller
        Makes the scene with small figures; left out, as `make` does, and then made small.

    Returns
    -------
    Scene
        At the smallest scale of all where it fits at none.
    """
    scales = tuple(INCH) if unit == "in" else METRIC
    fits: dict[int, Scene] = {}

    def fits_in(scene: Scene) -> bool:
        wide, high = scene.paper_size
        return any(wide <= width and high <= height for width, height in rooms)

    def is_too_large(number: int) -> bool:
        fits[number] = make(scales[number])
        return not fits_in(fits[number])

    # Never larger on paper at a smaller scale, so the first that fits is found by halving.
    first = bisect_left(range(len(scales) - 1), True, key=lambda n: not is_too_large(n))
    if first:
        closer = small_figures(fits[first - 1]) if smaller is None else smaller(scales[first - 1])
        if fits_in(closer):
            return closer
    return fits[first] if first in fits else make(scales[first])
