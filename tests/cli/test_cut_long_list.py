"""Five thousand parts in one list: an answer with its bound, in time and in little memory."""

from __future__ import annotations

import json
import random
import resource
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
PARTS, KINDS = 5000, 500
GIB = 1024 * 1024
"""In KiB, as the system counts memory."""
OVERHEAD = 60.0
"""Seconds for all but the search, on a machine that does other work too."""


def test_five_thousand_parts_get_the_best_so_far_and_a_bound(tmp_path: Path) -> None:
    chance = random.Random(7)
    rows = [
        f"p{kind},{chance.randint(48, 1200)}/16,{chance.randint(32, 640)}/16,{PARTS // KINDS}"
        for kind in range(KINDS)
    ]
    parts, out = tmp_path / "parts.csv", tmp_path / "cut.json"
    parts.write_text("\n".join(["part,length,width,quantity", *rows]), "utf-8")
    command = ["cut", str(parts), "--sheet", "96x48@65", "--time-limit", "2", "--json", str(out)]
    started = time.monotonic()
    subprocess.run(
        [sys.executable, "-m", "cli", *command], cwd=ROOT, check=True, capture_output=True
    )
    assert time.monotonic() - started < 2 + OVERHEAD
    assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss < GIB
    data = json.loads(out.read_text("utf-8"))
    assert sum(len(sheet["pieces"]) for sheet in data["sheets"]) == PARTS
    area = sum(p["length"] * p["width"] for sheet in data["sheets"] for p in sheet["pieces"])
    least = area / (96 * 48 * 25.4**2)
    assert least <= data["sheet_bound"] <= data["sheet_count"]
