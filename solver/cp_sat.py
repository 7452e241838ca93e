"""CP-SAT, loaded without pandas.

CP-SAT needs pandas only for series of variables, which are not used here, and loading pandas takes
longer than loading CP-SAT. So while it is loaded, a stand-in has the two classes of pandas that it
names; afterwards every name of the stand-in is that of pandas itself, loaded when first asked for.
"""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ortools.sat.python import cp_model as cp_model
else:

    class _Later(ModuleType):
        """Stands in for pandas until a name of it is asked for."""

        def __getattr__(self, name: str) -> Any:
            if sys.modules.get("pandas") is self:
                raise AttributeError(name)
            return getattr(import_module("pandas"), name)

    def _loaded() -> ModuleType:
        name = "ortools.sat.python.cp_model"
        later = None
        if name not in sys.modules and "pandas" not in sys.modules:
            later = sys.modules["pandas"] = _Later("pandas")
            later.Index, later.Series = type("Index", (), {}), type("Series", (), {})
        try:
            return import_module(name)
        finally:
            if later is not None:
                del sys.modules["pandas"], later.Index, later.Series

    cp_model = _loaded()
