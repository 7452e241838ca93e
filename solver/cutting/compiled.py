"""Compiled inner loops: one place that knows the compiler.

Modules with compiled functions are imported where a search needs them, never at start:
loading the compiler takes a quarter of a second, and compiling all loops some seconds the
first time after an installation; what was compiled is kept beside the sources, or in the
user's cache folder where those cannot be written.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar, cast

import numba

F = TypeVar("F", bound=Callable[..., object])


def compiled(function: F) -> F:
    """Compile a function of numbers and numpy arrays; it runs without the interpreter's lock.

    Integers wrap at 64 bits without warning, and indices are not checked: both are the
    caller's to keep in range.
    """
    try:
        return cast("F", numba.njit(cache=True, nogil=True, error_model="numpy")(function))
    except RuntimeError:  # no folder to keep compiled code in
        return cast("F", numba.njit(nogil=True, error_model="numpy")(function))
