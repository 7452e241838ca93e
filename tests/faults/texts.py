"""Faults of lists: bytes of any kind, encodings, sizes and names that nobody meant."""

from __future__ import annotations

import codecs
import random
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tests.faults.fault import Fault, Given

SIZES = "6 x 9 x 4"
FINE = "name,w,h,d\nÉmile’s jug,6 ½,9,4\nbowl,8,4,7\n"


def _listed(data: bytes, folder: Path, name: str = "list.csv") -> Given:
    (folder / name).write_bytes(data)
    return Given(("check", name), keep=(name,))


def _pasted(data: bytes, _folder: Path) -> Given:
    return Given(("check", "-"), data)


def _planned(data: bytes, folder: Path) -> Given:
    """The list goes all the way into a plan and its files."""
    (folder / "list.txt").write_bytes(data)
    outputs = ("plan.json", "plan.xlsx")
    args = ("plan", "list.txt", "--inside", "30x40x12", "--shelves", "2", "--no-near")
    return Given(
        (*args, "--json", outputs[0], "--xlsx", outputs[1]), keep=("list.txt",), new=outputs
    )


def _of(kind: str, what: str, make: Callable[[Path], Given], *codes: int, says: str = "") -> Fault:
    return Fault(kind, what, make, codes, says)


def _random(seed: int) -> Fault:
    data = random.Random(seed).randbytes(200 + 40 * seed)
    make = partial(_listed, data) if seed % 2 else partial(_pasted, data)
    return _of("random bytes", f"{len(data)} bytes, seed {seed}", make, 2)


ENCODINGS: tuple[tuple[str, bytes], ...] = (
    ("UTF-8", FINE.encode()),
    ("UTF-8 with a byte-order mark", FINE.encode("utf-8-sig")),
    ("UTF-16, low byte first", FINE.encode("utf-16")),
    ("UTF-16, high byte first", codecs.BOM_UTF16_BE + FINE.encode("utf-16-be")),
    ("Windows-1252", FINE.encode("cp1252")),
    ("mixed line ends", FINE.replace("4\n", "4\r\n", 1).replace("\nÉ", "\rÉ").encode()),
)

NUMBERS = (
    "nan x 9 x 4", "inf x 9 x 4", "1e400 x 9 x 4", "9" * 400 + " x 9 x 4", "0 x 9 x 4",
    "-6 x 9 x 4", "0.0000001 x 9 x 4", "1/0 x 9 x 4", "99999999 x 9 x 4", "٦ x ٩ x ٤ (0)",
)  # fmt: skip

NAMES = (
    ("HTML", "<script>alert(1)</script> & <b>jug</b>"),
    ("a formula", "=cmd()"),
    ("a formula with a plus", "+1+1"),
    ("a path", "../../etc/passwd"),
    ("quotes", "\"jug\" 'of' `Emile`"),
    ("right to left", "\u05db\u05d3 \u202e\u05d2\u05d3\u05d5\u05dc"),
    ("an emoji", "jug 🏺"),
    ("markup of a terminal", "[red]jug[/red]"),
    ("a placeholder", "{0} %s ${HOME}"),
)


def _name(what: str, name: str) -> Fault:
    text = f'name,w,h,d\n"{name.replace(chr(34), chr(34) * 2)}",6,9,4\n'
    return _of("names", what, partial(_planned_csv, text.encode()), 0)


def _planned_csv(data: bytes, folder: Path) -> Given:
    (folder / "list.csv").write_bytes(data)
    args = ("plan", "list.csv", "--inside", "30x40x12", "--shelves", "2", "--no-near")
    files = ("plan.json", "plan.xlsx")
    return Given((*args, "--json", files[0], "--xlsx", files[1]), keep=("list.csv",), new=files)


def _lines(count: int) -> bytes:
    return "\n".join(f"jug {n}; {SIZES}" for n in range(count)).encode()


FAULTS: tuple[Fault, ...] = (
    *(_random(seed) for seed in range(12)),
    *(_of("encodings", what, partial(_listed, data), 0) for what, data in ENCODINGS),
    _of("encodings", "no encoding at all", partial(_listed, b"jug \x81 6 x 9 x 4"), 2,
        says="cannot be read in UTF-8, UTF-16 or Windows-1252"),
    _of("encodings", "UTF-16 broken off in a letter",
        partial(_listed, FINE.encode("utf-16")[:-1]), 2),
    *(_of("numbers", text[:24], partial(_pasted, f"jug {text}".encode()), 2) for text in NUMBERS),
    _of("numbers", "count 0", partial(_pasted, f"0 x jug {SIZES}".encode()), 2),
    _of("numbers", "count 10^30", partial(_pasted, f"{10**30} x jug {SIZES}".encode()), 2),
    *(_name(what, name) for what, name in NAMES),
    _of("names", "a control character",
        partial(_planned, f"jug\x1b[31m\x07 {SIZES}".encode()), 0, 2),
    _of("names", "a zero byte", partial(_pasted, f"jug\x00 {SIZES}".encode()), 2),
    _of("names", "a megabyte long", partial(_pasted, b"j" * 10**6 + f" {SIZES}".encode()), 2),
    _of("names", "the same twice, other sizes", partial(_pasted, b"jug 6x9x4\njug 6x9x5"), 0,
        says="renamed jug (2)"),
    _of("names", "the same twice, same sizes", partial(_pasted, b"jug 6x9x4\njug 6x9x4"), 0),
    _of("size", "100,000 lines", partial(_listed, _lines(100_000), name="list.txt"), 2,
        says="100000 lines; a list is read up to 20000"),
    _of("size", "15,000 lines", partial(_listed, _lines(15_000), name="list.txt"), 0),
    _of("size", "21 MB", partial(_listed, b"jug 6 x 9 x 4\n" * 1_500_000, name="list.txt"), 2,
        says="larger than 20 MB"),
    _of("size", "nothing", partial(_pasted, b""), 2),
    _of("size", "one line of a million commas", partial(_pasted, b"," * 10**6), 2),
    _of("size", "a quote that never ends", partial(_listed, b'name,w,h,d\n"' + b"x\n" * 50_000), 2),
)  # fmt: skip
