"""``python -m tests.benchmark eye``: sums, pictures and pairs of drawn collections.

Without a word of its own it plans the collections with a checkout, this one or another, keeps the
plans, draws a picture of each and prints the sums; with ``--old`` beside those of plans kept
before. What the figures mean stands in `eye_sums.py`, where they are taken from.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tests.benchmark.eye_collections import PICTURES, SUMS, settled
from tests.benchmark.eye_fronts import front
from tests.benchmark.eye_hand import as_plan, faults
from tests.benchmark.eye_pairs import make_pairs, tally
from tests.benchmark.eye_pictures import picture
from tests.benchmark.eye_plans import plans, settle
from tests.benchmark.eye_sums import better, lines, sums, table

Json = dict[str, Any]
ROOT = Path(__file__).resolve().parents[2]
SETS = {"pictures": PICTURES, "sums": SUMS, "both": PICTURES + SUMS}


def main(arguments: Sequence[str]) -> None:
    """Do what the first word says."""
    words = {"settle": _settle, "hand": _hand, "pairs": _pairs, "tally": _tally}
    if arguments and arguments[0] in words:
        words[arguments[0]](arguments[1:])
    else:
        _plan(arguments)


def _plan(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark eye",
        description="Plan drawn collections, print their sums and draw them.",
        epilog="Further: eye settle, hand, pairs, tally; each with --help.",
    )
    parser.add_argument("--tree", type=Path, default=ROOT, help="checkout whose planner is used")
    parser.add_argument("--out", type=Path, required=True, help="folder for plans and pictures")
    parser.add_argument("--old", type=Path, help="folder of plans to compare with")
    parser.add_argument("--set", choices=SETS, default="pictures")
    parser.add_argument("--time-limit", type=float, default=60.0, help="of each plan, in seconds")
    asked = parser.parse_args(arguments)
    seeds = SETS[asked.set]
    made = dict(plans(settled(seeds), asked.tree, asked.out, asked.time_limit))
    for seed in set(PICTURES) & set(made):
        (asked.out / f"{seed}.png").write_bytes(picture(made[seed]))
    _show({"before": _kept(asked.old, seeds)} if asked.old else {}, made)


def _show(before: Mapping[str, Mapping[int, Json]], made: Mapping[int, Json]) -> None:
    """Print a line for each collection, the sums, and the published measures old against new."""
    found = {name: [sums(front(one[seed])) for seed in made] for name, one in before.items()}
    print(*lines({seed: sums(front(one)) for seed, one in made.items()}), sep="\n")
    now = [sums(front(one)) for one in made.values()]
    print(f"\n{len(made)} collections", *table({**found, "this": now}), sep="\n")
    judged = [seed for seed in made if seed in PICTURES]
    for name, one in before.items():
        for seeds in filter(None, (judged, [seed for seed in made if seed not in PICTURES])):
            print(f"\nthis against {name}, {len(seeds)} collections")
            old, new = ([front(side[seed]) for seed in seeds] for side in (one, made))
            print(*better(old, new), sep="\n")


def _kept(folder: Path, seeds: Sequence[int]) -> dict[int, Json]:
    return {seed: json.loads((folder / f"{seed}.json").read_text("utf-8")) for seed in seeds}


def _settle(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark eye settle",
        description="Draw each collection until it fits; what is settled already stands.",
    )
    parser.add_argument("--tree", type=Path, required=True, help="checkout of the planner before")
    parser.add_argument("--time-limit", type=float, default=6.0, help="of each plan, in seconds")
    asked = parser.parse_args(arguments)
    for one in settle(SETS["both"], asked.tree, asked.time_limit):
        print(one, flush=True)


def _hand(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark eye hand",
        description="Check arrangements composed by hand (SEED.json), draw them, print their sums.",
    )
    parser.add_argument("hand", type=Path, help="folder of the arrangements; pictures go there too")
    parser.add_argument("base", type=Path, help="folder of plans of the same collections")
    asked = parser.parse_args(arguments)
    seeds = [seed for seed in PICTURES if (asked.hand / f"{seed}.json").exists()]
    made = by_hand(asked.hand, _kept(asked.base, seeds))
    for seed, one in made.items():
        (asked.hand / f"{seed}.png").write_bytes(picture(one))
    _show({"before": _kept(asked.base, seeds)}, made)


def by_hand(folder: Path, base: Mapping[int, Json]) -> dict[int, Json]:
    """Return the arrangements of a folder as plans; one with a fault ends it."""
    made = {seed: as_plan(one, base[seed]) for seed, one in _kept(folder, list(base)).items()}
    wrong = [f"{seed}: {fault}" for seed, one in made.items() for fault in faults(one, base[seed])]
    if wrong:
        raise SystemExit("\n".join(wrong))
    return made


def _pairs(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark eye pairs",
        description="Two pictures side by side for each collection, sides by lot, each pair twice.",
    )
    parser.add_argument("first", type=Path, help="folder of plans")
    parser.add_argument("second", type=Path, help="folder of plans, or of arrangements by hand")
    parser.add_argument("--hand", action="store_true", help="the second folder was made by hand")
    parser.add_argument("--out", type=Path, required=True, help="folder for the pictures")
    parser.add_argument("--key", type=Path, required=True, help="file for the key, elsewhere")
    parser.add_argument("--lot", type=int, default=1, help="seed of the lots")
    asked = parser.parse_args(arguments)
    first = _kept(asked.first, PICTURES)
    second = by_hand(asked.second, first) if asked.hand else _kept(asked.second, PICTURES)
    names = asked.first.name, asked.second.name
    make_pairs(first, second, names, asked.out, asked.key, asked.lot)


def _tally(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark eye tally",
        description='Count choices: files of {"pair-01": "left", …} against the key.',
    )
    parser.add_argument("key", type=Path)
    parser.add_argument("answers", type=Path, nargs="+")
    asked = parser.parse_args(arguments)
    key = json.loads(asked.key.read_text("utf-8"))
    choices, seeds = tally(key, [json.loads(one.read_text("utf-8")) for one in asked.answers])
    print("choices:", dict(choices), "collections:", dict(seeds))
