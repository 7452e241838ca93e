"""Scores of layouts after the rhythm, and of the rhythm to fit, for many layouts at once.

:mod:`tests.eye_late` and :mod:`tests.eye_rhythm` have them one layout at a time.
"""

from __future__ import annotations

import numpy as np

from tests.eye_contents import Array
from tests.eye_late import MM2
from tests.eye_layout import spots
from tests.eye_pairs import NEVER, Pairs


def void(pairs: Pairs) -> Array:
    bays = [pairs.problem.bays[b] for b, _ in spots(pairs.problem)]
    width = np.array([bay.width + bay.wider for bay in bays])
    room: Array = width * pairs.high[pairs.m] - sum(pairs.figure("front"))
    most: Array = room.max(axis=1) // MM2
    return most


def lone(pairs: Pairs) -> Array:
    width = np.array([pairs.problem.bays[b].width for b, _ in spots(pairs.problem)])
    fronts, places = np.sum(pairs.figure("front"), axis=0), np.sum(pairs.figure("places"), axis=0)
    single: Array = (places == 1) & (2 * fronts < width * pairs.high[pairs.m])
    count: Array = single.sum(axis=1, dtype=np.int64)
    return count


def roomy(pairs: Pairs) -> Array:
    wide: Array = np.sum(pairs.figure("wide"), axis=0)
    most: Array = wide.max(axis=1)
    return most


def beside(pairs: Pairs) -> Array:
    wide, top = np.sum(pairs.figure("wide"), axis=0), np.max(pairs.figure("top"), axis=0)
    missing: Array = (wide * top - np.sum(pairs.figure("low"), axis=0)).sum(axis=1)
    return missing // MM2


def air(pairs: Pairs) -> Array:
    top: Array = np.max(pairs.figure("top"), axis=0)
    room = pairs.high[pairs.m] - top
    most = np.where(top > 0, room, -NEVER).max(axis=1)
    least = np.where(top > 0, room, NEVER).min(axis=1)
    return np.where((top > 0).any(axis=1), most - least, 0)


def to_fit(pairs: Pairs) -> Array:
    top, where = np.max(pairs.figure("top"), axis=0), spots(pairs.problem)
    room, total = pairs.high[pairs.m] - top, np.zeros(len(pairs.m), dtype=np.int64)
    for group in pairs.problem.groups:
        own = [o for o, (b, _) in enumerate(where) if b in group.bays]
        for i, a in enumerate(own):
            for b in own[i + 1 :]:
                both = (top[:, a] > 0) & (top[:, b] > 0)
                total += np.where(both, np.abs(room[:, a] - room[:, b]), 0)
    return total
