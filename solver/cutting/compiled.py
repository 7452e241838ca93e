"""The decorator of compiled functions: the one place that knows numba.

Modules with compiled functions are imported where a search needs them, never at start:
loading the compiler takes a quarter of a second, and compiling all loops some ten seconds
the first time after an installation. What was compiled is kept beside the sources, or in
the user's cache folder where those cannot be written.
"""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar, cast

import numba

F = TypeVar("F", bound=Callable[..., object])

HERE = Path(__file__).resolve().parent


def _state_of_sources() -> str:
    """Hash all modules with compiled functions.

    The compiler notices a change in the file of a function, not in those of functions it calls,
    so what it keeps belongs to the state of all of them.
    """
    folders = (HERE, HERE.parent / "sticks")
    texts = [path.read_bytes() for folder in folders for path in sorted(folder.glob("*.py"))]
    return hashlib.sha256(b"".join(t for t in texts if b"\n@compiled\n" in t)).hexdigest()[:16]


def _keep_beside_sources() -> None:
    """Keep compiled code in a folder of this state of the sources; remove those of others."""
    folder = HERE / "__pycache__"
    if "NUMBA_CACHE_DIR" in os.environ or not os.access(
        folder if folder.exists() else HERE, os.W_OK
    ):
        return
    mine = folder / f"loops-{_state_of_sources()}"
    for other in folder.glob("loops-*"):
        if other != mine:
            shutil.rmtree(other, ignore_errors=True)
    vars(numba.config)["CACHE_DIR"] = str(mine)


_keep_beside_sources()


def compiled(function: F) -> F:
    """Compile a function of numbers and numpy arrays; it runs without the interpreter's lock.

    Integers wrap at 64 bits without warning, and indices are not checked: both are the
    caller's to keep in range.
    """
    try:
        return cast("F", numba.njit(cache=True, nogil=True, error_model="numpy")(function))
    except RuntimeError:  # no folder to keep compiled code in
        return cast("F", numba.njit(nogil=True, error_model="numpy")(function))
