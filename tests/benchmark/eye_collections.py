"""Collections that the eye command plans: drawn from fixed seeds, kept as ordinary job files.

`eye_collections.json` was settled with the planner of before, before the one that it is to be held
against was written. It names seed, attempt, shelf count and a digest of the job file, so that a
changed draw is noticed.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from random import Random

PICTURES = tuple(range(1401, 1414))
"""Seeds of the collections that are judged as pictures."""
SUMS = tuple(range(1501, 1551))
"""Seeds of the collections that only the sums are taken of."""
SETTLED = Path(__file__).with_name("eye_collections.json")
COUNTS = range(4, 8)
"""Shelf counts that are tried, the first that does is taken."""
LEAST_FILL, MOST_FILL = 0.60, 0.85
"""Share of the width of all shelves that things, gaps and end margins take [-]."""
GAP = MARGIN = 0.5
"""The program's own defaults [in]."""
BOARD = 0.75
"""Thickness of every board [in]."""
OUNCE_PER_CUBIC_INCH = 0.12
"""Light, so that no load limit binds."""

SIZES: dict[str, tuple[float, ...]] = {
    # least and most width, height and depth [in], fewest and most of the kind
    "mantel clock": (5, 8.5, 8, 14, 3.25, 4.75, 1, 3),
    "carriage clock": (2.5, 3.5, 5, 8, 2.5, 3.5, 1, 4),
    "alarm clock": (2.5, 3.75, 4, 6, 1.5, 2.5, 2, 6),
    "teapot": (5.25, 7, 5, 7.5, 4, 5.25, 1, 4),
    "coffee pot": (4.5, 6.25, 8, 11, 3.5, 4.75, 1, 3),
    "cup": (2.25, 3.25, 3, 3.75, 2.5, 3.25, 3, 8),
    "tankard": (3.25, 3.75, 4.5, 6.5, 3.25, 3.5, 2, 6),
    "jug": (3.5, 5.25, 6, 10, 3.5, 4.75, 1, 5),
    "tall jug": (3.75, 5.25, 10, 14, 4, 5.25, 1, 3),
    "tureen": (7, 9, 7, 9, 4.75, 5.75, 1, 2),
    "bowl": (4.25, 7, 3, 4.5, 4.75, 5.75, 1, 4),
    "plate on a stand": (5.25, 7.25, 8, 11, 2.5, 3.25, 1, 4),
    "vase": (2.75, 5, 9, 15, 3.25, 5.25, 1, 4),
    "bud vase": (1.5, 2.5, 5, 8, 1.75, 2.75, 2, 6),
    "ginger jar": (4.25, 5.5, 8, 12, 4.75, 5.75, 1, 3),
    "candlestick": (2.5, 3.5, 7, 13, 2.75, 4, 2, 4),
    "oil lamp": (3.25, 4.5, 11, 16, 3.5, 4.75, 1, 2),
    "lantern": (3.5, 5, 9, 14, 4, 5.25, 1, 3),
    "figurine": (1.75, 3.25, 5, 9, 2, 3.25, 2, 7),
    "bust": (3.75, 5.5, 9, 14, 4, 5.5, 1, 2),
    "bird, carved": (3.25, 5.5, 4, 7, 2.5, 4, 1, 5),
    "horse, carved": (5, 7.75, 7, 10, 2.5, 3.25, 1, 3),
    "tin toy": (2.75, 5, 3, 5.5, 2.5, 3.5, 2, 7),
    "toy engine": (5.5, 8.5, 4, 5.5, 2.5, 3.25, 1, 4),
    "ship model": (7.75, 12, 10, 15, 3.25, 4.75, 1, 2),
    "ship in a bottle": (6.25, 8.5, 3.75, 5, 3, 3.75, 1, 3),
    "globe": (5.5, 7, 11, 14, 5.5, 5.75, 1, 1),
    "microscope": (3.5, 5, 11, 15, 4.5, 5.5, 1, 2),
    "sextant box": (6.25, 7.75, 4, 5.5, 5.5, 5.75, 1, 2),
    "camera": (3.5, 5, 4, 6, 2.75, 4, 2, 6),
    "binoculars": (4.25, 5.25, 5, 7, 2.5, 3.25, 1, 4),
    "wireless set": (6.25, 9.75, 7, 10, 4.75, 5.75, 1, 2),
    "telephone": (4.25, 6, 5, 8, 4.75, 5.75, 1, 3),
    "tea caddy": (3.25, 5.5, 4.5, 6.5, 3.25, 4, 1, 4),
    "tin": (2.5, 4.25, 4, 7.5, 2.5, 3.5, 2, 8),
    "apothecary bottle": (2, 3.25, 6.5, 11, 2.5, 3.5, 2, 8),
    "decanter": (2.75, 3.75, 9, 12, 3.25, 4.5, 1, 4),
    "paperweight": (2, 2.5, 3, 3, 2.5, 3, 2, 7),
    "fossil on a stand": (3.5, 6.25, 4, 8, 2.5, 4, 1, 4),
    "mineral": (2, 3.75, 3, 5, 2.5, 3.5, 2, 8),
    "trophy": (3.5, 5.5, 8, 16, 3.5, 5.25, 1, 4),
    "medal in a frame": (3.5, 5, 6, 8.5, 1, 1.5, 1, 5),
}


@dataclass(frozen=True)
class Things:
    """One kind of a collection; sizes in quarter inches, weight in ounces."""

    name: str
    width: int
    height: int
    depth: int
    count: int
    weight: int


@dataclass(frozen=True)
class Collection:
    """A drawn collection and its case; outside sizes of the case in quarter inches."""

    seed: int
    attempt: int
    case: tuple[int, int, int]
    kinds: tuple[Things, ...]

    @property
    def things(self) -> int:
        """How many there are."""
        return sum(kind.count for kind in self.kinds)

    def fill(self, shelves: int) -> float:
        """Share of the width of all shelves that is taken, gaps and end margins too [-]."""
        run = self.case[0] / 4 - 2 * BOARD - 2 * MARGIN + GAP
        wanted = sum(kind.count * (kind.width / 4 + GAP) for kind in self.kinds)
        return wanted / (run * (shelves + 1))


@dataclass(frozen=True)
class Settled:
    """A collection with its shelf count, as fixed."""

    seed: int
    attempt: int
    shelves: int
    digest: str

    @property
    def job(self) -> str:
        """Text of its job file, which must be the one that was settled."""
        text = job_text(draw(self.seed, self.attempt), self.shelves)
        assert digest(text) == self.digest, f"collection {self.seed} is drawn otherwise than before"
        return text


def draw(seed: int, attempt: int) -> Collection:
    """Draw a collection of 6 to 12 kinds and 20 to 45 things, and a case for it."""
    rng = Random(f"eye {seed} {attempt}")
    while True:
        case = rng.randrange(80, 145, 2), rng.randrange(240, 305, 2), rng.randrange(32, 49, 2)
        names = rng.sample(sorted(SIZES), rng.randint(6, 12))
        kinds = tuple(_kind(rng, name, case[2]) for name in names)
        found = Collection(seed, attempt, case, kinds)
        if 20 <= found.things <= 45:
            return found


def _kind(rng: Random, name: str, most_depth: int) -> Things:
    *sizes, fewest, most = SIZES[name]
    pairs = zip(sizes[::2], sizes[1::2], strict=True)
    wide, high, deep = (rng.randint(round(4 * low), round(4 * up)) for low, up in pairs)
    volume = wide * high * deep / 64
    weight = max(1, round(OUNCE_PER_CUBIC_INCH * volume))
    count = rng.randint(round(fewest), round(most))
    return Things(name, wide, high, min(deep, most_depth), count, weight)


def counts(collection: Collection) -> Iterator[int]:
    """Yield the shelf counts that fill the case by as much as is wanted."""
    for count in COUNTS:
        if LEAST_FILL <= collection.fill(count) <= MOST_FILL:
            yield count


def job_text(collection: Collection, shelves: int) -> str:
    """Return a collection as the text of a job file."""
    wide, high, deep = map(inches, collection.case)
    head = f"""\
[job]
title = "Collection {collection.seed}"
unit = "in"
currency = "USD"

[[case]]
name = "case"
kind = "standing"
width = "{wide}"
height = "{high}"
depth = "{deep}"
shelves = {shelves}
material = "ply"
back = "none"

[[sheet]]
name = "ply 3/4"
material = "ply"
length = 96
width = 48
thickness = "3/4"
price = 80.00
"""
    return head + "".join(_item(kind) for kind in collection.kinds)


def _item(kind: Things) -> str:
    wide, high, deep = map(inches, (kind.width, kind.height, kind.depth))
    return f"""
[[item]]
name = "{kind.name}"
width = "{wide}"
height = "{high}"
depth = "{deep}"
count = {kind.count}
weight = "{kind.weight} oz"
"""


def inches(quarters: int) -> str:
    """Write quarter inches as a job file has them."""
    whole, part = divmod(quarters, 4)
    return f"{whole}{('', '-1/4', '-1/2', '-3/4')[part]}"


def digest(text: str) -> str:
    """Return the digest of a job file."""
    return sha256(text.encode()).hexdigest()[:16]


def settled(seeds: Sequence[int]) -> list[Settled]:
    """Return the collections of these seeds as they were fixed."""
    known = {one["seed"]: Settled(**one) for one in json.loads(SETTLED.read_text("utf-8"))}
    return [known[seed] for seed in seeds]
