"""Hardware and consumables of a plan as lines of the buy list."""

from __future__ import annotations

from collections.abc import Iterator

from solver.bought import BuyLine
from solver.hardware.every import hardware_list
from solver.job import Job
from solver.plan import Option


def hardware_lines(job: Job, option: Option) -> Iterator[BuyLine]:
    """Yield a line for each kind and size, spares counted in."""
    for line in hardware_list(job, option):
        yield BuyLine(
            key=line.key,
            what=line.what,
            size=line.size,
            place=line.at,
            counted=line.counted,
            need=line.need + line.spare,
            spare=line.spare,
            pack=line.pack,
            packs=line.packs,
            why=tuple(use.text for use, _ in line.uses),
        )
