"""Faults of job files: nesting, sizes, and values that are none."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from tests.faults.fault import Fault, Given

PLAIN = (
    '[job]\nunit = "in"\n[[case]]\nname = "a"\nwidth = 30\nheight = 60\nshelves = 2\n'
    '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\n'
)


def _job(text: str | bytes, folder: Path) -> Given:
    data = text.encode() if isinstance(text, str) else text
    (folder / "job.toml").write_bytes(data)
    return Given(("check", "job.toml"), keep=("job.toml",))


def _of(what: str, text: str | bytes, *codes: int, says: str = "") -> Fault:
    return Fault("job files", what, partial(_job, text), codes or (2,), says)


def _with(line: str) -> str:
    return PLAIN.replace("width = 30", line)


FAULTS: tuple[Fault, ...] = (
    _of("as it should be", PLAIN, 0),
    _of("100,000 brackets", "x = " + "[" * 100_000, says="nested"),
    _of("100,000 braces", "x = " + "{a=" * 100_000, says=""),
    _of("a key of 20,000 parts", ".".join(["a"] * 20_000) + " = 1"),
    _of("a table of 20,000 parts", "[" + ".".join(["a"] * 20_000) + "]"),
    _of("50,000 unknown tables", "".join(f"[t{n}]\n" for n in range(50_000))),
    _of("20,000 things", PLAIN + "".join(
        f'[[item]]\nname = "j{n}"\nwidth = 6\nheight = 9\ndepth = 4\n' for n in range(20_000)), 2),
    _of("a number of 5,000 digits", _with("width = " + "9" * 5000)),
    _of("nan", _with("width = nan")),
    _of("inf", _with("width = inf")),
    _of("a negative width", _with("width = -30")),
    _of("an enormous width", _with("width = 1e300")),
    _of("a tiny width", _with("width = 1e-300")),
    _of("a name of a megabyte", PLAIN.replace('"jug"', '"' + "j" * 10**6 + '"')),
    _of("a key twice", PLAIN + "width = 5\n", says="not valid TOML"),
    _of("two cases of one name", PLAIN + '[[case]]\nname = "a"\nwidth = 30\nheight = 60\n',
        says="names must differ"),
    _of("zero bytes", PLAIN.encode().replace(b"jug", b"j\x00g")),
    _of("UTF-16", PLAIN.encode("utf-16"), 2),
    _of("a byte-order mark", PLAIN.encode("utf-8-sig"), 0),
    _of("Windows line ends", PLAIN.replace("\n", "\r\n"), 0),
    _of("nothing", ""),
    _of("a list in its place", "jug 6 x 9 x 4\n", says="not valid TOML"),
    _of("31 shelves", PLAIN.replace("shelves = 2", "shelves = 31")),
    _of("price nan", PLAIN + '[[sheet]]\nname = "p"\nlength = 96\nwidth = 48\nthickness = "3/4"\n'
        "price = nan\n"),
)  # fmt: skip
