"""Pairs of pictures for a judge who does not know which is which: sides by lot, the key apart."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from random import Random
from typing import Any

from tests.benchmark.eye_pictures import side_by_side

Json = Mapping[str, Any]
SIDES = ("left", "right")


def make_pairs(
    first: Mapping[int, Json],
    second: Mapping[int, Json],
    names: tuple[str, str],
    folder: Path,
    key: Path,
    lot: int,
) -> None:
    """Write a picture of each collection's two plans, and the key to a file apart.

    Parameters
    ----------
    first, second
        Plans by seed; those that both have are paired.
    names
        What the key calls the two.
    folder, key
        Where pictures go, and the key, which must not be in the same folder.
    lot
        Seed of the lots: order of the pairs and sides. Each pair is made twice, the second time
        with its sides exchanged, under a number of its own.
    """
    assert key.resolve().parent != folder.resolve(), "the key is kept apart from the pictures"
    folder.mkdir(parents=True, exist_ok=True)
    rng = Random(f"pairs {lot}")
    seeds = sorted(set(first) & set(second))
    order = [
        (seed, exchanged) for exchanged in (False, True) for seed in rng.sample(seeds, len(seeds))
    ]
    first_left = {seed: rng.random() < 0.5 for seed in seeds}
    told = {}
    for number, (seed, exchanged) in enumerate(order, start=1):
        name = f"pair-{number:02}"
        sides = names if first_left[seed] != exchanged else names[::-1]
        plans = {names[0]: first[seed], names[1]: second[seed]}
        pair = side_by_side(plans[sides[0]], plans[sides[1]])
        (folder / f"{name}.png").write_bytes(pair)
        told[name] = {"seed": seed, **dict(zip(SIDES, sides, strict=True))}
    key.write_text(json.dumps(told, indent=1) + "\n", "utf-8")


def tally(key: Json, answers: Sequence[Mapping[str, str]]) -> tuple[Counter[str], Counter[str]]:
    """Return choices by name, and collections by the name that most of their choices went to.

    An answer is "left" or "right" by the name of a pair; where a collection's choices are equally
    many, it counts as "equal".
    """
    choices: Counter[str] = Counter()
    by_seed: dict[int, Counter[str]] = {}
    for one in answers:
        for pair, side in one.items():
            chosen = key[pair][side]
            choices[chosen] += 1
            by_seed.setdefault(key[pair]["seed"], Counter())[chosen] += 1
    return choices, Counter(map(_most, by_seed.values()))


def _most(found: Counter[str]) -> str:
    (name, most), *rest = found.most_common()
    return "equal" if rest and rest[0][1] == most else name
